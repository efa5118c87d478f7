/** What one client's session keeps: its texts, its settings, its designs; and the way every request is answered. */
import {
  type CancellationToken,
  type Connection,
  type InitializeParams,
  type MessageType,
  type ResponseError,
  ShowMessageNotification,
  ShowMessageRequest,
  type TextDocuments,
} from "vscode-languageserver";
import type { TextDocument } from "vscode-languageserver-textdocument";
import type { CheckSettings } from "../design/settings.js";
import { stackOf, tellFaultsTo } from "../instrument/contained.js";
import { type ClientFeatures, clientFeatures } from "./capabilities.js";
import type { OtherText } from "./comparing.js";
import type { DesignContext } from "./designContext.js";
import { Designs } from "./designs.js";
import { guarded } from "./guard.js";
import { sliced } from "./inSlices.js";
import type { LongWork } from "./longWork/longWork.js";
import { INITIAL_SETTINGS, readSettings, SETTINGS_SECTION, type Settings } from "./settings.js";

export class Session {
  client: ClientFeatures = clientFeatures({ capabilities: {} } as InitializeParams);
  readonly designs = new Designs(
    () => this.settings,
    () => this.client,
  );
  /** By URI: older texts beside which designs are shown at the moment. */
  readonly olderTexts = new Map<string, OtherText>();
  private settings: Settings = INITIAL_SETTINGS;
  private readonly settingsListeners: (() => void)[] = [];
  private settingsAsked = 0;

  constructor(
    readonly connection: Connection,
    readonly texts: TextDocuments<TextDocument>,
    readonly longWork: LongWork,
  ) {
    tellFaultsTo((error, name) => this.log(`${name} failed, and was left out: ${stackOf(error)}`));
    texts.onDidClose(({ document }) => this.designs.close(document.uri));
  }

  begin(client: ClientFeatures): void {
    this.client = client;
  }

  /** What the maker should read now. With a button where the editor has them: then it shows the whole, until it was read. */
  tell(type: MessageType, message: string): void {
    const { connection } = this;
    if (!this.client.showsButtons) void connection.sendNotification(ShowMessageNotification.type, { type, message });
    else
      connection
        .sendRequest(ShowMessageRequest.type, { type, message, actions: [{ title: "OK" }] })
        .catch((error) => this.log(`A message could not be shown: ${String(error)}`));
  }

  log(message: string): void {
    this.connection.console.error(message);
  }

  /**
   * Answers a request about a design: `work` gets it in the version of the moment. A file that is no design costs nothing
   * and gets the fallback.
   */
  answer<T>(
    name: string,
    uri: string,
    token: CancellationToken,
    fallback: T,
    work: (design: DesignContext, shouldStop: () => boolean) => T | Promise<T>,
  ): Promise<T | ResponseError<void>> {
    return guarded({
      name: `${name} for ${uri}`,
      token,
      isStale: this.watch(uri),
      fallback,
      log: (message) => this.log(message),
      work: async (shouldStop) => {
        const design = await sliced(this.designs.open(this.texts.get(uri)), shouldStop);
        return design === undefined ? fallback : work(design, shouldStop);
      },
    });
  }

  /**
   * Tells from then on whether the text is still the very one: a file that is closed and opened again is another, though its
   * version be the same.
   */
  watch(uri: string): () => boolean {
    const text = this.texts.get(uri);
    const version = text?.version;
    return () => this.texts.get(uri) !== text || text?.version !== version;
  }

  /** What findings depend on besides the design. */
  get checkSettings(): CheckSettings {
    return { ...this.settings.analysis, rules: this.settings.rules };
  }

  /** Called after the settings have changed. */
  onSettings(listener: () => void): void {
    this.settingsListeners.push(listener);
  }

  /** Asks the client for its settings, or takes those it has sent along. Never throws. */
  async readSettings(sent?: unknown): Promise<void> {
    const asked = ++this.settingsAsked;
    const section = this.client.readsConfiguration ? await this.askForSettings() : ownSection(sent);
    if (asked !== this.settingsAsked) return; // a newer answer is under way
    const { settings, complaints } = readSettings(section);
    for (const complaint of complaints) this.connection.console.warn(complaint);
    if (JSON.stringify(settings) === JSON.stringify(this.settings)) return;
    this.settings = settings;
    for (const listener of this.settingsListeners) listener();
  }

  private async askForSettings(): Promise<unknown> {
    try {
      return await this.connection.workspace.getConfiguration(SETTINGS_SECTION);
    } catch (error) {
      this.log(`Reading the settings failed: ${String(error)}`);
      return undefined;
    }
  }
}

/** Clients that push their settings send them with or without the section's name around them. */
function ownSection(sent: unknown): unknown {
  const whole = typeof sent === "object" && sent !== null ? (sent as Record<string, unknown>) : {};
  return whole[SETTINGS_SECTION] ?? whole;
}
