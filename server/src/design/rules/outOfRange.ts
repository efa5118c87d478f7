/** model/out-of-range: a size or a note beyond what the prediction was checked against. */

import { type Bounded, type RangeWarning, rangeWarnings } from "../../acoustics/ranges.js";
import { vesselWarnings } from "../../acoustics/vesselRanges.js";
import type { Vessel } from "../../acoustics/vesselShape.js";
import { columnFor, roundShape, sharedColumn } from "../../instrument/body.js";
import { besideEachOther } from "../../instrument/digits.js";
import type { Finding, Path, RuleCode } from "../../instrument/finding.js";
import { t, told } from "../../words/translation.js";
import { holeName } from "../fix/remedy.js";
import type { Analysis } from "../predict/analysis.js";
import { nameOfFingering } from "../predict/governing.js";
import type { Rule } from "./rule.js";

const OUT_OF_RANGE: RuleCode = "model/out-of-range";

export const outOfRange: Rule = {
  code: OUT_OF_RANGE,
  check: (analysis) => {
    const { body } = analysis.instrument;
    const [shape, column] = [roundShape(body), sharedColumn(body)];
    if (shape !== undefined) return vesselFindings(analysis, shape);
    if (body.kind === "pipes") return pipeFindings(analysis);
    if (column === undefined) return [];
    const frequencies = analysis.fingerings.map(({ predictedHz }) => predictedHz);
    const warnings = rangeWarnings(column, analysis.air, frequencies);
    return [
      ...warnings.flatMap((warning) => windowFinding(warning) ?? holeFinding(analysis, warning) ?? []),
      ...noteFindings(analysis, warnings),
    ];
  },
};

const MEASURED_IN: Record<Bounded, string> = {
  "hole over bore": told("of the bore's width"),
  "length of a hole over its width": told("times as long as wide"),
  "slope of an undercut": told("of the chimney's length undercut on each side"),
  "space behind the window over bore radius": told("bore radii long"),
  "wave number times bore radius": "",
};

/** What to look at, where it is not the diameter. */
const PROPERTY: Partial<Record<Bounded, string>> = {
  "length of a hole over its width": "length",
  "slope of an undercut": "undercut",
};

function windowFinding(warning: RangeWarning): Finding | undefined {
  if (warning.quantity !== "space behind the window over bore radius") return undefined;
  const { value, greatest, quantity } = warning;
  return finding(
    t`The closed space behind the window is ${value.toFixed(1)} ${t(MEASURED_IN[quantity])}; the prediction was checked up to ${greatest}. How far off the notes are is not known.`,
    ["mouth", "window", "stopper"],
  );
}

function holeFinding(analysis: Analysis, warning: RangeWarning): Finding | undefined {
  const { hole } = warning;
  const path = hole === undefined ? undefined : analysis.instrument.holes[hole]?.path;
  if (hole === undefined || path === undefined) return undefined;
  const name = holeName(analysis, hole);
  const { quantity, value, least, greatest } = warning;
  const { is, from, to } = shares(value, least, greatest);
  return finding(
    least === 0
      ? t`${name} is ${is} ${t(MEASURED_IN[quantity])}; the prediction was checked up to ${to}. How far off its notes are is not known.`
      : t`${name} is ${is} ${t(MEASURED_IN[quantity])}; the prediction was checked for ${from} to ${to}. How far off its notes are is not known.`,
    [...path, PROPERTY[quantity] ?? "diameter"],
  );
}

/** A ratio and the range it is outside of, never to be read as inside. */
function shares(value: number, least: number, greatest: number) {
  const [is, from, to] = besideEachOther([value, least, greatest].map((each) => ({ value: each, decimals: 2 })));
  return { is, from, to };
}

/** Pipes too wide for their notes: one finding, at the lowest of them. */
function pipeFindings(analysis: Analysis): readonly Finding[] {
  const warnings = analysis.fingerings.flatMap(({ predictedHz }, note) => {
    const column = columnFor(analysis.instrument.body, note);
    const own = column === undefined ? [] : rangeWarnings(column, analysis.air, [predictedHz]);
    return own.map((warning) => ({ ...warning, note }));
  });
  return noteFindings(analysis, warnings);
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
        t`${prediction ? nameOfFingering(prediction) : t("A note")} is high for so long a vessel: it and higher notes are less sure.`,
        prediction?.fingering.path ?? [],
      );
    }
    const { is, to } = shares(value, 0, greatest);
    const name = hole === undefined ? t("The mouth") : holeName(analysis, hole);
    const path = hole === undefined ? ["mouth"] : [...(analysis.instrument.holes[hole]?.path ?? []), "diameter"];
    return finding(
      t`${name} is ${is} of the chamber's narrowest half; the prediction was checked up to ${to}. Its notes are less sure.`,
      path,
    );
  });
}

/** One finding for all high notes: at the lowest. */
function noteFindings(analysis: Analysis, warnings: readonly RangeWarning[]): readonly Finding[] {
  const hertz = ({ note }: RangeWarning) => analysis.fingerings[note ?? -1]?.predictedHz ?? Number.POSITIVE_INFINITY;
  const [lowest] = warnings.filter(({ note }) => note !== undefined).sort((a, b) => hertz(a) - hertz(b));
  const prediction = analysis.fingerings[lowest?.note ?? -1];
  if (prediction === undefined) return [];
  return [
    finding(
      t`${nameOfFingering(prediction)} is high for so wide a bore: the prediction was never checked that high. How far off this and higher notes are is not known.`,
      prediction.fingering.path,
    ),
  ];
}

function finding(message: string, path: Path): Finding {
  return { code: OUT_OF_RANGE, severity: "information", message, path };
}
