/**
 * What must hold when an instrument is refitted, as linear inequalities over the unknowns: hands, print, and the range in
 * which the prediction was checked. Values are millimetres of the printed object.
 */
import { boreLimits } from "./boreLimits.js";
import { handLimits } from "./handLimits.js";
import { holeLimits } from "./holeLimits.js";
import type { Limit, LimitContext } from "./limit.js";
import { makingLimits } from "./makingLimits.js";

export function limitsOf(context: LimitContext): readonly Limit[] {
  return [...holeLimits(context), ...handLimits(context), ...boreLimits(context), ...makingLimits(context)];
}
