/** Edits that correct one hole's worst note, by moving or resizing it; or a pipe's, or a vessel's as a whole. */

import { drained, type Steps } from "../../acoustics/steps.js";
import type { DesignDocument } from "../../document/designFile.js";
import type { TextEdit } from "../../document/textEdit.js";
import { type Body, sharedColumn } from "../../instrument/body.js";
import { t } from "../../words/translation.js";
import { constraintsOf } from "../constraints/constraints.js";
import { alongWith, holePlace } from "../constraints/unknowns.js";
import { changeDrawn, changeNumber } from "../edit/numberEdit.js";
import { NumberWriter } from "../edit/numberWriter.js";
import type { Analysis } from "../predict/analysis.js";
import { nameOfFingering } from "../predict/governing.js";
import { centsInWords, deviationInWords, drawnDecimals, drawnLength, toDrawn } from "../wording.js";
import { allowedFootSteps, allowedHoleSteps } from "./allowedChange.js";
import type { HoleChange } from "./change.js";
import { type PredictedAgain, predictedAgainSteps } from "./predictedAgain.js";
import { remedyInWords, volumeDecimals, wholeRemedyInWords } from "./remedy.js";
import { type WholeChange, wholeChangeSteps } from "./wholeChange.js";

export interface HoleFix {
  /** `Move L2 2.4 mm toward the mouth, so that A4 is in tune`. */
  readonly title: string;
  readonly kind: "move" | "resize" | "bore-length" | WholeChange["kind"];
  readonly edits: readonly TextEdit[];
  /** Absent where the bore's length is what changes. */
  readonly hole?: number;
  /** Index of the fingering that comes right. */
  readonly fingering: number;
  /** The smallest of the changes on offer. */
  readonly preferred: boolean;
}

/**
 * The fixes for a hole (or, without one, for the bore's length) that bring fingering `fingering` nearer, each predicted again as it is
 * drawn. Empty where no allowed change does.
 * @param analysis with its targets moved by the shift that all notes share, where `beside` is that shift, cents
 */
export function fixesFor(
  document: DesignDocument,
  analysis: Analysis,
  hole: number | undefined,
  fingering: number,
  beside?: number,
): readonly HoleFix[] {
  return drained(fixSteps(document, analysis, hole, fingering, beside));
}

/** As `fixesFor`, step by step. */
export function* fixSteps(
  document: DesignDocument,
  analysis: Analysis,
  hole: number | undefined,
  fingering: number,
  beside?: number,
): Steps<readonly HoleFix[]> {
  const proposals =
    hole === undefined
      ? yield* WHOLE_PROPOSALS[analysis.instrument.body.kind](document, analysis, fingering)
      : yield* holeProposals(document, analysis, hole, fingering);
  const smallest = Math.min(...proposals.map(({ size = 0 }) => size));
  const fixes: HoleFix[] = [];
  for (const { remedy, size = 0, ...fix } of proposals) {
    const again = yield* predictedAgainSteps(document, analysis, fix.edits, fingering, beside);
    const outcome = again === undefined ? undefined : outcomeInWords(analysis, fingering, again.left, beside);
    if (again === undefined || outcome === undefined) continue;
    const cost = costInWords(analysis, again);
    const title = `${remedy.charAt(0).toUpperCase()}${remedy.slice(1)}, ${outcome}${cost}`;
    fixes.push({ ...fix, title, fingering, preferred: size === smallest });
  }
  return fixes;
}

function* holeProposals(
  document: DesignDocument,
  analysis: Analysis,
  hole: number,
  fingering: number,
): Steps<readonly Proposal[]> {
  const { changes } = yield* allowedHoleSteps(analysis, constraintsOf(document), hole, fingering);
  return changes.map((change) => ({
    remedy: remedyInWords(analysis, change),
    kind: change.kind,
    edits: holeEdits(document, analysis, change),
    hole,
    size: Math.abs(change.change),
  }));
}

/** A change on offer, its title still to be said. */
interface Proposal extends Pick<HoleFix, "kind" | "edits" | "hole"> {
  readonly remedy: string;
  /** Of one of several: how much it changes. */
  readonly size?: number;
}

/** What a fix's title promises: what is left of a note's deviation after it. Undefined where it is no nearer. */
function outcomeInWords(
  analysis: Analysis,
  fingering: number,
  left: number,
  beside: number | undefined,
): string | undefined {
  const prediction = analysis.fingerings[fingering];
  const note = prediction === undefined ? t("its note") : nameOfFingering(prediction);
  if (Math.abs(left) <= analysis.tolerance)
    return t`so that ${note} is in tune${beside === undefined ? "" : t(" with the others")}`;
  if (Math.abs(left) >= Math.abs(prediction?.cents ?? 0)) return undefined;
  const way = t(left < 0 ? "flatter" : "sharper");
  return beside === undefined
    ? t`which leaves ${note} ${deviationInWords(left)}`
    : t`which leaves ${note} ${centsInWords(Math.abs(left))} ${way} than the others`;
}

/** What it costs another note: else two fixes would keep undoing each other. */
function costInWords({ fingerings }: Analysis, { cost }: PredictedAgain): string {
  const other = cost && fingerings[cost.fingering];
  return cost === undefined || other === undefined
    ? ""
    : t`, but ${nameOfFingering(other)} gets ${deviationInWords(cost.cents)}`;
}

function holeEdits(document: DesignDocument, analysis: Analysis, change: HoleChange): readonly TextEdit[] {
  const { instrument } = analysis;
  const { holes, printedUnit, holeUndersize } = instrument;
  const column = sharedColumn(instrument.body);
  if (change.kind === "move" && column !== undefined) {
    const place = holePlace(instrument, column, change.hole);
    const value = change.value / printedUnit;
    const both = [{ path: place.path, offset: 0 }, ...alongWith(place, instrument)];
    const writer = new NumberWriter(document, document);
    const places = both.map(({ path, offset }) => ({ path, value: toDrawn(value + offset, instrument) }));
    writer.writeAll(places, drawnDecimals(instrument));
    return writer.edits;
  }
  const path = holes[change.hole]?.path;
  return path === undefined
    ? []
    : changeDrawn(document, [...path, "diameter"], (change.value + holeUndersize) / printedUnit);
}

type Proposing = (document: DesignDocument, analysis: Analysis, fingering: number) => Steps<readonly Proposal[]>;

/** For a note that no hole decides. */
const WHOLE_PROPOSALS: Readonly<Record<Body["kind"], Proposing>> = {
  tube: boreProposals,
  pipes: sizeProposals,
  vessel: sizeProposals,
};

function* sizeProposals(document: DesignDocument, analysis: Analysis, fingering: number): Steps<readonly Proposal[]> {
  const change = yield* wholeChangeSteps(analysis, fingering);
  if (change === undefined) return [];
  const { kind, path, value } = change;
  return [
    {
      remedy: wholeRemedyInWords(analysis, change),
      kind,
      edits:
        kind === "vessel volume"
          ? changeNumber(document, path, value, volumeDecimals(value))
          : changeDrawn(document, path, value),
    },
  ];
}

function* boreProposals(document: DesignDocument, analysis: Analysis, fingering: number): Steps<readonly Proposal[]> {
  const { instrument } = analysis;
  const [place] = (yield* allowedFootSteps(analysis, constraintsOf(document), fingering)).changes;
  const { bore = [] } = sharedColumn(instrument.body) ?? {};
  const foot = bore.at(-1)?.x;
  const stations = bore.length;
  if (place === undefined || foot === undefined) return [];
  const size = drawnLength(Math.abs(place - foot), instrument);
  const remedy = t`${place < foot ? t("shorten") : t("lengthen")} the bore by ${size}`;
  const path = ["bore", stations - 1, "at"];
  return [
    {
      remedy,
      kind: "bore-length",
      edits: changeDrawn(document, path, place / instrument.printedUnit),
    },
  ];
}
