/** A row of tubes side by side: a pan pipe. */
import { median, robustDeviation } from "../sound/median.js";
import { t } from "../words/translation.js";
import type { Axis } from "./axis/straight.js";
import { framed, type Mesh } from "./mesh/mesh.js";
import { dot, plus } from "./mesh/vector.js";
import { isStopperOf, looseOf } from "./parts/loose.js";
import { CannotSurvey } from "./refusal.js";
import { length, type SurveyedPipes } from "./surveyed.js";
import { patchesOf } from "./tube/patches.js";
import { type Run, type Scan, scan } from "./tube/scan.js";

export interface PipesFound {
  readonly body: SurveyedPipes;
  readonly notes: readonly string[];
  readonly questions: readonly string[];
}

interface Pipe {
  readonly axis: Axis;
  readonly scan: Scan;
  readonly run: Run;
  /** Of its ends along the row's common direction. */
  readonly low: number;
  readonly high: number;
  readonly diameter: number;
  readonly scatter: number;
  readonly wall: number;
  /** Whose surface the bore is. */
  readonly shell: number;
}

const OF_ROUGHNESS = 0.6;
/** mm from row to row: a side hole takes up more than two. */
const ROW = 1.5;

/** @param loose pieces beside it, among which stoppers are looked for. @throws CannotSurvey where a tube has side holes */
export function surveyPipes(mesh: Mesh, axes: readonly Axis[], loose: readonly Mesh[]): PipesFound {
  const [first] = axes as readonly [Axis, ...Axis[]];
  const pipes = axes.map((axis) => pipeOf(mesh, axis, first));
  // Tubes of one row share their wood.
  if (new Set(pipes.map(({ shell }) => shell)).size === pipes.length)
    throw new CannotSurvey(
      t`It holds ${pipes.length} tubes side by side that do not touch. Put the parts of one instrument together on one axis, or survey one.`,
    );
  const spread = (key: "low" | "high") => Math.max(...pipes.map((p) => p[key])) - Math.min(...pipes.map((p) => p[key]));
  const isRimLow = spread("low") < spread("high");
  const stoppers = loose.map(looseOf);
  const inRow = [...pipes].sort((a, b) => b.high - b.low - (a.high - a.low));
  let pushedIn = 0;
  const found = inRow.map(({ run, low, high, diameter, scatter }) => {
    const closed = isRimLow ? run.closedTo : run.closedFrom;
    const at = closed ? -1 : stoppers.findIndex((each) => isStopperOf(each, diameter));
    const [stopper] = at < 0 ? [] : stoppers.splice(at, 1);
    if (stopper !== undefined) pushedIn++;
    const doubt = Math.max(scatter, 0);
    return {
      length: length(high - low - (stopper?.length ?? 0), doubt),
      diameter: length(diameter, doubt),
      closed: closed || stopper !== undefined,
    };
  });
  const walls = pipes.map(({ wall }) => wall);
  const open = found.filter(({ closed }) => !closed).length;
  return {
    body: { kind: "pipes", wall: length(median(walls), robustDeviation(walls)), pipes: found },
    notes: [
      `${pipes.length} bores side by side: a pan pipe, its rims at the end where they lie in one plane.`,
      ...(pushedIn > 0
        ? [`${pushedIn} stoppers lie beside it: assumed to be pushed in flush with the lower ends.`]
        : []),
    ],
    questions:
      open > 0
        ? [
            `How far from the rim does each stopper's face lie? ${open} pipes are open at both ends; the whole tube is written.`,
          ]
        : [],
  };
}

function pipeOf(mesh: Mesh, axis: Axis, first: Axis): Pipe {
  const scanned = scan(framed(mesh, axis.rows, axis.origin), ROW);
  const run = [...scanned.runs].sort((a, b) => b.to - b.from - (a.to - a.from))[0];
  if (run === undefined) throw new CannotSurvey(t("One of the tubes has no bore. Survey the whole pan pipe."));
  const rows = scanned.rows.slice(run.first, run.last + 1).filter(({ circle }) => circle !== undefined);
  const radius = median(rows.map(({ circle }) => circle?.radius ?? Number.NaN));
  // Toward its neighbours the wood goes on: the thinnest directions are its own wall.
  const wall = median(rows.map(({ profile: { outer } }) => thinnest(outer) - radius));
  const side = patchesOf(scanned, run, () => radius + wall).find(
    ({ isFirst, isLast }) => !(isFirst && !run.closedFrom) && !(isLast && !run.closedTo),
  );
  if (side !== undefined)
    throw new CannotSurvey(
      t`It holds tubes side by side, one of them with a hole ${Math.round(side.from - run.from)} mm from its end: not a pan pipe. Survey each tube by itself.`,
    );
  const shift = dot(plus(axis.origin, first.origin, -1), first.rows[2]);
  const sense = dot(axis.rows[2], first.rows[2]) < 0 ? -1 : 1;
  const ends = [run.from, run.to].map((z) => shift + sense * z).sort((a, b) => a - b) as [number, number];
  const scatter = OF_ROUGHNESS * median(rows.map(({ circle }) => circle?.rms ?? 0));
  const turnedRun = sense === 1 ? run : { ...run, closedFrom: run.closedTo, closedTo: run.closedFrom };
  return {
    axis,
    scan: scanned,
    run: turnedRun,
    low: ends[0],
    high: ends[1],
    diameter: 2 * radius,
    scatter,
    wall,
    shell: shellOf(rows),
  };
}

function shellOf(rows: Scan["rows"]): number {
  return median(rows[rows.length >> 1]?.profile.innerShell.filter((shell) => shell >= 0) ?? []);
}

function thinnest(outer: Float64Array): number {
  const sorted = outer.filter((each) => !Number.isNaN(each)).sort();
  return sorted[Math.floor(sorted.length / 10)] ?? Number.NaN;
}
