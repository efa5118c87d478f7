/**
 * The shape of the instrument as drawn: numbers worked out, in the file's own units, nothing yet scaled or converted.
 * The geometry rules check it. A number that is missing or wrong is undefined and has its finding already.
 */
import type { Family } from "../families/index.js";
import type { Path } from "../finding.js";
import type { Numbers } from "../numbers.js";

export interface DraftStation {
  readonly path: Path;
  readonly at: number | undefined;
  readonly diameter: number | undefined;
}

export interface DraftHole {
  readonly path: Path;
  /** As written, or `hole 3`. */
  readonly label: string;
  /** As written. */
  readonly name: string | undefined;
  readonly at: number | undefined;
  /** Where the hole opens outside; of an oval hole its width, across the bore. */
  readonly diameter: number | undefined;
  /** Along the bore, outside: the diameter of a round hole. */
  readonly length: number | undefined;
  /** How much wider it is at the bore. */
  readonly undercut: number | undefined;
  /** How far its chimney stands up from the body. */
  readonly raised: number | undefined;
  /** From the bore to the outside: its own, or the wall and what it is raised. */
  readonly chimney: number | undefined;
  /** Degrees; 0 the front. */
  readonly angle: number | undefined;
}

export type DraftMouth =
  | { readonly kind: "ideal" }
  | { readonly kind: "correction"; readonly length: number }
  | {
      readonly kind: "window";
      readonly width: number;
      readonly cutUp: number;
      /** Of the side walls. */
      readonly chimney: number;
      /** Share of that depth that the labium leaves to the air. */
      readonly labium: number;
      /** From the window's upstream end. */
      readonly stopper: number;
      readonly extra: number;
    }
  | {
      readonly kind: "embouchure";
      readonly length: number;
      readonly width: number;
      readonly chimney: number;
      /** On length and width, where it meets the bore. */
      readonly undercut: number;
      readonly cover: number;
      readonly stopper: number;
      readonly extra: number;
    }
  | {
      readonly kind: "notch";
      readonly width: number;
      readonly depth: number;
      /** From the lip to the rim, of the player, where it is stated. */
      readonly gap?: number;
      /** From the lip to the blowing edge, of the player, where `gap` is not; at least the depth. */
      readonly lipToEdge?: number;
      /** Of the wall at the edge. */
      readonly chimney: number;
      readonly extra: number;
    }
  | { readonly kind: "rim"; readonly cover: number; readonly extra: number };

export interface Draft {
  readonly data: unknown;
  readonly numbers: Numbers;
  readonly family: Family | undefined;
  readonly unit: "mm" | "in";
  /** Undefined where there is no list of stations. */
  readonly bore: readonly DraftStation[] | undefined;
  /** Empty where the design has none. */
  readonly holes: readonly DraftHole[];
  readonly wall: number | undefined;
  readonly foot: "open" | "stopped";
  readonly mouth: DraftMouth | undefined;
}
