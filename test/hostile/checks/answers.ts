/** Every feature of the editor answers for a text, in words fit to read, about places that the text has. */
import type { Diagnostic } from "vscode-languageserver";
import type { Editor } from "../editor.js";
import { type Fault, thrown } from "../kind.js";
import { linesOf, offsetAt, positionAt, rangesIn } from "../places.js";
import type { Random } from "../random.js";

/** Places at which hover and completion are asked for. */
const PLACES = 4;

export interface Answers {
  readonly faults: readonly Fault[];
  readonly diagnostics: readonly Diagnostic[];
}

/** Asks for everything about an open text. */
export async function answers(editor: Editor, uri: string, text: string, random: Random): Promise<Answers> {
  const lines = linesOf(text);
  const faults: Fault[] = [];
  const textDocument = { uri };
  const whole = { start: { line: 0, character: 0 }, end: positionAt(lines, text.length) };
  const places = Array.from({ length: PLACES }, () => positionAt(lines, random.whole(0, text.length)));
  const ask = async <T>(method: string, more: object = {}): Promise<T | undefined> => {
    try {
      const answer = await editor.ask<T>(`textDocument/${method}`, { textDocument, ...more });
      faults.push(...misplaced(method, answer, lines), ...unfit(method, answer, text));
      return answer;
    } catch (error) {
      faults.push(thrown(`error for ${method}`, error));
      return undefined;
    }
  };
  const report = await ask<{ items: Diagnostic[] }>("diagnostic");
  for (const position of places) {
    await ask("hover", { position });
    await ask("completion", { position });
  }
  await ask("inlayHint", { range: whole });
  await ask("codeLens");
  await ask("documentSymbol");
  await ask("foldingRange");
  return { faults: [...faults, ...editor.failures()], diagnostics: report?.items ?? [] };
}

function misplaced(method: string, answer: unknown, lines: ReturnType<typeof linesOf>): Fault[] {
  for (const { start, end } of rangesIn(answer)) {
    const [from, to] = [offsetAt(lines, start), offsetAt(lines, end)];
    if (from !== undefined && to !== undefined && from <= to) continue;
    return [{ rule: "place outside the text", detail: `${method}: ${JSON.stringify({ start, end })}` }];
  }
  return [];
}

/** What no reader should see, unless the design itself says it. */
const NONSENSE = /\bNaN\b|\bundefined\b|\bInfinity\b|\[object /;
/** C0 but line breaks and tabs, C1, and what turns the direction of writing. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
const INVISIBLE = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/;
const SHOWN = new Set(["message", "title", "label", "value", "tooltip"]);

/** Words of an answer that are not fit to be shown. */
export function unfit(where: string, answer: unknown, text: string): Fault[] {
  for (const [key, words] of wordsIn(answer)) {
    const nonsense = NONSENSE.exec(words)?.[0];
    if (nonsense !== undefined && !text.includes(nonsense))
      return [{ rule: "nonsense shown", detail: `${where}: ${JSON.stringify(words).slice(0, 300)}` }];
    if (SHOWN.has(key) && INVISIBLE.test(words))
      return [{ rule: "not escaped", detail: `${where}, ${key}: ${JSON.stringify(words).slice(0, 300)}` }];
  }
  return [];
}

function* wordsIn(answer: unknown, key = ""): Iterable<readonly [string, string]> {
  if (typeof answer === "string") yield [key, answer];
  else if (typeof answer === "object" && answer !== null)
    for (const [name, part] of Object.entries(answer))
      if (name !== "data" && name !== "newText" && name !== "uri")
        yield* wordsIn(part, Array.isArray(answer) ? key : name);
}
