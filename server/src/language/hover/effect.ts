/** What a little more of a number does to the pitch: the design is read again with the number changed, and predicted. */
import { analyse } from "../../design/analyse.js";
import { readDesign } from "../../document/read.js";
import { nodeAt } from "../../document/tree.js";
import type { ResolvedNumber } from "../../instrument/model.js";
import { pathKey } from "../../instrument/path.js";
import { centsAbove } from "../../music/cents.js";
import { governedBy, numbered } from "../governing.js";
import { fingeringName, plain, signed } from "../words.js";
import type { HoverPlace, HoverTopic } from "./place.js";

/** A shift smaller than this cannot be heard or shown. Cents. */
const NOTHING = 0.05;
/** So many notes are named one by one; of more, the ends of the range. */
const MOST_NAMED = 3;

interface Shift {
  readonly name: string;
  readonly cents: number;
}

/** `1 mm more: A4 −5.1 cents, B4 −4.8 cents.` Nothing for a number that the pitch does not depend on in this way. */
export const effect: HoverTopic = (place) => {
  const number = place.document.resolution.numbers.find(({ path }) => pathKey(path) === pathKey(place.path));
  const step = number && stepOf(number, place.document.resolution.instrument.unitMillimetres);
  if (number === undefined || step === undefined) return [];
  const shifts = shiftsOf(place, number, step.size);
  return shifts.length === 0 ? [] : [`${step.words}: ${inWords(shifts)}.`];
};

interface Step {
  /** In the number's own unit. */
  readonly size: number;
  readonly words: string;
}

/** Steps a maker thinks in; undefined for numbers whose effect is told elsewhere or is none. */
function stepOf({ path, quantity, value }: ResolvedNumber, unitMillimetres: number): Step | undefined {
  if (path[0] === "parameters") {
    return value === 0 ? undefined : { size: value / 100, words: `1 % more (${plain(value * 1.01, 4)})` };
  }
  const name = path.at(-1);
  if (quantity === "length" && ["mouth", "bore", "holes", "wall"].includes(String(path[0]))) {
    const coarse = name === "at" || name === "stopper" || name === "correction";
    if (unitMillimetres === 1) return coarse ? { size: 1, words: "1 mm more" } : { size: 0.1, words: "0.1 mm more" };
    return coarse ? { size: 0.05, words: "0.05 in more" } : { size: 0.005, words: "0.005 in more" };
  }
  if (path[0] === "mouth" && name === "cover") return { size: 0.05, words: "0.05 more" };
  if (path[0] === "print" && name === "scale") return { size: 1, words: "1 % more" };
  if (path[0] === "print" && name === "holeUndersize") {
    return unitMillimetres === 1 ? { size: 0.1, words: "0.1 mm more" } : { size: 0.005, words: "0.005 in more" };
  }
  if (path[0] === "print" && name === "shrinkage") return { size: 0.1, words: "0.1 % more" };
  return path[0] === "air" ? airStep(name) : undefined;
}

function airStep(name: string | number | undefined): Step | undefined {
  if (name === "temperature") return { size: 1, words: "1 °C warmer" };
  if (name === "humidity") return { size: 10, words: "10 % damper" };
  return name === "carbonDioxide" ? { size: 1, words: "1 % more" } : undefined;
}

function shiftsOf(place: HoverPlace, number: ResolvedNumber, size: number): readonly Shift[] {
  const { context, document, analysis, path } = place;
  const node = nodeAt(document.root, path);
  if (node?.kind !== "scalar" || analysis.instrument.column === undefined) return [];
  const changed = written(number, size);
  const text = context.file.text.slice(0, node.span.start) + changed + context.file.text.slice(node.span.end);
  const other = readDesign(text, context.file.syntax).documents[document.index]?.resolution.instrument;
  const wanted = path[0] === "holes" ? governedBy(analysis, Number(path[1])) : numbered(analysis);
  if (other?.column === undefined || other.fingerings.length !== analysis.fingerings.length) return [];
  const fingerings = wanted.flatMap(({ index }) => other.fingerings[index] ?? []);
  const settings = { ...context.settings.analysis, temperature: analysis.temperature };
  const after = analyse({ ...other, fingerings }, settings, { shouldStop: place.shouldStop });
  return wanted.flatMap(({ fingering, index, predictedHz }, i) => {
    const moved = after.fingerings[i]?.predictedHz;
    if (predictedHz === undefined || moved === undefined) return [];
    return { name: fingeringName(fingering, index), cents: centsAbove(moved, predictedHz) };
  });
}

/** Quoted, so that it stands in YAML and JSON alike. */
function written({ expression, value, quantity }: ResolvedNumber, size: number): string {
  if (expression !== undefined) return JSON.stringify(`=(${expression}) + ${size}`);
  return quantity === "percent" ? JSON.stringify(`${value + size} %`) : String(value + size);
}

function inWords(shifts: readonly Shift[]): string {
  const sorted = [...shifts].sort((a, b) => a.cents - b.cents);
  const [lowest, highest] = [sorted[0], sorted.at(-1)];
  if (lowest === undefined || highest === undefined) return "";
  if (Math.max(-lowest.cents, highest.cents) < NOTHING) return "no change of pitch worth naming";
  if (shifts.length <= MOST_NAMED) return shifts.map(({ name, cents }) => `${name} ${signed(cents)} cents`).join(", ");
  return `the notes move by ${signed(lowest.cents)} (${lowest.name}) to ${signed(highest.cents)} cents (${highest.name})`;
}
