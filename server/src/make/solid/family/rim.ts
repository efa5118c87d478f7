/** An end-blown head: a plain rim, or one with a notch whose edge is turned about the axis like the bore. */

import { boreRadiusAt } from "../../../design/outline/bore.js";
import { notchLine } from "../../../design/outline/headProfile.js";
import type { RimOutline, TubeOutline } from "../../../design/outline/outline.js";
import { BEYOND, type Head } from "../parts.js";
import type { Shapes } from "../shapes.js";

export function rimHead({ notch }: RimOutline, tube: TubeOutline, shapes: Shapes): Head {
  const head: Head = { wood: [], air: [], parts: [], airFrom: tube.from - BEYOND, openings: 1, advice: [] };
  if (notch === undefined) return { ...head, advice: ["Round the rim's outer edge a little where the chin rests."] };
  const radius = boreRadiusAt(tube.bore, tube.from + notch.depth);
  const far = radius + tube.wall + BEYOND;
  const top = tube.from - BEYOND;
  const [[at], edge, end] = notchLine(notch, tube.from, radius, far);
  const cut = shapes.turned([[top, radius - 2 * BEYOND], [top, far], end, edge, [at, radius - 2 * BEYOND]]);
  const half = notch.width / 2;
  const plan = [
    [-half, top - BEYOND],
    [half, top - BEYOND],
    [half, end[0] + BEYOND],
    [-half, end[0] + BEYOND],
  ] as const;
  const air = shapes.kernel.common(cut, shapes.slab(plan, 0, far + BEYOND));
  return { ...head, air: [air], advice: ["Its notch ends in one printed line: no supports there."] };
}
