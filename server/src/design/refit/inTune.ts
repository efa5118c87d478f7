/** When a refit counts as done, in any family, and the messages if it cannot be. */

import { t } from "../../words/translation.js";
import type { Prospect } from "../rekey/nearestKey.js";
import { CannotRekey } from "../rekey/rekeyResult.js";
import { Infeasible } from "./quadraticProgram.js";

/** Within this, every note counts as brought into tune; beyond, it is said what is in the way. Cents. */
export const IN_TUNE = 2;
/** What a maker would want closer although the design asks for no more. Cents. */
export const NEAR = 5;
/** For a note this little out of tolerance nobody changes key, and a search from other starts is not worth its time. Cents. */
export const LITTLE_OUT = 2;
/** Drawn dimensions are tried two at a time where a note is farther off than this, cents. */
export const GOOD_DRAWN = 1.5;

/** The deviation farthest from zero, cents. */
export function largest(cents: readonly number[]): number {
  return Math.max(0, ...cents.map(Math.abs));
}

/** The middle one by size, of two the greater; undefined where there is none. */
export function middleOf(values: readonly number[]): number | undefined {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];
}

/** Dimensions keep every limit, but drawn in steps or bored with the drills at hand they miss one. */
export class NotDrawable extends Infeasible {
  /** @param complaint what is missed, with its number @param advice what would help */
  constructor(
    readonly complaint: string,
    readonly advice: string,
  ) {
    super(complaint);
  }
}

/** What the solver cannot do, in the maker's words; anything else is passed on. @param body what is solved: the bore, the cavity */
export function refusal(error: unknown, body: "bore" | "chamber"): unknown {
  if (error instanceof NotDrawable)
    return new CannotRekey(
      t`drawn in steps (print.rounding) or bored with the drills at hand (stock.drills), ${error.complaint}: ${error.advice}, or allow finer steps`,
    );
  if (error instanceof Infeasible)
    return new CannotRekey(
      body === "bore"
        ? t("hands, print and the bore contradict each other: relax `hands` or the `limits`")
        : t("hands, print and the chamber contradict each other: relax `hands` or the `limits`"),
    );
  if (error instanceof RangeError)
    return new CannotRekey(t("no size of this instrument sounds all the notes: choose a key closer to its own"));
  return error;
}

/** A finer fit cannot rescue one that leaves more than this. Cents. */
export const HOPELESS = 6;

/** What `prospect` says; hopeless where the solver finds no way. @throws what is not the solver's */
export function unlessImpossible(prospect: () => Prospect): Prospect {
  try {
    return prospect();
  } catch (error) {
    if (error instanceof Infeasible || error instanceof RangeError) return "hopeless";
    throw error;
  }
}
