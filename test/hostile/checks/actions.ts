/** Every action offered on a text does what its title says, and nothing else. */
import type { CodeAction, Diagnostic, Range } from "vscode-languageserver";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { readDesign } from "../../../server/src/document/read.js";
import type { Editor } from "../editor.js";
import { type Fault, thrown } from "../kind.js";
import { linesOf, positionAt, withEdit } from "../places.js";
import type { Random } from "../random.js";
import { isJson, type TextCase } from "../texts.js";
import { unfit } from "./answers.js";
import { editFaults } from "./edited.js";

export interface Offered {
  readonly uri: string;
  readonly diagnostics: readonly Diagnostic[];
  /** Most actions whose edit is worked out only when they are chosen. */
  readonly mostResolved: number;
  /** Of those with an edit at hand. */
  readonly mostFixes: number;
}

export async function actionFaults(
  editor: Editor,
  given: TextCase,
  random: Random,
  { uri, diagnostics, mostResolved, mostFixes }: Offered,
): Promise<readonly Fault[]> {
  const { text } = given;
  const faults: Fault[] = [];
  const seen = new Map<string, { action: CodeAction; found: Diagnostic | undefined }>();
  for (const { range, found } of placesToAsk(text, diagnostics)) {
    const context = { diagnostics: found === undefined ? [] : [found] };
    try {
      const asked = { textDocument: { uri }, range, context };
      for (const action of (await editor.ask<CodeAction[] | null>("textDocument/codeAction", asked)) ?? [])
        if (!seen.has(action.title)) seen.set(action.title, { action, found });
    } catch (error) {
      faults.push(thrown("error for codeAction", error));
    }
  }
  const all = [...seen.values()].filter(({ action }) => action.command === undefined);
  const fixes = all.filter(({ action }) => action.edit !== undefined);
  const later = all.filter(({ action }) => action.edit === undefined);
  for (const { action, found } of chosen(fixes, mostFixes, random)) {
    faults.push(...unfit("codeAction", { title: action.title }, text), ...made(given, uri, action));
    if (found !== undefined) faults.push(...unkept(given, uri, action, found));
  }
  for (const { action } of chosen(later, mostResolved, random)) {
    try {
      const resolved = await editor.ask<CodeAction>("codeAction/resolve", action);
      if (resolved.edit === undefined) faults.push({ rule: "action without an edit", detail: action.title });
      else if (editsIn(resolved) > 0) faults.push(...made(given, uri, resolved));
    } catch (error) {
      // Refused in words: `InvalidRequest` and `RequestFailed` carry why it cannot be done.
      const { code, message } = error as { code?: number; message: string };
      if (code !== -32600 && code !== -32803) faults.push(thrown("error for codeAction/resolve", error));
      else faults.push(...unfit("refusal", { message }, text));
    }
  }
  return [...faults, ...editor.failures()];
}

function chosen<T>(items: readonly T[], most: number, random: Random): readonly T[] {
  const rest = [...items];
  const picked: T[] = [];
  while (picked.length < most && rest.length > 0) picked.push(...rest.splice(random.whole(0, rest.length - 1), 1));
  return picked;
}

/** At each diagnostic, on the key, on the measured notes. */
function placesToAsk(text: string, diagnostics: readonly Diagnostic[]): { range: Range; found?: Diagnostic }[] {
  const lines = linesOf(text);
  const at = (offset: number) => ({ start: positionAt(lines, offset), end: positionAt(lines, offset) });
  const words = [...text.matchAll(/^\s*"?(?:key|measured)"?:/gm)].slice(0, 4);
  return [
    ...diagnostics.slice(0, 12).map((found) => ({ range: found.range, found })),
    ...words.map(({ 0: word, index }) => ({ range: at(index + word.length) })),
  ];
}

/** Edits that change something: a preview carries one that only asks. */
const editsIn = ({ edit }: CodeAction) =>
  (edit?.documentChanges ?? []).flatMap((change) => ("edits" in change ? change.edits : [])).length;

function made({ text, file }: TextCase, uri: string, { title, edit = {} }: CodeAction): readonly Fault[] {
  const after = withEdit(text, uri, edit);
  if (after === undefined) return [{ rule: "edit out of place", detail: title }];
  return editFaults(title, text, after, isJson(file));
}

/** A fix of one note that is not within the tolerance after it, though the title says so. */
function unkept({ text, file }: TextCase, uri: string, { title, edit = {} }: CodeAction, found: Diagnostic): Fault[] {
  if (!/ is in tune$/.test(title)) return [];
  const { documentIndex = 0, data } = (found.data ?? {}) as {
    documentIndex?: number;
    data?: { fingerings?: number[] };
  };
  const index = data?.fingerings?.[0];
  const after = withEdit(text, uri, edit);
  if (index === undefined || after === undefined) return [];
  const design = readDesign(after, isJson(file) ? "json" : "yaml").documents[documentIndex];
  if (design === undefined) return [];
  const { tolerance, fingerings } = analyse(design.resolution.instrument);
  const cents = fingerings[index]?.cents;
  if (cents !== undefined && Math.abs(cents) <= tolerance + 1e-9) return [];
  const was = `${cents?.toFixed(1) ?? "no"} cents, tolerance ${tolerance}`;
  return [{ rule: "title not kept", detail: `${title.replace(/ .*/, "")} leaves its note at ${was}\n${title}` }];
}
