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
import { Cancelled } from "../acoustics/cancelled.js";
import type { CheckSettings } from "../design/settings.js";
import { stackOf, tellFaultsTo } from "../instrument/contained.js";
import { type ClientFeatures, clientFeatures } from "./capabilities.js";
import type { OtherText } from "./comparing.js";
import { type DesignContext, isDesignText } from "./designContext.js";
import { Designs } from "./designs.js";
import { guarded } from "./guard.js";
import { sliced } from "./inSlices.js";
import type { LongWork } from "./longWork/longWork.js";
import { ScopedSettings } from "./scopedSettings.js";
import { SETTINGS_SECTION } from "./settings.js";

export class Session {
  client: ClientFeatures = clientFeatures({ capabilities: {} } as InitializeParams);
  readonly settings = new ScopedSettings(
    () => (this.client.readsConfiguration ? (scopes) => this.askForSettings(scopes) : undefined),
    (complaint) => this.connection.console.warn(complaint),
  );
  readonly designs = new Designs(
    (uri) => this.settings.of(uri),
    () => this.client,
  );
  /** By URI: older texts beside which designs are shown at the moment. */
  readonly olderTexts = new Map<string, OtherText>();

  constructor(
    readonly connection: Connection,
    readonly texts: TextDocuments<TextDocument>,
    readonly longWork: LongWork,
  ) {
    tellFaultsTo((error, name) => this.log(`${name} failed, and was left out: ${stackOf(error)}`));
    texts.onDidClose(({ document }) => {
      this.designs.close(document.uri);
      this.settings.forget(document.uri);
    });
  }

  begin(client: ClientFeatures): void {
    this.client = client;
  }

  /** Shows the maker a message; if the editor has buttons, one of them opens the full text. */
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
   * Answers a request about a design: `work` gets it in the version of the moment. A file that is not a design costs nothing
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
        const design = await this.design(uri, shouldStop);
        return design === undefined ? fallback : work(design, shouldStop);
      },
    });
  }

  /** The open design in the version of the moment, with its own settings. Rejects with Cancelled. */
  async design(uri: string, shouldStop: () => boolean): Promise<DesignContext | undefined> {
    const text = this.texts.get(uri);
    if (text === undefined || !isDesignText({ uri, getText: () => text.getText() })) return undefined;
    const settings = this.settings.ready(uri);
    if (settings !== undefined) await settings;
    if (shouldStop()) throw new Cancelled();
    return sliced(this.designs.open(this.texts.get(uri)), shouldStop);
  }

  /**
   * Says from then on whether the text is still the same: a file that is closed and opened again is another, even
   * with the same version.
   */
  watch(uri: string): () => boolean {
    const text = this.texts.get(uri);
    const version = text?.version;
    return () => this.texts.get(uri) !== text || text?.version !== version;
  }

  /** What findings depend on besides the design. @param scope of a document or folder */
  checkSettings(scope: string): CheckSettings {
    const { analysis, rules } = this.settings.of(scope);
    return { ...analysis, rules };
  }

  /** Asks the client for its settings, or takes those it has sent along. Never rejects. */
  readSettings(sent?: unknown): Promise<void> {
    return this.settings.refresh(ownSection(sent));
  }

  private async askForSettings(scopes: readonly (string | undefined)[]): Promise<readonly unknown[]> {
    const section = SETTINGS_SECTION;
    const items = scopes.map((scopeUri) => (scopeUri === undefined ? { section } : { section, scopeUri }));
    try {
      const given: unknown = await this.connection.workspace.getConfiguration(items);
      return Array.isArray(given) ? given : [];
    } catch (error) {
      this.log(`Reading the settings failed: ${String(error)}`);
      return [];
    }
  }
}

/** Clients that push their settings send them with or without the section's name around them. */
function ownSection(sent: unknown): unknown {
  const whole = typeof sent === "object" && sent !== null ? (sent as Record<string, unknown>) : {};
  return whole[SETTINGS_SECTION] ?? whole;
}
