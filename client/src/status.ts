/** The language status item: what the open design plays, or the state of the server, always in words. */
import {
  type Disposable,
  type LanguageStatusItem,
  LanguageStatusSeverity,
  l10n,
  languages,
  window,
  workspace,
} from "vscode";
import { type BaseLanguageClient as LanguageClient, State } from "vscode-languageclient";
import { DESIGN_SELECTOR, isDesign } from "./designSelector.js";
import { plainText } from "./plainText.js";
import { instrumentsOf } from "./requests.js";

/** Milliseconds without typing before the summary is requested again: it is for a glance, not for every keystroke. */
const QUIET = 600;

export class Status implements Disposable {
  private readonly item: LanguageStatusItem;
  private readonly listeners: Disposable[];
  private timer: NodeJS.Timeout | undefined;

  constructor(private readonly client: LanguageClient) {
    this.item = languages.createLanguageStatusItem("borewright.status", DESIGN_SELECTOR);
    this.item.name = "Borewright";
    this.show(l10n.t("Borewright is starting"), { busy: true });
    this.listeners = [
      client.onDidChangeState(({ newState }) => this.onState(newState)),
      window.onDidChangeActiveTextEditor(() => this.refreshSoon(0)),
      workspace.onDidChangeConfiguration(
        (event) => event.affectsConfiguration("borewright") && this.refreshSoon(QUIET),
      ),
      workspace.onDidChangeTextDocument(({ document }) => isDesign(document) && this.refreshSoon(QUIET)),
    ];
  }

  dispose(): void {
    clearTimeout(this.timer);
    for (const listener of this.listeners) listener.dispose();
    this.item.dispose();
  }

  failed(reason: string): void {
    this.show(l10n.t("Borewright has failed"), {
      severity: LanguageStatusSeverity.Error,
      detail: reason,
      restart: true,
    });
  }

  private onState(state: State): void {
    if (state === State.Running) this.refreshSoon(0);
    else if (state === State.Starting) this.show(l10n.t("Borewright is starting"), { busy: true });
    else this.show(l10n.t("Borewright has stopped"), { severity: LanguageStatusSeverity.Warning, restart: true });
  }

  private refreshSoon(delay: number): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.refresh(), delay);
  }

  private async refresh(): Promise<void> {
    const document = window.activeTextEditor?.document;
    if (document === undefined || !isDesign(document) || this.client.state !== State.Running) return;
    try {
      const [first, ...others] = await instrumentsOf(
        this.client,
        this.client.code2ProtocolConverter.asUri(document.uri),
      );
      if (first === undefined) return this.show(l10n.t("No instrument in this file yet"), {});
      const { summary, name } = first;
      const more = others.length === 0 ? summary : l10n.t("{0} and {1} more", summary, others.length);
      this.show(more, { detail: name });
    } catch {
      // Overtaken by typing or by a restart: the next change asks again.
    }
  }

  private show(
    text: string,
    options: { busy?: boolean; severity?: LanguageStatusSeverity; detail?: string; restart?: boolean },
  ): void {
    this.item.text = plainText(text);
    this.item.detail = plainText(options.detail ?? "");
    this.item.busy = options.busy === true;
    this.item.severity = options.severity ?? LanguageStatusSeverity.Information;
    this.item.command = options.restart ? { title: l10n.t("Restart"), command: "borewright.restart" } : undefined;
  }
}
