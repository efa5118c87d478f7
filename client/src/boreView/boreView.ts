/** One bore view: keeps its page in step with a design's text. The text stays the truth; the page only asks for edits. */
import { l10n, type Position, type TextDocument, Uri, type WebviewPanel, workspace } from "vscode";
import type { BaseLanguageClient as LanguageClient } from "vscode-languageclient";
import {
  BORE_VIEW,
  type BoreViewAnswer,
  type BoreViewData,
  FIXES,
  type FixesAnswer,
  PROPOSAL,
  type ProposalAnswer,
  type ProposedChange,
  RESPONSE,
  type ResponseAnswer,
  TRY_NUMBER,
  type TrialAnswer,
  type ViewPlace,
} from "../../../server/src/protocol/boreView.js";
import { SOLID, type SolidAnswer } from "../../../server/src/protocol/making.js";
import type { FromView, ToView } from "../../view/messages.js";
import { tellFailure } from "../notify.js";
import { type AskedRekey, askForRekey } from "../rekeyTo.js";
import { begin, carryOut, reveal, written } from "./designText.js";
import { boreViewPage } from "./page.js";
import { savePicture } from "./savePicture.js";
import { closeProposed, showProposed } from "./showProposed.js";

export class BoreView {
  private shown: BoreViewData | undefined;
  private documentIndex: number;
  /** A request is under way; another is due when it is answered. */
  private asking = false;
  private stale = false;
  private ready = false;
  /** The change that the page shows. */
  private proposed: ProposalAnswer | undefined;

  constructor(
    private readonly panel: WebviewPanel,
    private readonly extension: Uri,
    private readonly client: LanguageClient,
    { uri, documentIndex }: ViewPlace,
  ) {
    this.design = Uri.parse(uri, true);
    this.documentIndex = documentIndex;
    panel.iconPath = Uri.joinPath(extension, "docs/images/icon.png");
    panel.webview.options = { enableScripts: true, localResourceRoots: [Uri.joinPath(extension, "dist")] };
    panel.webview.onDidReceiveMessage((message: FromView) => void this.received(message));
    this.load();
  }

  private design: Uri;

  /** The design that is drawn. */
  get uri(): Uri {
    return this.design;
  }

  /** The design is a file now, or another one: the page's kept state goes with it. */
  moveTo(uri: Uri): void {
    this.design = uri;
    this.shown = undefined;
    this.ready = false;
    this.load();
  }

  private load(): void {
    const { panel, extension, documentIndex } = this;
    const place = { uri: this.uri.toString(), documentIndex };
    panel.webview.html = boreViewPage(panel.webview, Uri.joinPath(extension, "dist"), place);
  }

  show(documentIndex: number): void {
    this.documentIndex = documentIndex;
    this.panel.reveal(undefined, true);
    this.refresh();
  }

  dispose(): void {
    this.panel.dispose();
  }

  /** The text has changed. Of many changes while one drawing is under way only the last is drawn. */
  refresh(): void {
    if (!this.ready) return;
    if (this.asking) {
      this.stale = true;
      return;
    }
    void this.ask();
  }

  /** The cursor has moved: its line is marked, and in a file of several instruments the one there is drawn. */
  async follow(position: Position): Promise<void> {
    const { line } = position;
    this.post({ type: "cursor", line });
    // Well inside what is drawn: nothing to request at every step of the cursor.
    if (this.shown !== undefined && line > this.shown.lines[0] && line < this.shown.lines[1]) return;
    const document = await this.document();
    const answer = await this.request<BoreViewAnswer>(BORE_VIEW, {
      uri: this.protocolUri,
      offset: document.offsetAt(position),
    });
    if (answer.view === undefined || answer.view.documentIndex === this.documentIndex) return;
    this.documentIndex = answer.view.documentIndex;
    this.draw(answer);
    this.post({ type: "cursor", line });
  }

  private async ask(): Promise<void> {
    this.asking = true;
    this.stale = false;
    try {
      // The language client learns of a change after us: the server must have been told before it is asked.
      const document = await this.document();
      const question = { uri: this.protocolUri, documentIndex: this.documentIndex };
      // First what a key has changed, then what takes longer: bands and slopes.
      for (const brief of [true, false]) {
        const answer = await this.request<BoreViewAnswer>(BORE_VIEW, { ...question, brief });
        if (answer.view !== undefined && answer.view.version !== document.version) this.stale = true;
        else this.draw(answer);
        if (this.stale || answer.view === undefined) break;
      }
    } catch {
      this.stale ||= true; // cancelled by a newer text
    }
    this.asking = false;
    if (this.stale) setTimeout(() => this.refresh(), 50);
  }

  private draw({ view, trouble }: BoreViewAnswer): void {
    if (view !== undefined) {
      this.shown = view;
      this.post({ type: "view", view });
    } else if (trouble !== undefined) this.post({ type: "trouble", words: trouble });
  }

  private async received(message: FromView): Promise<void> {
    switch (message.type) {
      case "ready":
        this.ready = true;
        await this.document(); // the server knows open documents only
        return this.ask();
      case "reveal":
        return reveal(await this.document(), message.line);
      case "try":
        return this.post({ type: "trial", id: message.id, answer: await this.trial(message) });
      case "commit":
        return this.commit(await this.trial(message));
      case "propose":
        return this.propose(message.change);
      case "rekey":
        return this.rekey();
      case "fixes":
        return this.fixes(message.row);
      case "solid":
        return this.post({ type: "solid", answer: await this.solid() });
      case "respond":
        return this.respond(message.row);
      case "apply":
        return this.apply();
      case "compare":
        return this.proposed && showProposed(await this.document(), this.proposed.edits);
      case "discard":
        return this.discard();
      case "new":
        return begin(await this.document());
      case "text":
        if (await carryOut(await this.document(), message.key)) this.panel.reveal();
        return;
      case "save":
        return savePicture(message, this.uri);
    }
  }

  private async trial({
    path,
    value,
  }: Pick<Extract<FromView, { type: "try" }>, "path" | "value">): Promise<TrialAnswer> {
    try {
      return await this.asked<TrialAnswer>(TRY_NUMBER, { path, value });
    } catch (error) {
      return { edits: [], refused: error instanceof Error ? error.message : String(error) };
    }
  }

  private async commit(answer: TrialAnswer): Promise<void> {
    // Otherwise back to what the text says.
    if (!(await written(await this.document(), answer))) this.post({ type: "endDrag" });
  }

  /** A change worked out and shown before it is made. */
  private async propose(change: ProposedChange): Promise<void> {
    this.post({ type: "working", what: l10n.t("Calculating…") });
    try {
      this.proposed = await this.asked<ProposalAnswer>(PROPOSAL, { change });
      this.post({ type: "proposal", answer: this.proposed });
    } catch (error) {
      this.post({ type: "working", what: undefined });
      tellFailure(l10n.t("This could not be calculated"), error);
    }
  }

  private async rekey(): Promise<void> {
    let asked: AskedRekey | undefined;
    try {
      const { protocolUri: uri, documentIndex } = this;
      asked = await askForRekey(this.client, { uri, documentIndex });
    } catch (error) {
      tellFailure(l10n.t("Rekeying failed"), error);
    }
    if (asked !== undefined) await this.propose({ do: "rekey", to: asked.note, by: asked.by });
  }

  private async fixes(row: number): Promise<void> {
    this.post({ type: "working", what: l10n.t("Looking for fixes…") });
    try {
      this.post({ type: "fixes", row, ...(await this.asked<FixesAnswer>(FIXES, { row })) });
    } catch {
      this.post({ type: "working", what: undefined }); // the text has changed meanwhile
    }
  }

  private async solid(): Promise<SolidAnswer> {
    try {
      return await this.request<SolidAnswer>(SOLID, { uri: this.protocolUri, documentIndex: this.documentIndex });
    } catch {
      return { parts: [] }; // overtaken by a newer text, which asks anew
    }
  }

  private async respond(row: number): Promise<void> {
    try {
      this.post({ type: "response", answer: await this.asked<ResponseAnswer>(RESPONSE, { row }) });
    } catch {
      // The text has changed meanwhile: its drawing asks again.
    }
  }

  private async apply(): Promise<void> {
    const { proposed } = this;
    this.proposed = undefined;
    if (proposed === undefined || !(await written(await this.document(), proposed))) await this.discard();
    else await closeProposed(this.uri);
  }

  private async discard(): Promise<void> {
    this.proposed = undefined;
    this.post({ type: "proposal", answer: undefined });
    await closeProposed(this.uri);
  }

  /** About the instrument that is shown, in the text's version of the moment. */
  private async asked<T>(method: string, more: object): Promise<T> {
    const { version } = await this.document();
    return this.request<T>(method, { uri: this.protocolUri, documentIndex: this.documentIndex, version, ...more });
  }

  private request<T>(method: string, question: object): Promise<T> {
    return this.client.sendRequest<T>(method, question);
  }

  private get protocolUri(): string {
    return this.client.code2ProtocolConverter.asUri(this.uri);
  }

  private async document(): Promise<TextDocument> {
    return workspace.openTextDocument(this.uri);
  }

  private post(message: ToView): void {
    void this.panel.webview.postMessage(message);
  }
}
