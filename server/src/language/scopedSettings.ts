/** The settings of each document and folder, as the client has them at the moment. */
import { INITIAL_SETTINGS, readSettings, type Settings } from "./settings.js";

/** How long to wait for a client, ms; a later answer counts from when it arrives. */
const PATIENCE = 1000;

/** Asks the client for the settings of several scopes at once, each by its URI; without one for those of none. */
export type AskForSettings = (scopes: readonly (string | undefined)[]) => Promise<readonly unknown[]>;

export class ScopedSettings {
  private common = INITIAL_SETTINGS;
  private readonly own = new Map<string, Settings>();
  private readonly awaited = new Map<string, Promise<void>>();
  /** By their text, so that equal settings are the same: results worked out with them stay valid. */
  private readonly known = new Map([[JSON.stringify(INITIAL_SETTINGS), INITIAL_SETTINGS]]);
  private readonly listeners: (() => void)[] = [];
  private round = 0;

  /** @param ask undefined while the client cannot be asked */
  constructor(
    private readonly ask: () => AskForSettings | undefined,
    private readonly complain: (complaint: string) => void,
  ) {}

  /** As far as is known at the moment. @param scope the URI of a document or folder */
  of(scope: string): Settings {
    return this.own.get(scope) ?? this.common;
  }

  /** What to wait for before `of` is final; undefined where it is at once. Never rejects. */
  ready(scope: string): Promise<void> | undefined {
    if (this.own.has(scope) || this.ask() === undefined) return undefined;
    const waiting = this.awaited.get(scope) ?? this.askFor(scope);
    this.awaited.set(scope, waiting);
    return waiting;
  }

  forget(scope: string): void {
    this.own.delete(scope);
    this.awaited.delete(scope);
  }

  /** Called after any have changed. */
  onChange(listener: () => void): void {
    this.listeners.push(listener);
  }

  /** Asks for all that are known, or takes what the client has sent along for all. Never rejects. */
  async refresh(sent: unknown): Promise<void> {
    const round = ++this.round;
    const ask = this.ask();
    const scopes = [...new Set([...this.own.keys(), ...this.awaited.keys()])];
    const [common, ...own] = ask === undefined ? [sent] : await ask([undefined, ...scopes]);
    if (round !== this.round) return; // a newer answer is under way
    const before = [this.common, ...scopes.map((scope) => this.of(scope))];
    const complaints = new Set<string>();
    this.common = this.read(common, complaints);
    for (const [i, scope] of scopes.entries())
      if (ask !== undefined && this.isWanted(scope)) this.own.set(scope, this.read(own[i], complaints));
    for (const complaint of complaints) this.complain(complaint);
    const now = [this.common, ...scopes.map((scope) => this.of(scope))];
    if (now.some((settings, i) => settings !== before[i])) this.tell();
  }

  private isWanted(scope: string): boolean {
    return this.own.has(scope) || this.awaited.has(scope);
  }

  private async askFor(scope: string): Promise<void> {
    const { round } = this;
    let isLate = false;
    const asked = this.ask()?.([scope]).then(([section]) => {
      // A request made after a change gets this answer, too.
      if (round !== this.round || !this.awaited.has(scope)) return;
      this.awaited.delete(scope);
      const before = this.common;
      const complaints = new Set<string>();
      this.own.set(scope, this.read(section, complaints));
      for (const complaint of complaints) this.complain(complaint);
      if (isLate && this.of(scope) !== before) this.tell();
    });
    let timer: ReturnType<typeof setTimeout> | undefined;
    const patience = new Promise<void>((resolve) => {
      timer = setTimeout(() => {
        isLate = true;
        resolve();
      }, PATIENCE);
    });
    await Promise.race([asked, patience]);
    clearTimeout(timer);
  }

  private read(section: unknown, complaints: Set<string>): Settings {
    const { settings, complaints: own } = readSettings(section);
    for (const complaint of own) complaints.add(complaint);
    const text = JSON.stringify(settings);
    const same = this.known.get(text) ?? settings;
    this.known.set(text, same);
    return same;
  }

  private tell(): void {
    for (const listener of this.listeners) listener();
  }
}
