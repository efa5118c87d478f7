/** The deviation in cents after each fingering, and after each hole the worst of the notes it governs. */

import { type InlayHint, InlayHintKind, type InlayHintLabelPart, type Range } from "vscode-languageserver";
import type { Steps } from "../acoustics/steps.js";
import type { Analysis } from "../design/predict/analysis.js";
import { governingHoleOf } from "../design/predict/governing.js";
import type { DesignDocument } from "../document/designFile.js";
import type { Span } from "../document/span.js";
import { nodeAt, type TreeNode } from "../document/tree.js";
import { label as shown } from "../escape/label.js";
import { contained } from "../instrument/contained.js";
import type { Path } from "../instrument/finding.js";
import { t } from "../words/translation.js";
import { bodyWords } from "./bodyWords.js";
import { noteFix } from "./commands/fixNote.js";
import { FIX_NOTE_COMMAND, type NotePlace } from "./commands/names.js";
import { stepKey } from "./comparing.js";
import { type DesignContext, rangeOf } from "./designContext.js";
import { governedBy, worstOf } from "./governing.js";
import { cents, centsInWords, fingeringName, hertz, plural, verdict } from "./words.js";

/** The instruments whose analyses the hints within `range` need. */
export function hintedDocuments(context: DesignContext, range?: Range): readonly DesignDocument[] {
  const { settings, file } = context;
  if (!settings.inlayHints.fingerings && !settings.inlayHints.holes) return [];
  const wanted = offsetsOf(context, range);
  return file.documents.filter(
    ({ span }) => wanted === undefined || (span.start <= wanted.end && span.end >= wanted.start),
  );
}

/**
 * Hints within `range`, or of the whole text.
 * @param detailed with tooltips and links, which a capable client requests separately
 */
export function inlayHints(
  context: DesignContext,
  range?: Range,
  changes?: NoteChanges,
  detailed = !context.client.resolvesHints,
): InlayHint[] {
  const wanted = offsetsOf(context, range);
  return hintedDocuments(context, range)
    .flatMap((document) => hintsOf(context, document, context.analysis(document), changes))
    .filter(({ offset }) => wanted === undefined || (offset >= wanted.start && offset <= wanted.end))
    .map(({ offset, label, tooltip, note }) => ({
      position: context.text.positionAt(offset),
      label: detailed ? label.map((part) => detailedPart(context, note, part)) : label.map(plainPart),
      ...(detailed ? { tooltip: shown(tooltip) } : {}),
      kind: InlayHintKind.Type,
      paddingLeft: true,
      data: note,
    }));
}

/** The hint with what is worked out only when the pointer is on it: where its parts lead, and the fix that a click makes. */
export function* resolvedHint(context: DesignContext, hint: InlayHint, note: NotePlace): Steps<InlayHint> {
  const document = context.file.documents[note.documentIndex];
  if (document === undefined || note.textName !== context.textName) return hint;
  yield* context.analysisSteps(document);
  const range = { start: hint.position, end: hint.position };
  const whole = inlayHints(context, range, undefined, true).find((each) => samePlace(each.data as NotePlace, note));
  if (whole === undefined || typeof hint.label === "string" || typeof whole.label === "string") return hint;
  const fix = yield* noteFix(context, note);
  const parts = whole.label.map(({ command, ...part }): InlayHintLabelPart => {
    if (command === undefined || fix === undefined) return part;
    const title = shown(fix.title);
    return { ...part, command: { ...command, title }, tooltip: title };
  });
  // Beside an older text of the design the wording differs.
  const label = hint.label.map(({ value }, index) => ({ ...parts[index], value }));
  return { ...hint, label, ...(whole.tooltip === undefined ? {} : { tooltip: whole.tooltip }) };
}

function samePlace(a: NotePlace, b: NotePlace): boolean {
  return a.documentIndex === b.documentIndex && a.fingering === b.fingering;
}

function plainPart({ value }: Part): InlayHintLabelPart {
  return { value: shown(value) };
}

function detailedPart(context: DesignContext, note: NotePlace, { value, leadsTo, isOut }: Part): InlayHintLabelPart {
  const span = leadsTo?.();
  const location = span && { uri: context.uri, range: rangeOf(context, span) };
  const fixes = isOut === true && context.client.appliesEdits;
  return {
    value: shown(value),
    ...(location === undefined ? {} : { location }),
    ...(fixes ? { command: { title: "Put this note right", command: FIX_NOTE_COMMAND, arguments: [note] } } : {}),
  };
}

function offsetsOf({ text }: DesignContext, range: Range | undefined): Span | undefined {
  return range && { start: text.offsetAt(range.start), end: text.offsetAt(range.end) };
}

interface Part {
  readonly value: string;
  /** Requested only on hover. */
  readonly leadsTo?: () => Span | undefined;
  /** Whether it says that a note is out of tune. */
  readonly isOut?: boolean;
}

interface Hint {
  readonly offset: number;
  readonly label: readonly Part[];
  readonly tooltip: string;
  /** The one it is about. */
  readonly note: NotePlace;
}

/** How notes changed since another text of the design. */
export interface NoteChanges {
  readonly steps: ReadonlyMap<string, string>;
  /** `since the last commit`. */
  readonly since: string;
}

function hintsOf(
  context: DesignContext,
  document: DesignDocument,
  analysis: Analysis,
  changes: NoteChanges | undefined,
): Hint[] {
  const { fingerings, holes } = context.settings.inlayHints;
  return [
    ...(fingerings
      ? contained("The hints of fingerings", () => fingeringHints(context, document, analysis, changes), [])
      : []),
    ...(holes ? contained("The hints of holes", () => holeHints(context, document, analysis), []) : []),
  ];
}

function fingeringHints(
  context: DesignContext,
  document: DesignDocument,
  analysis: Analysis,
  changes: NoteChanges | undefined,
): Hint[] {
  return analysis.fingerings.flatMap((prediction, index) => {
    const { fingering, targetHz, predictedHz, cents: deviation } = prediction;
    if (deviation === undefined || targetHz === undefined || predictedHz === undefined) return [];
    const name = fingeringName(fingering, index);
    const changed = changes?.steps.get(stepKey(document.index, index));
    const tooltip = t`${name} should sound ${hertz(targetHz)}; predicted ${hertz(predictedHz)}, ${centsInWords(deviation)}`;
    // VS Code cuts hints after 43 characters: beside an older text the step stands for the deviation, which the tooltip has.
    const says = `${changed ?? cents(deviation)}${verdict(deviation, analysis.tolerance)}${changed === undefined ? "" : ` · ${changes?.since}`}`;
    const label = [
      { value: `${name} `, leadsTo: () => decidingSpan(document, analysis, index) },
      { value: says, isOut: isOut(deviation, analysis) },
    ];
    return hintAt(context, document, fingering.path, { label, tooltip, fingering: index });
  });
}

/** What decides a note: its hole, or with every hole closed the body. */
function decidingSpan(document: DesignDocument, { instrument, fingerings }: Analysis, index: number): Span | undefined {
  const fingering = fingerings[index]?.fingering;
  const hole = fingering?.covers && governingHoleOf(instrument, fingering);
  const path = hole === undefined ? [bodyWords(instrument.body).whole] : instrument.holes[hole]?.path;
  return path && nodeAt(document.root, path)?.span;
}

function isOut(deviation: number, { tolerance }: Analysis): boolean {
  return Math.abs(deviation) > tolerance;
}

function holeHints(context: DesignContext, document: DesignDocument, analysis: Analysis): Hint[] {
  return analysis.instrument.holes.flatMap((hole, index) => {
    const governed = governedBy(analysis, index);
    const worst = worstOf(governed);
    if (worst === undefined) return [];
    const name = fingeringName(worst.fingering, worst.index);
    const label = [
      { value: t`worst ${cents(worst.cents)} `, isOut: isOut(worst.cents, analysis) },
      { value: `(${name})`, leadsTo: () => nodeAt(document.root, worst.fingering.path)?.span },
      { value: verdict(worst.cents, analysis.tolerance) },
    ];
    const names = governed.map(({ fingering, index: i }) => fingeringName(fingering, i)).join(", ");
    const tooltip = t`${hole.name} is the ${bodyWords(analysis.instrument.body).decidingHole()} of ${plural(governed.length, "fingering")}: ${names}`;
    return hintAt(context, document, hole.path, { label, tooltip, fingering: worst.index });
  });
}

function hintAt(
  { uri, textName, file: { text } }: DesignContext,
  document: DesignDocument,
  path: Path,
  { fingering, ...says }: Pick<Hint, "label" | "tooltip"> & { readonly fingering: number },
): Hint[] {
  const node = nodeAt(document.root, path);
  if (node === undefined) return [];
  return [{ offset: endOf(node, text), ...says, note: { uri, textName, documentIndex: document.index, fingering } }];
}

/** Where the value's own text ends: a block map, and one whose bracket is still missing, may run on to the next entry. */
function endOf(node: TreeNode, text: string): number {
  if (node.kind === "scalar" || node.source !== undefined) return node.span.end;
  if (node.flow && /[}\]]/.test(text.charAt(node.span.end - 1))) return node.span.end;
  const own: TreeNode[] =
    node.kind === "list" ? [...node.items] : node.entries.filter((e) => !e.merged).map((e) => e.value);
  const ends = own.filter((child) => within(child.span, node.span)).map((child) => endOf(child, text));
  return ends.length === 0 ? node.span.end : Math.max(...ends);
}

function within(inner: Span, outer: Span): boolean {
  return inner.start >= outer.start && inner.end <= outer.end;
}
