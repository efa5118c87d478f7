/** A text changed piece by piece, with requests in between, against a fresh server that is given the whole. */
import type { Diagnostic } from "vscode-languageserver";
import { drawnDesign, FAMILIES } from "../drawnDesign.js";
import { Editor } from "../editor.js";
import { type Fault, type Kind, type Parts, thrown } from "../kind.js";
import { damaged } from "../mutations.js";
import { linesOf, positionAt } from "../places.js";
import { Random } from "../random.js";
import { examples, type TextCase } from "../texts.js";
import { written } from "../written.js";

interface Splice {
  /** Offsets beyond the text wrap to its start. */
  readonly start: number;
  readonly length: number;
  readonly put: string;
}

interface ChangesCase extends TextCase {
  /** Each is one message of the editor. */
  readonly messages: readonly (readonly Splice[])[];
}

const PIECES = [
  "",
  "",
  "1",
  "9",
  "\n",
  "\r\n",
  " ",
  "  - ",
  "{",
  "}",
  '"',
  "#",
  "&a ",
  "*a",
  "●",
  "🎶",
  "holes:",
  "at: 200",
  ", ",
  "---\n",
];
const URI = "file:///hostile/changes/";

export const changes: Kind<ChangesCase> = {
  name: "changes",
  share: 4,
  draw: (random) => {
    const design = random.chance(0.5)
      ? random.pick(examples())
      : written(drawnDesign(random, random.pick(FAMILIES)), random);
    const text = random.chance(0.2) ? damaged(design.text, random) : design.text;
    const messages = Array.from({ length: random.whole(1, 12) }, () =>
      Array.from({ length: random.whole(1, 4) }, () => drawnSplice(random, text)),
    );
    return { file: design.file, text, draws: random.whole(0, 2 ** 30), messages };
  },
  check: changesFaults,
  parts: [
    { of: ({ messages }) => messages, from: (given, messages) => ({ ...given, messages }) },
    { of: ({ text }) => text.split("\n"), from: (given, lines) => ({ ...given, text: lines.join("\n") }) },
  ] satisfies Parts<ChangesCase>[],
};

function drawnSplice(random: Random, text: string): Splice {
  const start = random.whole(0, 2 * text.length);
  const moved = random.whole(0, text.length);
  const put = random.chance(0.3) ? text.slice(moved, moved + random.whole(0, 80)) : random.pick(PIECES);
  return { start, length: random.chance(0.5) ? 0 : random.whole(0, 30), put };
}

async function changesFaults({ file, text, draws, messages }: ChangesCase): Promise<readonly Fault[]> {
  const uri = URI + file;
  const random = new Random(draws);
  const edited = await Editor.start();
  const fresh = await Editor.start();
  try {
    edited.open(uri, text);
    let now = text;
    for (const [i, splices] of messages.entries()) {
      const contentChanges = splices.map((splice) => {
        const [start, end] = spanOf(now, splice);
        const lines = linesOf(now);
        const range = { start: positionAt(lines, start), end: positionAt(lines, end) };
        now = now.slice(0, start) + splice.put + now.slice(end);
        return { range, text: splice.put };
      });
      edited.change(uri, i + 2, random.chance(0.1) ? [{ text: now }] : contentChanges);
      // Overtaken by the next message, as while typing: whatever they answer is thrown away.
      if (random.chance(0.5)) void ask(edited, "inlayHint", uri, { range: WHOLE });
      if (random.chance(0.3)) await ask(edited, "diagnostic", uri, {});
    }
    fresh.open(uri, now);
    const seed = random.whole(0, 2 ** 30);
    const [first, second] = [await everything(edited, uri, now, seed), await everything(fresh, uri, now, seed)];
    return [...differences(first, second), ...edited.failures(), ...fresh.failures()];
  } finally {
    edited.end();
    fresh.end();
  }
}

/** Never inside a CRLF: editors do not put a place there. */
function spanOf(text: string, { start, length }: Splice): readonly [number, number] {
  const at = start % (text.length + 1);
  const whole = (offset: number) => (text.slice(offset - 1, offset + 1) === "\r\n" ? offset - 1 : offset);
  return [whole(at), whole(Math.min(text.length, at + length))];
}

const WHOLE = { start: { line: 0, character: 0 }, end: { line: 1e6, character: 0 } };

async function ask(editor: Editor, method: string, uri: string, more: object): Promise<unknown> {
  try {
    return await editor.ask(`textDocument/${method}`, { textDocument: { uri }, ...more });
  } catch (error) {
    return thrown("error", error);
  }
}

async function everything(editor: Editor, uri: string, text: string, seed: number): Promise<Record<string, unknown>> {
  const random = new Random(seed);
  const lines = linesOf(text);
  const position = () => positionAt(lines, random.whole(0, text.length));
  const diagnostic = (await ask(editor, "diagnostic", uri, {})) as { items?: Diagnostic[] };
  const answers: Record<string, unknown> = { diagnostic: diagnostic.items };
  for (const method of ["codeLens", "documentSymbol", "foldingRange"])
    answers[method] = await ask(editor, method, uri, {});
  const hints = (await ask(editor, "inlayHint", uri, { range: WHOLE })) as
    | readonly { label: string | readonly unknown[] }[]
    | null;
  // Those kept from before the text could not be read are marked, and a fresh server knows of none.
  answers.inlayHint = hints?.filter?.(({ label }) => typeof label !== "string" || !label.endsWith("(before)")) ?? hints;
  for (let i = 0; i < 4; i++) {
    const at = position();
    answers[`hover ${i}`] = await ask(editor, "hover", uri, { position: at });
    answers[`completion ${i}`] = await ask(editor, "completion", uri, { position: at });
  }
  for (const found of diagnostic.items?.slice(0, 2) ?? [])
    answers[`codeAction ${found.code}`] = await ask(editor, "codeAction", uri, {
      range: found.range,
      context: { diagnostics: [found] },
    });
  return answers;
}

/** Of everything but what counts the messages and the readings of the text. */
const COUNTS = new Set(["version", "textName"]);

function differences(first: Record<string, unknown>, second: Record<string, unknown>): readonly Fault[] {
  const plain = (answer: unknown) =>
    JSON.stringify(answer, (key, value) => (COUNTS.has(key) ? undefined : value)) ?? "";
  return Object.keys(second).flatMap((name) => {
    const [one, other] = [plain(first[name]), plain(second[name])];
    if (one === other) return [];
    const at = [...one].findIndex((character, i) => character !== other[i]);
    const near = (text: string) => text.slice(Math.max(0, at - 80), at + 80);
    return [{ rule: "not as a fresh server", detail: `${name.replace(/ .*/, "")}\n${near(one)}\n${near(other)}` }];
  });
}
