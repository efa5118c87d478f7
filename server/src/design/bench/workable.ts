/** What a bench can do to each part of a made instrument: open, undercut or bush a hole, shorten a tube or a pipe, open the mouth. */
import { KEPT_BY_REFITS } from "../../acoustics/checkedRanges.js";
import { boreRadiusAt, type Column, type ToneHole } from "../../acoustics/column.js";
import { type Body, roundShape, sharedColumn } from "../../instrument/body.js";
import type { Path } from "../../instrument/finding.js";
import { t } from "../../words/translation.js";
import type { Constraints } from "../constraints/constraints.js";
import { forbidden, forbiddenWidths } from "../constraints/forbidden.js";
import type { Analysis } from "../predict/analysis.js";
import { mapBody } from "../predict/body.js";

/** A number of the design that work changes: its path, and m of the printed object. */
export interface Size {
  readonly path: Path;
  readonly drawn: number;
}

/** One dimension of the made thing. */
export interface Workable {
  /** For the mouth: a window is cut up, a notch widened, an embouchure hole made longer along the tube. */
  readonly kind: "open" | "undercut" | "shorten" | "cut-up" | "widen" | "lengthen";
  /** `R3`, `the tube`, `pipe 3`. */
  readonly name: string;
  /** Index of the hole, of the pipe; undefined of the tube. */
  readonly hole?: number;
  readonly pipe?: number;
  /** m of the finished thing: a hole's diameter, what it is wider inside, a length. */
  valueIn(body: Body): number;
  bodyWith(body: Body, value: number): Body;
  /** How far work may go: the widest a hole may become, the shortest a tube. */
  readonly farthest: number;
  /** Where the number is written, and what must be added to the finished size to have it as drawn, m. */
  readonly path: Path;
  readonly drawnAdd: number;
  /** Positions that are counted from where the work is done, and change with it. */
  readonly alsoMoved?: (value: number) => readonly Size[];
}

const WIDTH_STEPS = 30;

/** The hole as a part to open: no wider than the fingertip, the bore's share, the neighbours' wall and the design's limits allow. */
export function openable(analysis: Analysis, constraints: Constraints, hole: number): Workable {
  const { instrument } = analysis;
  const diameterIn = (body: Body) => 2 * ((roundShape(body) ?? sharedColumn(body))?.holes[hole]?.radius ?? Number.NaN);
  const now = diameterIn(instrument.body);
  const path = [...(instrument.holes[hole]?.path ?? []), "diameter"];
  const mayBe = (diameter: number) =>
    roundShape(instrument.body) === undefined
      ? forbidden(analysis, constraints, { kind: "hole-radius", index: hole, path }, diameter / 2) === undefined
      : forbiddenWidths(analysis, constraints, hole)(diameter) === undefined;
  let [may, mayNot] = [now, 2 * now];
  for (let i = 0; i < WIDTH_STEPS; i++) {
    const middle = (may + mayNot) / 2;
    if (mayBe(middle)) may = middle;
    else mayNot = middle;
  }
  return {
    kind: "open",
    name: instrument.holes[hole]?.name ?? t`hole ${hole + 1}`,
    hole,
    valueIn: diameterIn,
    bodyWith: (body, diameter) => withHole(body, hole, (old) => widened(old, diameter / 2)),
    farthest: may,
    path,
    drawnAdd: instrument.holeUndersize,
  };
}

/** An oval hole is opened by the same amount all round. */
function widened<H extends { readonly radius: number; readonly halfLength?: number }>(old: H, radius: number): H {
  const { halfLength } = old;
  return { ...old, radius, ...(halfLength === undefined ? {} : { halfLength: halfLength + radius - old.radius }) };
}

/** A hole's greatest share of the bore's width inside, as a refit has it. */
const WIDEST_INSIDE = KEPT_BY_REFITS.holeOverBore[1];
/** m: how much wider than outside a hole may be cut inside, in its outer diameters. Common practice, no source. */
const UNDERCUT_SHARE = 0.35;

/** The hole as a part to undercut; undefined in a vessel, whose model has no undercut. */
export function undercuttable({ instrument }: Analysis, hole: number): Workable | undefined {
  const column = sharedColumn(instrument.body);
  const own = column?.holes[hole];
  if (own === undefined) return undefined;
  return {
    kind: "undercut",
    name: instrument.holes[hole]?.name ?? t`hole ${hole + 1}`,
    hole,
    valueIn: (body) => 2 * (sharedColumn(body)?.holes[hole]?.undercut ?? 0),
    bodyWith: (body, value) => withHole(body, hole, (old) => ({ ...old, undercut: value / 2 })),
    farthest: Math.max(
      2 * (own.undercut ?? 0),
      Math.min(
        UNDERCUT_SHARE * 2 * own.radius,
        2 * (WIDEST_INSIDE * boreRadiusAt(column?.bore ?? [], own.x) - own.radius),
      ),
    ),
    path: [...(instrument.holes[hole]?.path ?? []), "undercut"],
    drawnAdd: 0,
  };
}

function withHole(body: Body, index: number, change: (hole: ToneHole) => ToneHole): Body {
  return mapBody(body, {
    column: (column) => ({ ...column, holes: column.holes.map((hole, i) => (i === index ? change(hole) : hole)) }),
    vessel: (vessel) => ({
      ...vessel,
      holes: vessel.holes.map((hole, i) => (i === index ? (change(hole as unknown as ToneHole) as typeof hole) : hole)),
    }),
  });
}

/** What is cut where no hole decides a note; undefined where nothing can be. */
export function toShorten(analysis: Analysis, fingering: number): Workable | undefined {
  return SHORTENED[analysis.instrument.body.kind](analysis, fingering);
}

const SHORTENED: Readonly<Record<Body["kind"], typeof toShorten>> = {
  tube: tubeToShorten,
  pipes: pipeToShorten,
  vessel: () => undefined,
};

/** m: what stays of the tube below its last hole. */
const BELOW_LAST_HOLE = 2e-3;

/** At its foot. */
function tubeToShorten({ instrument }: Analysis): Workable | undefined {
  const column = instrument.body.kind === "tube" ? instrument.body.column : undefined;
  const foot = column?.bore.at(-1);
  if (column === undefined || foot === undefined) return undefined;
  const last = Math.max(0, ...column.holes.map(({ x, radius, halfLength = radius }) => x + halfLength));
  const before = column.bore.at(-2)?.x ?? 0;
  return {
    kind: "shorten",
    name: t("the tube"),
    valueIn: (body) => sharedColumn(body)?.bore.at(-1)?.x ?? Number.NaN,
    bodyWith: (body, x) => mapBody(body, { column: (old) => cutAt(old, x), vessel: (old) => old }),
    farthest: Math.min(foot.x, Math.max(before, last) + BELOW_LAST_HOLE),
    path: ["bore", column.bore.length - 1, "at"],
    drawnAdd: 0,
  };
}

/** The cut end has the bore's width at that place. */
function cutAt(column: Column, x: number): Column {
  return { ...column, bore: [...column.bore.slice(0, -1), { x, radius: boreRadiusAt(column.bore, x) }] };
}

/** A pipe shorter than this share of its present length is another pipe. */
const SHORTEST_SHARE = 0.8;

function pipeToShorten({ instrument: { body: made } }: Analysis, pipe: number): Workable | undefined {
  const own = made.kind === "pipes" ? made.pipes[pipe] : undefined;
  const length = own?.column?.bore.at(-1)?.x;
  if (own === undefined || length === undefined) return undefined;
  return {
    kind: "shorten",
    name: t`pipe ${pipe + 1}`,
    pipe,
    valueIn: (body) => (body.kind === "pipes" ? body.pipes[pipe]?.column?.bore.at(-1)?.x : undefined) ?? Number.NaN,
    bodyWith: (body, x) =>
      body.kind !== "pipes"
        ? body
        : {
            ...body,
            pipes: body.pipes.map((each, i) =>
              i === pipe ? { ...each, column: each.column && cutAt(each.column, x) } : each,
            ),
          },
    farthest: SHORTEST_SHARE * length,
    path: [...own.path, "length"],
    drawnAdd: 0,
  };
}
