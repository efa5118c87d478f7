/** A change of one hole that brings a note into tune. */

export interface HoleChange {
  readonly kind: "move" | "resize";
  readonly hole: number;
  /** Index into `analysis.fingerings` of the note that comes right. */
  readonly fingering: number;
  /** New place or diameter of the printed hole, m. */
  readonly value: number;
  /** Change from the present place or diameter, m. */
  readonly change: number;
}
