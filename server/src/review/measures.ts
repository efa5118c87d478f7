/** Hands, printer and response of a design in a few numbers each, to stand beside those of another version. */
import { evennessOf, responsesOf } from "../design/predict/response.js";
import { MILLIMETRES_PER_INCH } from "../instrument/defaults.js";
import { fingerSpans } from "../instrument/hands/fingerSpans.js";
import { thumbPairs } from "../instrument/hands/fingers.js";
import { partsOf } from "../instrument/making/joints.js";
import { holesAlong, type Making, makingOf } from "../instrument/making/making.js";
import { t } from "../words/translation.js";
import type { Version } from "./version.js";

export interface Measure {
  readonly area: "hands" | "printer" | "response";
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
  readonly value: number;
}

export interface MeasureChange extends Omit<Measure, "value"> {
  readonly old: number | undefined;
  readonly next: number | undefined;
}

/** All measures of either version, in one order. */
export function measureChanges(old: Version, next: Version): readonly MeasureChange[] {
  const unit = next.document.resolution.draft.unit;
  const [before, after] = [measuresOf(old, unit), measuresOf(next, unit)];
  const same = (measure: Measure) => (other: Measure) => other.area === measure.area && other.name === measure.name;
  const gone = before.filter((measure) => !after.some(same(measure)));
  return [...after, ...gone].map((measure) => {
    const { area, name, unit: own, decimals } = measure;
    const pick = (all: readonly Measure[]) => all.find(same(measure))?.value;
    return { area, name, unit: own, decimals, old: pick(before), next: pick(after) };
  });
}

/** Whether the two differ in what is shown. */
export function isChanged({ old, next, decimals }: MeasureChange): boolean {
  return old?.toFixed(decimals) !== next?.toFixed(decimals);
}

function measuresOf(version: Version, unit: "mm" | "in"): readonly Measure[] {
  const { draft } = version.document.resolution;
  const making = makingOf(draft, version.analysis.instrument.fingerings);
  const made = making === undefined ? [] : [...handsOf(making), ...printerOf(making)];
  const lengths = made.flatMap(({ area, name, mm }): readonly Measure[] => {
    if (mm === undefined || !Number.isFinite(mm)) return [];
    const value = unit === "in" ? mm / MILLIMETRES_PER_INCH : mm;
    return [{ area, name, unit, decimals: unit === "in" ? 2 : 1, value }];
  });
  return [...lengths, ...responseOf(version)];
}

interface Length {
  readonly area: "hands" | "printer";
  readonly name: string;
  readonly mm: number | undefined;
}

function handsOf(making: Making): readonly Length[] {
  const fingered = holesAlong(making).filter(({ index }) => making.isFingered(index));
  const pairs = fingerSpans(making);
  const spans = pairs.filter(({ which }) => which !== "hands").map(({ stretch }) => stretch);
  const spacings = pairs.map(({ apart }) => apart);
  const thumbs = thumbPairs(fingered).map(([thumb, finger]) => Math.abs(thumb.at - finger.at));
  const widths = making.draft.holes.flatMap(({ diameter, length }, i) =>
    diameter === undefined || length === undefined || !making.isFingered(i)
      ? []
      : [Math.max(diameter, length) * making.finishedUnit - making.undersize],
  );
  return [
    { area: "hands", name: t("widest stretch between neighbouring fingers"), mm: largest(spans) },
    {
      area: "hands",
      name: t("nearest neighbouring fingers"),
      mm: spacings.length === 0 ? undefined : Math.min(...spacings),
    },
    { area: "hands", name: t("thumb from the nearest finger"), mm: largest(thumbs) },
    { area: "hands", name: t("widest hole"), mm: largest(widths) },
  ];
}

function printerOf({ draft, laidUnit }: Making): readonly Length[] {
  const parts = draft.bore === undefined ? [] : partsOf(draft);
  return [
    {
      area: "printer",
      name: t("longest part on the bed"),
      mm: largest(parts.map(({ from, to }) => (to - from) * laidUnit)),
    },
    { area: "printer", name: t("thickness on the bed"), mm: largest(parts.map(({ width }) => width * laidUnit)) },
    { area: "printer", name: t("wall"), mm: draft.wall === undefined ? undefined : draft.wall * laidUnit },
  ];
}

function largest(values: readonly number[]): number | undefined {
  return values.length === 0 ? undefined : Math.max(...values);
}

function responseOf({ analysis }: Version): readonly Measure[] {
  const strengths = responsesOf(analysis).flatMap((response) => response?.strength ?? []);
  const weakest: readonly Measure[] =
    strengths.length === 0
      ? []
      : [{ area: "response", name: t("weakest note"), unit: t("dB deep"), decimals: 1, value: Math.min(...strengths) }];
  return [
    ...weakest,
    ...evennessOf(analysis).flatMap(({ register, meanStrength, strengthSpread, meanCutOff }): readonly Measure[] => {
      const own = { area: "response", decimals: 1 } as const;
      return [
        { ...own, name: t`register ${register}, mean depth`, unit: "dB", value: meanStrength },
        { ...own, name: t`register ${register}, unevenness`, unit: "dB", value: strengthSpread },
        ...(meanCutOff === undefined
          ? []
          : [{ ...own, name: t`register ${register}, mean cut-off`, unit: "Hz", decimals: 0, value: meanCutOff }]),
      ];
    }),
  ];
}
