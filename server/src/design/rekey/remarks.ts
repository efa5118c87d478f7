/** Remarks on an instrument that has grown or shrunk as a whole. */

import type { Column } from "../../acoustics/column.js";
import type { DesignDocument } from "../../document/designFile.js";
import { nodeAt } from "../../document/tree.js";
import { type Body, columnsOf, roundShape, sharedColumn } from "../../instrument/body.js";
import { bodyTraits } from "../../instrument/families/bodyTraits.js";
import type { Instrument } from "../../instrument/model.js";
import { t, told } from "../../words/translation.js";
import type { Analysis } from "../predict/analysis.js";
import { longestOf } from "../predict/body.js";
import { lengthInWords } from "../wording.js";
import { USUAL_GROWTH } from "./usualGrowth.js";

/** Smaller changes of size are not mentioned. */
const NOTICEABLE = 0.02;

/** What `longestOf` a body is called. */
const LENGTHS: Readonly<Record<Body["kind"], string>> = {
  tube: told("length"),
  pipes: told("longest pipe"),
  vessel: told("length"),
};

export function growthRemarks(before: Analysis, after: Analysis, document: DesignDocument): readonly string[] {
  const remarks: string[] = [];
  const [old, now] = [before.instrument, after.instrument];
  const growth = longestOf(now.body) / longestOf(old.body);
  if (Math.abs(growth - 1) > NOTICEABLE) {
    const lengths = `${t(LENGTHS[old.body.kind])} ${change(longestOf(old.body), longestOf(now.body), now)}`;
    const changes = [
      ...columnChanges(sharedColumn(old.body), sharedColumn(now.body), now),
      ...vesselChanges(old, now),
      ...pipeChanges(old, now),
      lengths,
    ];
    remarks.push(
      growth > 1
        ? t`Everything grows in proportion: ${changes.join(", ")}.`
        : t`Everything shrinks in proportion: ${changes.join(", ")}.`,
    );
  }
  return [...remarks, ...measuredRemarks(document)];
}

/** Mentioned if the usual bore would differ by at least this, as it does after a rekey by about a fourth. */
const OTHER_BORE = 0.2;

/** Reports a bore that was kept and is now wide or narrow for its length. */
export function boreRemarks({ instrument: old }: Analysis, { instrument: now }: Analysis): readonly string[] {
  const [first, station] = [sharedColumn(old.body)?.bore[0], sharedColumn(now.body)?.bore[0]];
  if (first === undefined || station === undefined || !bodyTraits(now.body).hasLength) return [];
  const usual = first.radius * (longestOf(now.body) / longestOf(old.body)) ** USUAL_GROWTH;
  if (Math.abs(usual / first.radius - 1) < OTHER_BORE) return [];
  const [kept, wanted] = [station.radius, usual].map((radius) => inWords(2 * radius, now));
  return [
    t`The bore keeps its ${kept}; for this length makers usually choose about ${wanted}. With \`refit: { growth: ${USUAL_GROWTH} }\` or --growth a refit lets bore, mouth and holes grow.`,
  ];
}

/** A section that keeps less than this share of its part of the bore is mentioned… */
const SHRUNK = 0.5;
/** …where its slope differs from its neighbour's by this much, in width over length: else its ends may lie anywhere. */
const OTHER_SLOPE = 0.002;

/** Reports a section of its own slope (a cylinder, a flare at the foot) that a refit made so short that the bore has another shape. */
export function shapeRemarks({ instrument: old }: Analysis, { instrument: now }: Analysis): readonly string[] {
  const [before, after] = [sharedColumn(old.body)?.bore ?? [], sharedColumn(now.body)?.bore ?? []];
  if (before.length !== after.length) return [];
  const growth = longestOf(now.body) / longestOf(old.body);
  const lengthOf = (bore: Column["bore"], i: number) => (bore[i + 1]?.x ?? Number.NaN) - (bore[i]?.x ?? Number.NaN);
  const slope = (i: number) => (2 * ((before[i + 1]?.radius ?? 0) - (before[i]?.radius ?? 0))) / lengthOf(before, i);
  const isOfItsOwn = (i: number) =>
    [i - 1, i + 1].some((other) => Math.abs(slope(i) - slope(other)) > OTHER_SLOPE && lengthOf(before, other) > 0);
  return before.slice(1).flatMap((_, i) => {
    const [was, is] = [lengthOf(before, i), lengthOf(after, i)];
    if (!(is < SHRUNK * growth * was && isOfItsOwn(i))) return [];
    return [
      t`The bore between stations ${i + 1} and ${i + 2} shrinks from ${inWords(was, now)} to ${inWords(is, now)}. To keep it, state where these stations may lie (limits.at).`,
    ];
  });
}

export function measuredRemarks({ root }: DesignDocument): readonly string[] {
  if (nodeAt(root, ["measured"]) === undefined) return [];
  return [t("The `measured` notes belong to the instrument before this change; measure again after printing.")];
}

/** Of a refit, which marks the measured notes of the instrument as it was. */
export function setAsideRemarks({ instrument: { measured } }: Analysis): readonly string[] {
  if (measured.length === 0) return [];
  return [
    t(
      "The `measured` notes belong to the instrument before this change. They are set aside (setAside: true) and not used again. Measure again after printing.",
    ),
  ];
}

function columnChanges(old: Column | undefined, now: Column | undefined, unit: InUnit): string[] {
  if (old === undefined || now === undefined) return [];
  return [t`wall ${change(old.wall, now.wall, unit)}`, ...widest(old, now, unit), ...gaps(old, now, unit)];
}

function vesselChanges(old: Analysis["instrument"], now: Analysis["instrument"]): string[] {
  const [before, after] = [roundShape(old.body), roundShape(now.body)];
  if (before === undefined || after === undefined) return [];
  return [t`wall ${change(before.wall, after.wall, now)}`, ...widest(before, after, now)];
}

function pipeChanges(old: Analysis["instrument"], now: Analysis["instrument"]): string[] {
  const width = ({ body }: Analysis["instrument"]) =>
    2 * Math.max(...columnsOf(body).flatMap(({ bore }) => bore.map(({ radius }) => radius)));
  return !bodyTraits(old.body).notesApart ? [] : [t`widest pipe ${change(width(old), width(now), now)}`];
}

type WithHoles = { readonly holes: readonly { readonly radius: number }[] };

function widest(old: WithHoles, now: WithHoles, unit: InUnit): string[] {
  const diameter = ({ holes }: WithHoles) => 2 * Math.max(...holes.map(({ radius }) => radius));
  return old.holes.length === 0 ? [] : [t`widest hole ${change(diameter(old), diameter(now), unit)}`];
}

function gaps(old: Column, now: Column, unit: InUnit): string[] {
  const gap = ({ holes }: Column) => Math.max(...holes.slice(1).map(({ x }, i) => x - (holes[i]?.x ?? x)));
  return old.holes.length < 2 ? [] : [t`widest gap between holes ${change(gap(old), gap(now), unit)}`];
}

type InUnit = Pick<Instrument, "unitMillimetres">;

/** Printed sizes, m. */
const change = (from: number, to: number, unit: InUnit): string => `${inWords(from, unit)} → ${inWords(to, unit)}`;

/** A printed size, m, to a tenth of a millimetre. */
const inWords = (metres: number, unit: InUnit): string => lengthInWords(metres, unit, 1);
