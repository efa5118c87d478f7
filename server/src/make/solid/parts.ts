/** The result of an outline: parts, each with how it is printed. */
import type { Path } from "../../instrument/finding.js";
import type { Solid } from "./kernel.js";

/** Which direction of the outline is up on the printer's bed. */
export type Up = "-z" | "+z" | "+y";

export interface Part {
  readonly name: string;
  readonly solid: Solid;
  readonly up: Up;
  /** The same in words. */
  readonly stands: string;
  /** What a maker must know about this part, beyond what holds for all. */
  readonly advice: readonly string[];
  /** Handles that it must have, if nothing runs into anything else. */
  readonly genus: number;
  /** Where to look in the design if it has not. */
  readonly path: Path;
  /** Whether lips touch it, and whether a child could swallow it. */
  readonly touchesMouth?: boolean;
  readonly isSmall?: boolean;
}

/** What the mouth of a tube adds to it. */
export interface Head {
  readonly wood: readonly Solid[];
  readonly air: readonly Solid[];
  readonly parts: readonly Part[];
  /** Where the bore's air begins; past the wood where it is open. */
  readonly airFrom: number;
  /** Ways out of the air above the first hole: each but the first is a handle. */
  readonly openings: number;
  readonly advice: readonly string[];
}

/** How far air runs past the wood, mm: two faces in one plane are safe, two nearly in one are not. */
export const BEYOND = 1;
