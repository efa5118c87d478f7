/** What sounds, as it will be printed: one air column for all fingerings, a column for each pipe, or a chamber. SI units. */
import type { Column } from "../acoustics/column.js";
import type { Vessel } from "../acoustics/vesselShape.js";
import type { Note } from "../music/note.js";
import type { Path } from "./finding.js";

export type Body = TubeBody | PipesBody | VesselBody;

export interface TubeBody {
  readonly kind: "tube";
  /** Undefined while a number that it needs is missing or wrong (there is a finding for each). */
  readonly column: Column | undefined;
}

/** A pan pipe; in the file's order, none while the design contradicts itself. */
export interface PipesBody {
  readonly kind: "pipes";
  readonly pipes: readonly PanPipe[];
}

export interface VesselBody {
  readonly kind: "vessel";
  /** Undefined while a number that it needs is missing or wrong (there is a finding for each). */
  readonly chamber: Chamber | undefined;
}

/** One tube of a pan pipe. Its place in the list is that of its fingering, too. */
export interface PanPipe {
  readonly path: Path;
  readonly note: Note | undefined;
  /** Undefined while a number of it is missing or wrong. */
  readonly column: Column | undefined;
}

export type Chamber = RoundChamber | TubeChamber;

interface ChamberBase {
  /** The number of the file by which it becomes larger or smaller, as drawn. */
  readonly size: { readonly path: Path; readonly kind: "volume" | "diameter" | "length"; readonly value: number };
  /** Whether the mouth is in the middle of the long side rather than at an end. */
  readonly mouthAtSide: boolean;
}

export interface RoundChamber extends ChamberBase {
  readonly kind: "round";
  readonly shape: Vessel;
  /** Which half axes `size` changes. */
  readonly sized: readonly boolean[];
  /** Why the prediction takes another shape than the body's own; absent where it does not. */
  readonly standIn?: "volume only" | "box";
}

/** A vessel in the shape of a tube closed at both ends. */
export interface TubeChamber extends ChamberBase {
  readonly kind: "tube";
  readonly column: Column;
}

/** The column that all fingerings share; undefined for pan pipes and round chambers, and where it is not fully described. */
export function sharedColumn(body: Body): Column | undefined {
  if (body.kind === "tube") return body.column;
  return body.kind === "vessel" && body.chamber?.kind === "tube" ? body.chamber.column : undefined;
}

/** The shape of a round chamber; undefined for every other body, and where it is not fully described. */
export function roundShape(body: Body): Vessel | undefined {
  return roundChamber(body)?.shape;
}

export function roundChamber(body: Body): RoundChamber | undefined {
  return body.kind === "vessel" && body.chamber?.kind === "round" ? body.chamber : undefined;
}

/** The column that sounds fingering `index`; undefined for a round chamber, and for what is not fully described. */
export function columnFor(body: Body, index: number): Column | undefined {
  return body.kind === "pipes" ? body.pipes[index]?.column : sharedColumn(body);
}

/** Every column there is, in the order of the design. */
export function columnsOf(body: Body): readonly Column[] {
  if (body.kind === "pipes") return body.pipes.flatMap(({ column }) => column ?? []);
  return [sharedColumn(body)].flatMap((column) => column ?? []);
}

/** Whether the design says enough about the body for any of its notes to be predicted. */
export function isDescribed(body: Body): boolean {
  return roundShape(body) !== undefined || columnsOf(body).length > 0;
}
