/** What sounds, whatever the family: one air column for all fingerings, a column for each pipe, or a vessel. */
import type { AirState } from "../../acoustics/airState.js";
import { type Answer, type AnswerableQuery, type AnswerOrNot, soundingOf } from "../../acoustics/answer.js";
import type { Column } from "../../acoustics/column.js";
import { answerSteps, type Options, type Query, type Sounding } from "../../acoustics/resonance.js";
import { drained, type Steps } from "../../acoustics/steps.js";
import { vesselAnswerSteps } from "../../acoustics/vessel.js";
import type { Vessel } from "../../acoustics/vesselShape.js";
import type { Instrument } from "../../instrument/model.js";
import { scaledColumn } from "./scaledColumn.js";

export type Body = Pick<Instrument, "column" | "pipes" | "vessel">;

/** The column that sounds fingering `index`; undefined for a vessel, and for a pipe not fully described. */
export function columnFor({ column, pipes }: Body, index: number): Column | undefined {
  return pipes === undefined ? column : pipes[index]?.column;
}

/** Every column there is, in the order of the design. */
export function columnsOf({ column, pipes }: Body): readonly Column[] {
  return (pipes ?? [{ column }]).flatMap((pipe) => pipe.column ?? []);
}

/** Of the longest column or of the cavity, m. */
export function longestOf(body: Body): number {
  const lengths = columnsOf(body).map(({ bore }) => (bore.at(-1)?.x ?? 0) - Math.min(0, bore[0]?.x ?? 0));
  return Math.max(0, ...lengths, ...(body.vessel?.shape?.semiAxes ?? []).map((axis) => 2 * axis));
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
  const shape = body.vessel?.shape;
  if (shape !== undefined) return yield* vesselAnswerSteps(shape, air, queries, options);
  if (body.pipes === undefined)
    return body.column === undefined
      ? queries.map(() => SILENT)
      : yield* answerSteps(body.column, air, queries, options);
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
export function mapBody<B extends Body>(
  body: B,
  change: { readonly column: (column: Column) => Column; readonly vessel: (vessel: Vessel) => Vessel },
): B {
  const { column, pipes, vessel } = body;
  return {
    ...body,
    ...(column === undefined ? {} : { column: change.column(column) }),
    ...(pipes === undefined
      ? {}
      : { pipes: pipes.map((pipe) => ({ ...pipe, column: pipe.column && change.column(pipe.column) })) }),
    ...(vessel?.shape === undefined ? {} : { vessel: { ...vessel, shape: change.vessel(vessel.shape) } }),
  };
}

/** Every length of the body times one factor. */
export function scaledBody<B extends Body>(body: B, factor: number): B {
  return mapBody(body, {
    column: (column) => scaledColumn(column, factor),
    vessel: (vessel) => scaledVessel(vessel, factor),
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
