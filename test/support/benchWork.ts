/** A made instrument brought into tune on the bench, by the product's own plan, until nothing is left to do. */
import { doneEdits } from "../../server/src/design/bench/doneEdits.js";
import { drawnFlatForBench } from "../../server/src/design/bench/drawFlat.js";
import { benchPlan } from "../../server/src/design/bench/plan.js";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { governedFingerings } from "../../server/src/design/predict/governing.js";
import type { DesignDocument, Syntax } from "../../server/src/document/designFile.js";
import { applyEdits } from "../../server/src/document/edits.js";
import { pathText } from "../../server/src/instrument/path.js";
import { documentOf, fileOf } from "./designs.js";
import type { Workshop } from "./workshop.js";

export interface BenchWork {
  /** Sessions of playing, each followed by the cuts of one plan; the last finds nothing left. */
  readonly sessions: number;
  readonly cuts: number;
  /** Cents of the farthest note, as printed and at the end. */
  readonly before: number;
  readonly after: number;
  /** The farthest at the end from the middle of all notes, as an ensemble hears it that has tuned to the instrument, or it to them. */
  readonly apart: number;
  /** Cents of every note at the end. */
  readonly cents: readonly number[];
  /** Cents by which the notes of a hole that was cut lie too sharp at the end, in the middle; the sharpest of all. */
  readonly tooWide: number;
  /** Words of what was left as it is. */
  readonly left: readonly string[];
}

const MOST_SESSIONS = 12;
/** Sittings of a session, and of the last ones. */
const USUAL_SITTINGS = 2;
const LAST_SITTINGS = 6;
/** Cents: from here on sittings are as many as in the last. */
const NEARLY = 10;

/** The design with what it leaves for the bench, drawn flat by the product. JSON and YAML alike. */
export function drawnFlat(text: string, syntax: Syntax, { holesFlat = 15, lengthFlat = 8, room = 12 } = {}): string {
  const bench =
    syntax === "json"
      ? text.replace(/^\{/, `{ "bench": { "holesFlat": ${holesFlat}, "lengthFlat": ${lengthFlat}, "room": ${room} },`)
      : text.replace(
          /^tolerance/m,
          `bench: { holesFlat: ${holesFlat}, lengthFlat: ${lengthFlat}, room: ${room} }\ntolerance`,
        );
  return drawnFlatForBench(fileOf(bench, syntax), 0).text;
}

function withMeasured(text: string, syntax: Syntax, measured: string): string {
  const json = measured.replace(/(\w+):/g, '"$1":');
  if (/^measured: \[\]/m.test(text)) return text.replace(/^measured: \[\]/m, `measured: ${measured}`);
  if (/"measured": \[\]/.test(text)) return text.replace(/"measured": \[\]/, `"measured": ${json}`);
  if (syntax === "json") return text.replace(/^\{/, `{ "measured": ${json},`);
  return `${text.trimEnd()}\nmeasured: ${measured}\n`;
}

export function workedOn(drawn: string, syntax: Syntax, workshop: Workshop): BenchWork {
  let text = drawn;
  const doc = (): DesignDocument => documentOf(fileOf(text, syntax));
  const worst = () => Math.max(...workshop.truly(doc()).map((cents) => Math.abs(cents ?? Number.POSITIVE_INFINITY)));
  const before = worst();
  const cut = new Set<string>();
  let cuts = 0;
  let sittings = USUAL_SITTINGS;
  for (let sessions = 1; sessions <= MOST_SESSIONS; sessions++) {
    text = withMeasured(text, syntax, workshop.measured(doc(), sittings));
    const document = doc();
    const plan = benchPlan(document, analyse(document.resolution.instrument));
    const { steps } = plan;
    if ((steps.length === 0 && sittings === LAST_SITTINGS) || sessions === MOST_SESSIONS) {
      const left = plan.left.map(({ why, notes }) => `${notes.map(({ name }) => name).join(" ")} ${why}`);
      const cents = workshop.truly(document).map((each) => each ?? Number.POSITIVE_INFINITY);
      const apart = (Math.max(...cents) - Math.min(...cents)) / 2;
      return { sessions, cuts, before, after: worst(), apart, cents, tooWide: tooWide(document, workshop, cut), left };
    }
    // Where little or nothing seems left to do it is played more often, to be sure.
    if (steps.length === 0 || plan.now.every(({ reading, right }) => Math.abs(reading - right) < NEARLY))
      sittings = LAST_SITTINGS;
    if (steps.length === 0) text = applyEdits(text, doneEdits(fileOf(text, syntax), document, []));
    const paths = steps.map(({ path }) => pathText(path));
    for (const path of paths) cut.add(path);
    cuts += steps.length;
    text = applyEdits(text, doneEdits(fileOf(text, syntax), doc(), steps));
    workshop.cut(paths);
  }
  throw new Error("never");
}

/** A fault of the printer's is none of the bench: only what was cut counts. */
function tooWide(document: DesignDocument, workshop: Workshop, cut: ReadonlySet<string>): number {
  const truly = workshop.truly(document);
  const analysis = analyse(document.resolution.instrument);
  const hasOpenedMouth = [...cut].some((path) => path.startsWith("mouth"));
  const middles = governedFingerings(analysis).flatMap(({ hole, fingerings }) => {
    const path =
      hole === undefined ? undefined : pathText([...(analysis.instrument.holes[hole]?.path ?? []), "diameter"]);
    // An opened mouth raises every note.
    if (!hasOpenedMouth && (path === undefined || !cut.has(path))) return [];
    const cents = fingerings.flatMap((index) => truly[index] ?? []);
    return cents.length === 0 ? [] : [(Math.max(...cents) + Math.min(...cents)) / 2];
  });
  return Math.max(Number.NEGATIVE_INFINITY, ...middles);
}
