/** A side-blown head: an oval hole, on a lip plate where its chimney is taller than the wall, and a stopper. */
import type { EmbouchureOutline, TubeOutline } from "../../../design/outline/outline.js";
import { radiusOn } from "../../../design/outline/tube.js";
import type { Solid } from "../kernel.js";
import { openingAir, stopperSolid } from "../openings.js";
import { BEYOND, type Head, type Part } from "../parts.js";
import type { Shapes } from "../shapes.js";

export function embouchureHead(mouth: EmbouchureOutline, tube: TubeOutline, shapes: Shapes): Head {
  const outer = radiusOn(tube.outside, 0);
  const { stopper } = mouth;
  return {
    wood: lipPlate(mouth, outer, shapes),
    air: [openingAir(mouth, mouth.boreRadius, outer, shapes)],
    parts: stopper === undefined ? [] : [stopperPart(stopper, tube, shapes)],
    airFrom: stopper === undefined ? mouth.closedAt : tube.from - BEYOND,
    openings: stopper === undefined ? 1 : 2,
    advice: ["Break the embouchure hole's outer edge no more than a sharp corner needs: it splits the breath."],
  };
}

/** Wood round the hole that carries the lip, and how far its foot slopes out, mm. Common practice, no source. */
const LIP = { across: 7, along: 9, slope: 2 };

function lipPlate(
  { width, length, chimney, boreRadius }: EmbouchureOutline,
  outer: number,
  shapes: Shapes,
): readonly Solid[] {
  const rim = boreRadius + chimney;
  if (rim <= outer + 1e-9) return [];
  // Never wider than the body: what stands out sideways has an underside in the air.
  const across = Math.max(Math.min(width / 2 + LIP.across, outer - LIP.slope), width / 2 + 1);
  const along = length / 2 + LIP.along;
  return [
    shapes.loft([
      [0, across + Math.min(LIP.slope, outer - across), along + rim],
      [rim, across, along],
    ]),
  ];
}

function stopperPart(stopper: NonNullable<EmbouchureOutline["stopper"]>, tube: TubeOutline, shapes: Shapes): Part {
  const stands = Number((-stopper.to).toFixed(2));
  return {
    name: "stopper",
    solid: stopperSolid(stopper, tube, { grooves: 2, chamfer: 0 }, shapes),
    up: "-z",
    stands: "upright, its face toward the hole on the bed",
    advice: [
      `Lap its grooves with thread or cord and push it in until its face stands ${stands} mm from the hole's middle.`,
    ],
    genus: 0,
    path: ["mouth"],
    isSmall: true,
  };
}
