/** What sounds, whatever the family: one air column for all fingerings, a column for each pipe, or a vessel. */

import type { AirState } from "../../acoustics/airState.js";
import { type Answer, type AnswerableQuery, type AnswerOrNot, soundingOf } from "../../acoustics/answer.js";
import type { Column, Mouth } from "../../acoustics/column.js";
import { answerSteps, type Options, type Query, type Sounding } from "../../acoustics/resonance.js";
import { drained, type Steps } from "../../acoustics/steps.js";
import { vesselAnswerSteps } from "../../acoustics/vessel.js";
import type { Vessel } from "../../acoustics/vesselShape.js";
import { type Body, type Chamber, columnFor, columnsOf, roundShape, sharedColumn } from "../../instrument/body.js";
import { scaledColumn } from "./scaledColumn.js";

/** Of the longest column or of the cavity, m. */
export function longestOf(body: Body): number {
  const lengths = columnsOf(body).map(({ bore }) => (bore.at(-1)?.x ?? 0) - Math.min(0, bore[0]?.x ?? 0));
  return Math.max(0, ...lengths, ...(roundShape(body)?.semiAxes ?? []).map((axis) => 2 * axis));
}

/** A fingering to be sounded, and which of the design's it is. */
export interface IndexedQuery extends Query {
  readonly index: number;
}

/** Sounding of each query, in their order; undefined where there is none. @throws Cancelled */
export function soundingsOf(
  body: Body,
  air: AirState,
  queries: readonly IndexedQuery[],
  options: Options = {},
): readonly (Sounding | undefined)[] {
  return drained(bodySteps(body, air, queries, options)).map(soundingOf);
}

/** Answers to the queries as far as `options.budget` reaches, step by step. */
export function* bodySteps(
  body: Body,
  air: AirState,
  queries: readonly (IndexedQuery & AnswerableQuery)[],
  options: Options = {},
): Steps<readonly AnswerOrNot[]> {
  const shape = roundShape(body);
  if (shape !== undefined) return yield* vesselAnswerSteps(shape, air, queries, options);
  if (body.kind !== "pipes") {
    const column = sharedColumn(body);
    return column === undefined ? queries.map(() => SILENT) : yield* answerSteps(column, air, queries, options);
  }
  const answers: AnswerOrNot[] = [];
  for (const query of queries) {
    const column = columnFor(body, query.index);
    answers.push(...(column === undefined ? [SILENT] : yield* answerSteps(column, air, [query], options)));
  }
  return answers;
}

/** Of what is not fully described. */
const SILENT: Answer = { sounding: undefined, work: 0, gridWork: 0 };

/** The body with its columns and its cavity changed. */
export function mapBody(
  body: Body,
  change: { readonly column: (column: Column) => Column; readonly vessel: (vessel: Vessel) => Vessel },
): Body {
  const changed = (column: Column | undefined) => column && change.column(column);
  switch (body.kind) {
    case "tube":
      return { ...body, column: changed(body.column) };
    case "pipes":
      return { ...body, pipes: body.pipes.map((pipe) => ({ ...pipe, column: changed(pipe.column) })) };
    case "vessel":
      return { ...body, chamber: body.chamber && mapChamber(body.chamber, change) };
  }
}

function mapChamber(chamber: Chamber, change: Parameters<typeof mapBody>[1]): Chamber {
  return chamber.kind === "round"
    ? { ...chamber, shape: change.vessel(chamber.shape) }
    : { ...chamber, column: change.column(chamber.column) };
}

/** Every length of the body times one factor. */
export function scaledBody(body: Body, factor: number): Body {
  return mapBody(body, {
    column: (column) => scaledColumn(column, factor),
    vessel: (vessel) => scaledVessel(vessel, factor),
  });
}

/** The body with every printed hole smaller by this much, m on the diameter: tone holes, and a mouth that is one. */
export function undersizedBody(body: Body, metres: number): Body {
  const half = metres / 2;
  const mouthOf = <M extends Mouth>(mouth: M): M =>
    mouth.kind === "embouchure" ? { ...mouth, width: mouth.width - metres, length: mouth.length - metres } : mouth;
  return mapBody(body, {
    column: ({ holes, mouth, ...column }) => ({
      ...column,
      mouth: mouthOf(mouth),
      holes: holes.map(({ halfLength, ...hole }) => ({
        ...hole,
        radius: hole.radius - half,
        ...(halfLength === undefined ? {} : { halfLength: halfLength - half }),
      })),
    }),
    vessel: ({ holes, mouth, ...vessel }) => ({
      ...vessel,
      mouth: mouthOf(mouth),
      holes: holes.map((hole) => ({ ...hole, radius: hole.radius - half })),
    }),
  });
}

function scaledVessel(vessel: Vessel, factor: number): Vessel {
  const [a, b, c] = vessel.semiAxes;
  const holes = vessel.holes.map((hole) => ({ ...hole, radius: hole.radius * factor, chimney: hole.chimney * factor }));
  const { mouth } = vessel;
  const extra = (mouth.extra ?? 0) * factor;
  const size = { width: mouth.width * factor, chimney: mouth.chimney * factor, extra };
  return {
    semiAxes: [a * factor, b * factor, c * factor],
    wall: vessel.wall * factor,
    holes,
    mouth:
      mouth.kind === "window"
        ? { ...mouth, ...size, cutUp: mouth.cutUp * factor }
        : { ...mouth, ...size, length: mouth.length * factor },
  };
}
