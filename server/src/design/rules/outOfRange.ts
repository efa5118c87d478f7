/** model/out-of-range: a dimension or a note where a formula of the prediction has not been checked. */

import { type RangeQuantity, type RangeWarning, rangeWarnings } from "../../acoustics/ranges.js";
import { vesselWarnings } from "../../acoustics/vesselRanges.js";
import type { Vessel } from "../../acoustics/vesselShape.js";
import { columnFor, roundShape, sharedColumn } from "../../instrument/body.js";
import { besideEachOther } from "../../instrument/digits.js";
import type { Finding, Path, RuleCode } from "../../instrument/finding.js";
import { holeName } from "../fix/remedy.js";
import type { Analysis } from "../predict/analysis.js";
import { nameOfFingering } from "../predict/governing.js";
import type { Rule } from "./rule.js";

const OUT_OF_RANGE: RuleCode = "model/out-of-range";

export const outOfRange: Rule = {
  code: OUT_OF_RANGE,
  title: "dimensions beyond what the prediction was checked for",
  check: (analysis) => {
    const { body } = analysis.instrument;
    const [shape, column] = [roundShape(body), sharedColumn(body)];
    if (shape !== undefined) return vesselFindings(analysis, shape);
    if (body.kind === "pipes") return pipeFindings(analysis);
    if (column === undefined) return [];
    const frequencies = analysis.fingerings.map(({ predictedHz }) => predictedHz);
    const warnings = rangeWarnings(column, analysis.air, frequencies);
    const high = warnings.find(({ note }) => note !== undefined);
    return [
      ...warnings.flatMap((warning) => windowFinding(warning) ?? holeFinding(analysis, warning) ?? []),
      ...(high === undefined ? [] : [noteFinding(analysis, high)]),
    ];
  },
};

const CHECKED: Record<RangeQuantity, string> = {
  "hole over bore": "of the bore's width",
  "chimney over hole radius": "times its radius deep",
  "distance of holes over bore radius": "bore radii from the hole before it",
  "length of a hole over its width": "times as long as wide",
  "slope of an undercut": "of the chimney's length undercut on each side",
  "space behind the window over bore radius": "bore radii long",
  "wave number times bore radius": "",
};

/** What to look at, where it is not the diameter. */
const PROPERTY: Partial<Record<RangeQuantity, string>> = {
  "distance of holes over bore radius": "at",
  "length of a hole over its width": "length",
  "slope of an undercut": "undercut",
};

function windowFinding({ quantity, value, greatest }: RangeWarning): Finding | undefined {
  if (quantity !== "space behind the window over bore radius") return undefined;
  return finding(
    `The closed space behind the window is ${value.toFixed(1)} ${CHECKED[quantity]}; the prediction was checked up to ${greatest}. All notes are less sure.`,
    ["mouth", "window", "stopper"],
  );
}

function holeFinding(analysis: Analysis, warning: RangeWarning): Finding | undefined {
  const { hole, quantity, value, least, greatest } = warning;
  const path = hole === undefined ? undefined : analysis.instrument.holes[hole]?.path;
  if (hole === undefined || path === undefined) return undefined;
  const { is, from, to } = shares(value, least, greatest);
  const range = greatest === Number.POSITIVE_INFINITY ? `at least ${from}` : `${from} to ${to}`;
  const property = PROPERTY[quantity] ?? "diameter";
  return finding(
    `${holeName(analysis, hole)} is ${is} ${CHECKED[quantity]}; the prediction was checked for ${range}. Its notes are less sure.`,
    [...path, property],
  );
}

/** A ratio and the range it is outside of, never to be read as inside. */
function shares(value: number, least: number, greatest: number) {
  const [is, from, to] = besideEachOther([value, least, greatest].map((each) => ({ value: each, decimals: 2 })));
  return { is, from, to };
}

/** Pipes too wide for their notes: one finding, at the lowest of them. */
function pipeFindings(analysis: Analysis): readonly Finding[] {
  const high = analysis.fingerings.findIndex(({ predictedHz }, i) => {
    const column = columnFor(analysis.instrument.body, i);
    return column !== undefined && rangeWarnings(column, analysis.air, [predictedHz]).length > 0;
  });
  return high < 0 ? [] : [noteFinding(analysis, { note: high })];
}

function vesselFindings(analysis: Analysis, shape: Vessel): readonly Finding[] {
  const warnings = vesselWarnings(
    shape,
    analysis.air,
    analysis.fingerings.map(({ predictedHz }) => predictedHz),
  );
  return warnings.map(({ quantity, value, greatest, hole, note }) => {
    if (quantity === "vessel's half length in wave numbers") {
      const prediction = analysis.fingerings[note ?? 0];
      return finding(
        `${prediction ? nameOfFingering(prediction) : "A note"} is high for so long a vessel: it and higher notes are less sure.`,
        prediction?.fingering.path ?? [],
      );
    }
    const { is, to } = shares(value, 0, greatest);
    const name = hole === undefined ? "The mouth" : holeName(analysis, hole);
    const path = hole === undefined ? ["mouth"] : [...(analysis.instrument.holes[hole]?.path ?? []), "diameter"];
    return finding(
      `${name} is ${is} of the chamber's narrowest half; the prediction was checked up to ${to}. Its notes are less sure.`,
      path,
    );
  });
}

/** One finding for all high notes: the lowest that is beyond. */
function noteFinding(analysis: Analysis, { note = 0 }: Pick<RangeWarning, "note">): Finding {
  const prediction = analysis.fingerings[note];
  const name = prediction === undefined ? "A note" : nameOfFingering(prediction);
  return finding(
    `${name} is high for so wide a bore: the prediction was not checked up there, and it and higher notes are less sure.`,
    prediction?.fingering.path ?? ([] as Path),
  );
}

function finding(message: string, path: Path): Finding {
  return { code: OUT_OF_RANGE, severity: "information", message, path };
}
