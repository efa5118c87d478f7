/**
 * Lengths that a tube has besides the drawn bore once it is made: its head above the mouth, the tenons at its joints. What the rules of
 * the bed and a refit count, and what `design/outline` draws; a test holds the two together. In the file's units, as drawn: what the design
 * does not say is a fixed number of millimetres on the bed, whatever the print scale.
 */

import { SOLID_DEFAULTS as USUAL } from "../defaults.js";
import { boreDiameterAt } from "../draft/bore.js";
import type { Draft } from "../draft/draft.js";
import { traitsOf } from "../families/index.js";
import { valueAt } from "../path.js";
import { printingOf } from "../printed/printing.js";
import { jointClearanceOf } from "./makerLimits.js";

/** What the head adds above the edge of the mouth's opening, or above the stopper's face: windway and slow chamber, or the stopper's body. */
export function headBeyond(draft: Draft): number {
  const { mouth, numbers } = draft;
  const usual = usualIn(draft);
  switch (mouth?.kind) {
    case "window": {
      const channel = (mm: number) => numbers.at(["mouth", "windway", "length"]) ?? usual(mm);
      if (valueAt(draft.data, ["mouth", "chamber"]) === undefined)
        return Math.max(channel(USUAL.windwayLength), mouth.stopper);
      const chamber =
        numbers.at(["mouth", "chamber", "length"]) ?? USUAL.chamberInBores * (boreDiameterAt(draft.bore, 0) ?? 0);
      return Math.max(channel(USUAL.channelLength) + chamber + usual(USUAL.endWall), mouth.stopper);
    }
    case "embouchure": {
      const body = numbers.at(["solid", "stopperLength"]) ?? usual(USUAL.stopperLength);
      return traitsOf(draft)?.hasStopper === false ? 0 : body + usual(USUAL.stopperMargin);
    }
    default:
      return 0;
  }
}

/** Of the tenon that reaches upstream from a joint at `at`. */
export function tenonLength(draft: Draft, at: number): number {
  const written = draft.numbers.at(["solid", "tenon", "length"]);
  if (written !== undefined) return written;
  const { unitMillimetres, printScale } = printingOf(draft);
  const bore = boreDiameterAt(draft.bore, at) ?? 0;
  return usualIn(draft)(Math.round(bore * unitMillimetres * printScale * USUAL.tenonInBores));
}

/** How far an opening's edge keeps from a joint, mm of the finished object. */
export interface JointRoom {
  readonly upstream: number;
  readonly downstream: number;
}

/**
 * `print.jointClearance` on both sides, or what is usual; where the design states none, upstream at least the tenon, the room before its
 * tip and wood beyond. Undefined where what it states cannot be used. @param finished mm of the finished object for one unit of the file
 */
export function jointRoom(draft: Draft, at: number, finished: number): JointRoom | undefined {
  const least = jointClearanceOf(draft);
  if (least === undefined) return undefined;
  const reach = tenonLength(draft, at) + usualIn(draft)(USUAL.tenonPlay + USUAL.ringLength);
  const upstream = least.stated ? least.mm : Math.max(least.mm, reach * finished);
  return { upstream, downstream: least.mm };
}

function usualIn(draft: Draft): (mm: number) => number {
  const { unitMillimetres, printScale } = printingOf(draft);
  return (mm) => mm / (unitMillimetres * printScale);
}
