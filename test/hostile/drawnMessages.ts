/** Random messages that break the protocol, or the server. */

import { damaged } from "./mutations.js";
import type { Random } from "./random.js";
import { examples } from "./texts.js";

export interface Message {
  readonly jsonrpc: "2.0";
  readonly id?: number | string;
  readonly method?: string;
  readonly params?: unknown;
  readonly result?: unknown;
  /** The body as it is, instead of all this. */
  readonly raw?: string;
}

const URIS = ["file:///h/a.bore.yaml", "file:///h/b.bore.json", "untitled:c.bore.yaml", "file:///h/%zz.bore.yaml"];
const NO_URIS: readonly unknown[] = [...URIS, "", "file:///h/not-open.bore.yaml", "x", null, 7, {}, []];
const WRONG: readonly unknown[] = [
  null,
  0,
  -1,
  1.5,
  1e9,
  2 ** 53,
  "3",
  "",
  true,
  [],
  {},
  [[]],
  { line: 1 },
  { start: 3 },
];
const METHODS = "hover completion inlayHint codeLens documentSymbol foldingRange codeAction diagnostic".split(" ");

export class Messages {
  private id = 0;

  constructor(private readonly random: Random) {}

  request(method: string, params?: unknown): Message {
    return { jsonrpc: "2.0", id: ++this.id, method, ...(params !== undefined && { params }) };
  }

  notification(method: string, params?: unknown): Message {
    return { jsonrpc: "2.0", method, ...(params !== undefined && { params }) };
  }

  initialize(): Message {
    const { random } = this;
    const capabilities = random.chance(0.3)
      ? random.pick(WRONG)
      : {
          textDocument: { ...(random.chance(0.6) && { diagnostic: {} }), hover: {} },
          workspace: random.pick<unknown>([{}, { configuration: true }, null, 7]),
        };
    const initializationOptions = random.pick<unknown>([
      undefined,
      { commands: ["borewright.rekeyTo"] },
      7,
      [],
      { commands: 7, rulePages: {} },
    ]);
    return this.request("initialize", { processId: null, rootUri: null, capabilities, initializationOptions });
  }

  /** One or many messages of one sort of abuse. */
  abuse(): readonly Message[] {
    const { random } = this;
    const sort = random.whole(0, 11);
    if (sort <= 1) return [this.opened()];
    if (sort === 2) return [this.changed()];
    if (sort === 3) return this.reopened();
    if (sort === 4) return this.storm();
    if (sort === 5) return [this.ofCommand()];
    if (sort === 6) return [this.stray()];
    if (sort === 7) return [this.resolve()];
    if (sort === 8) return Array.from({ length: random.whole(20, 300) }, () => this.asked(true));
    return Array.from({ length: random.whole(1, 6) }, () => this.asked(random.chance(0.3)));
  }

  private wrong(right: unknown): unknown {
    return this.random.chance(0.5) ? right : this.random.pick(WRONG);
  }

  private position(sound: boolean): unknown {
    const { random } = this;
    const right = { line: random.whole(0, 40), character: random.whole(0, 60) };
    if (sound) return right;
    return random.pick<unknown>([
      random.pick(WRONG),
      { line: random.pick(WRONG), character: random.whole(0, 9) },
      { line: random.whole(0, 9), character: random.pick(WRONG) },
      right,
    ]);
  }

  private range(sound: boolean): unknown {
    if (!sound && this.random.chance(0.3)) return this.random.pick(WRONG);
    return { start: this.position(sound), end: this.position(sound) };
  }

  private asked(sound: boolean): Message {
    const { random } = this;
    const textDocument = sound ? { uri: random.pick(URIS) } : this.wrong({ uri: random.pick(NO_URIS) });
    const context = sound
      ? { diagnostics: [] }
      : this.wrong({ diagnostics: random.pick(WRONG), only: random.pick(WRONG) });
    const params = { textDocument, position: this.position(sound), range: this.range(sound), context };
    return this.request(`textDocument/${random.pick(METHODS)}`, sound ? params : this.wrong(params));
  }

  private text(): string {
    const { text } = this.random.pick(examples());
    return this.random.chance(0.4) ? damaged(text, this.random) : text;
  }

  private opened(): Message {
    const { random } = this;
    const good = { uri: random.pick(URIS), languageId: "yaml", version: random.whole(-1, 3), text: this.text() };
    const bad = { ...good, [random.pick(["uri", "languageId", "version", "text"])]: random.pick(WRONG) };
    return this.notification("textDocument/didOpen", { textDocument: random.chance(0.8) ? good : this.wrong(bad) });
  }

  private changed(): Message {
    const { random } = this;
    const sound = random.chance(0.5);
    const contentChanges = Array.from({ length: random.whole(0, 4) }, () => ({
      ...(random.chance(0.8) && { range: this.range(sound) }),
      text: sound ? random.pick(["", "1", "\n", "{"]) : this.wrong(""),
    }));
    const textDocument = {
      uri: random.pick(sound ? URIS : NO_URIS),
      version: sound ? random.whole(1, 9) : random.pick(WRONG),
    };
    return this.notification("textDocument/didChange", {
      textDocument,
      contentChanges: sound ? contentChanges : this.wrong(contentChanges),
    });
  }

  /** Closed, perhaps twice, and opened again at the same version with another text, while questions wait. */
  private reopened(): readonly Message[] {
    const uri = this.random.pick(URIS);
    const open = () =>
      this.notification("textDocument/didOpen", {
        textDocument: { uri, languageId: "yaml", version: 1, text: this.text() },
      });
    const close = this.notification("textDocument/didClose", { textDocument: { uri } });
    return [
      open(),
      this.asked(true),
      this.asked(true),
      close,
      ...(this.random.chance(0.3) ? [close] : []),
      open(),
      this.asked(true),
    ];
  }

  /** Questions and their cancellations, some before the question. */
  private storm(): readonly Message[] {
    const cancel = (id: unknown) => this.notification("$/cancelRequest", { id });
    return Array.from({ length: this.random.whole(5, 60) }, () => this.asked(true)).flatMap((request) => {
      const messages = [request, cancel(request.id)];
      if (this.random.chance(0.1)) messages.push(cancel(this.random.pick(WRONG)));
      return this.random.chance(0.1) ? messages.toReversed() : messages;
    });
  }

  private ofCommand(): Message {
    const { random } = this;
    const uri = random.pick(NO_URIS);
    const call = {
      uri,
      documentIndex: random.pick([0, 0, ...WRONG]),
      note: random.pick(["A4", "H9", ...WRONG]),
      by: random.pick(["redraw", "print-scale", ...WRONG]),
    };
    const args = random.pick<unknown>([[call], call, random.pick(WRONG), [random.pick(WRONG)]]);
    return random.pick([
      () =>
        this.request("workspace/executeCommand", {
          command: random.pick<unknown>(["borewright.rekey", "no.such", 7]),
          arguments: args,
        }),
      () => this.request("borewright/instruments", random.pick<unknown>([{ uri }, uri, undefined, []])),
      () => this.request("borewright/rekeyPreview", random.pick<unknown>([call, uri, undefined, []])),
    ])();
  }

  private resolve(): Message {
    const { random } = this;
    const work = random.pick<unknown>([
      { do: "rekey", to: "A4", by: "redraw" },
      { do: random.pick(WRONG) },
      random.pick(WRONG),
    ]);
    const data = {
      uri: random.pick(NO_URIS),
      version: random.pick([1, ...WRONG]),
      documentIndex: random.pick([0, ...WRONG]),
      work,
    };
    return this.request(
      "codeAction/resolve",
      random.pick<unknown>([{ title: "x", data }, { title: 7, data: 7 }, random.pick(WRONG)]),
    );
  }

  private stray(): Message {
    const { random } = this;
    return random.pick<() => Message>([
      () => this.request(random.pick(["no/such", "textDocument/rename", "$/internal", ""]), random.pick(WRONG)),
      () =>
        this.notification(
          random.pick(["no/such", "$/setTrace", "initialized", "workspace/didChangeWatchedFiles"]),
          random.pick(WRONG),
        ),
      () =>
        this.notification("workspace/didChangeConfiguration", {
          settings: random.pick<unknown>([...WRONG, { borewright: { tolerance: "x", rules: 7 } }]),
        }),
      () => ({ jsonrpc: "2.0", id: random.whole(500, 600), result: null }),
      () => this.notification("window/workDoneProgress/cancel", { token: random.pick(WRONG) }),
      () => this.initialize(),
      () => ({
        jsonrpc: "2.0",
        raw: random.pick(["{not json", "[]", "null", "7", '"x"', "{}", "", "\u0000", '[{"id":1}]', '{"method":7}']),
      }),
    ])();
  }
}
