/** The deviation in cents after each fingering, and after each hole the worst of the notes it governs. */
import { type InlayHint, InlayHintKind, type Range } from "vscode-languageserver";
import type { Analysis } from "../design/predict/analysis.js";
import type { DesignDocument } from "../document/designFile.js";
import type { Span } from "../document/span.js";
import { nodeAt, type TreeNode } from "../document/tree.js";
import { label as shown } from "../escape/label.js";
import { contained } from "../instrument/contained.js";
import type { Path } from "../instrument/finding.js";
import { stepKey } from "./comparing.js";
import type { DesignContext } from "./designContext.js";
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

/** Hints within `range`, or of the whole text. */
export function inlayHints(context: DesignContext, range?: Range, changes?: NoteChanges): InlayHint[] {
  const wanted = offsetsOf(context, range);
  return hintedDocuments(context, range)
    .flatMap((document) => hintsOf(context, document, context.analysis(document), changes))
    .filter(({ offset }) => wanted === undefined || (offset >= wanted.start && offset <= wanted.end))
    .map(({ offset, label, tooltip }) => ({
      position: context.text.positionAt(offset),
      label: shown(label),
      tooltip: shown(tooltip),
      kind: InlayHintKind.Type,
      paddingLeft: true,
    }));
}

function offsetsOf({ text }: DesignContext, range: Range | undefined): Span | undefined {
  return range && { start: text.offsetAt(range.start), end: text.offsetAt(range.end) };
}

interface Hint {
  readonly offset: number;
  readonly label: string;
  readonly tooltip: string;
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
    ...(fingerings ? contained("The hints of fingerings", () => fingeringHints(document, analysis, changes), []) : []),
    ...(holes ? contained("The hints of holes", () => holeHints(document, analysis), []) : []),
  ];
}

function fingeringHints(document: DesignDocument, analysis: Analysis, changes: NoteChanges | undefined): Hint[] {
  return analysis.fingerings.flatMap((prediction, index) => {
    const { fingering, targetHz, predictedHz, cents: deviation } = prediction;
    if (deviation === undefined || targetHz === undefined || predictedHz === undefined) return [];
    const name = fingeringName(fingering, index);
    const changed = changes?.steps.get(stepKey(document.index, index));
    const tooltip = `${name} should sound ${hertz(targetHz)}; predicted ${hertz(predictedHz)}, ${centsInWords(deviation)}`;
    return hintAt(
      document,
      fingering.path,
      // VS Code cuts hints after 43 signs: beside an older text the step stands for the deviation, which the tooltip has.
      `${name} ${changed ?? cents(deviation)}${verdict(deviation, analysis.tolerance)}${changed === undefined ? "" : ` · ${changes?.since}`}`,
      tooltip,
    );
  });
}

function holeHints(document: DesignDocument, analysis: Analysis): Hint[] {
  return analysis.instrument.holes.flatMap((hole, index) => {
    const governed = governedBy(analysis, index);
    const worst = worstOf(governed);
    if (worst === undefined) return [];
    const name = fingeringName(worst.fingering, worst.index);
    const label = `worst ${cents(worst.cents)} (${name})${verdict(worst.cents, analysis.tolerance)}`;
    const names = governed.map(({ fingering, index: i }) => fingeringName(fingering, i)).join(", ");
    const tooltip = `${hole.name} is the ${analysis.instrument.family === "vessel" ? "hole opened last" : "first open hole"} of ${plural(governed.length, "fingering")}: ${names}`;
    return hintAt(document, hole.path, label, tooltip);
  });
}

function hintAt(document: DesignDocument, path: Path, label: string, tooltip: string): Hint[] {
  const node = nodeAt(document.root, path);
  return node === undefined ? [] : [{ offset: endOf(node), label, tooltip }];
}

/** Where the value's own text ends: a block map's span may run on over blank lines and comments to the next entry. */
function endOf(node: TreeNode): number {
  if (node.kind === "scalar" || node.flow || node.source !== undefined) return node.span.end;
  const own: TreeNode[] =
    node.kind === "list" ? [...node.items] : node.entries.filter((e) => !e.merged).map((e) => e.value);
  const ends = own.filter((child) => within(child.span, node.span)).map(endOf);
  return ends.length === 0 ? node.span.end : Math.max(...ends);
}

function within(inner: Span, outer: Span): boolean {
  return inner.start >= outer.start && inner.end <= outer.end;
}
