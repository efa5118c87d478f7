/** A vessel: an ellipsoid's shell with its mouth at one pole and holes along the surface's normal, in two halves or one. */

import type { VesselHoleOutline, VesselMouthOutline, VesselOutline } from "../../../design/outline/outline.js";
import { vesselMouthSides } from "../../../design/outline/vesselMouth.js";
import { SOLID_DEFAULTS as USUAL } from "../../../instrument/defaults.js";
import type { Placing, Solid } from "../kernel.js";
import { BEYOND, type Part } from "../parts.js";
import type { Oval, Shapes } from "../shapes.js";

type Duct = Extract<VesselMouthOutline, { kind: "duct" }>;

/** How deep into the cavity the air of a hole begins, mm: below the curve of the wall, far from the other side. */
const INTO_CAVITY = 3;

export function vesselParts(vessel: VesselOutline, leastWall: number, shapes: Shapes): readonly Part[] {
  const { kernel } = shapes;
  const cavity = shell(vessel, 0, shapes);
  const mouth =
    vessel.mouth.kind === "duct" ? ductOf(vessel.mouth, vessel, shapes) : blownOver(vessel.mouth, vessel, shapes);
  const wood = kernel.union([
    shell(vessel, vessel.wall, shapes),
    ...mouth.wood,
    ...vessel.holes.flatMap((hole) => boss(hole, vessel, shapes)),
  ]);
  const air = [cavity, ...mouth.air, ...vessel.holes.map((hole) => holeAir(hole, vessel, shapes))];
  const whole = kernel.minus(wood, air);
  const openings = mouth.openings + vessel.holes.length;
  const common = { path: ["vessel"], touchesMouth: true } as const;
  if (vessel.split === undefined) {
    const advice = [
      "It is hollow and in one piece: it needs supports inside, which no hole lets out. Print it in halves if you can.",
    ];
    return [
      { name: "body", solid: whole, up: "+z", stands: "upright, the mouth up", advice, genus: openings - 1, ...common },
    ];
  }
  return halves(vessel, whole, openings, leastWall, shapes);
}

/** The cavity, larger by this all round. */
function shell({ semiAxes }: VesselOutline, out: number, shapes: Shapes): Solid {
  return shapes.ellipsoid(semiAxes, out);
}

interface MouthSolids {
  readonly wood: readonly Solid[];
  readonly air: readonly Solid[];
  readonly openings: number;
}

function blownOver(
  mouth: Extract<VesselMouthOutline, { kind: "embouchure" }>,
  vessel: VesselOutline,
  shapes: Shapes,
): MouthSolids {
  const pole: VesselHoleOutline = {
    ...mouth,
    path: ["mouth", "hole"],
    name: "mouth",
    angle: 0,
    elevation: 0,
    point: [0, vessel.semiAxes[2]],
    normal: [0, 1],
    aside: 0,
    normalAside: 0,
  };
  return { wood: boss(pole, vessel, shapes), air: [holeAir(pole, vessel, shapes)], openings: 1 };
}

/**
 * In the section of y and z: the breath comes from +y, along a tangent of the pole, and meets the labium at −y. Above the window's
 * rim, which is as high as its chimney, nothing stands.
 */
function ductOf(mouth: Duct, vessel: VesselOutline, shapes: Shapes): MouthSolids {
  const { window, windway, cheek } = mouth;
  const { floor, exitHeight, entryHeight, chamfer: c, width } = windway;
  const sides = vesselMouthSides(mouth, vessel);
  const { exit, entry, rim, roof, under, padEnd, padFoot } = sides;
  const wide = Math.max(window.width, windway.entryWidth) + 2 * cheek;
  // Below the spout, a slope of 45° down into the shell.
  const start = exit + 2 * BEYOND;
  const foot = under - (entry - start);
  const spout = shapes.prism(
    [
      [exit, roof],
      [entry, roof],
      [entry, under],
      [start, foot],
      [exit, foot],
    ],
    wide,
  );
  const pad = shapes.prism([[exit + BEYOND, rim], padEnd, padFoot, [exit + BEYOND, padFoot[1]]], wide);
  const channel = shapes.prism(
    [
      [exit - c / 2, floor - c],
      [exit, floor - c],
      [exit + c, floor],
      [entry + BEYOND, floor],
      [entry + BEYOND, floor + entryHeight],
      [entry, floor + entryHeight],
      [exit + c, floor + exitHeight],
      [exit, floor + exitHeight + c],
      [exit - c / 2, floor + exitHeight + c],
    ],
    width,
  );
  const far = roof + BEYOND;
  const edge = [...sides.labium(far)].reverse();
  const cut = shapes.prism([[exit, edge.at(-1)?.[1] ?? 0], [exit, far], ...edge], window.width);
  const above = shapes.box([-wide, wide], [padEnd[0] - 4 * far, exit], [rim, far + 2 * BEYOND]);
  return { wood: [spout, pad], air: [channel, cut, above], openings: 2 };
}

/** Along +y from the cavity's wall; then turned to the surface's normal. */
function holeAir(hole: VesselHoleOutline, { wall }: VesselOutline, shapes: Shapes): Solid {
  const { width, length, chimney } = hole;
  const [across, along] = [width / 2, length / 2];
  const top = Math.max(wall, chimney) + 2 * BEYOND;
  const seat: readonly Oval[] =
    chimney < wall - 1e-9
      ? [
          [chimney, across + SEAT, along + SEAT],
          [top, across + SEAT + top - chimney, along + SEAT + top - chimney],
        ]
      : [];
  const rings: readonly Oval[] = [
    [-INTO_CAVITY, across, along],
    ...(seat.length === 0 ? [[top, across, along] as const] : [[chimney, across, along] as const, ...seat]),
  ];
  return shapes.kernel.placed(shapes.loft(rings), alongNormal(hole));
}

const SEAT = 2;

/** Wall of a chimney that stands up above the shell. */
function boss(hole: VesselHoleOutline, { wall }: VesselOutline, shapes: Shapes): readonly Solid[] {
  const { width, length, chimney } = hole;
  if (chimney <= wall + 1e-9) return [];
  const rings: readonly Oval[] = [
    [wall / 3, width / 2 + wall, length / 2 + wall],
    [chimney, width / 2 + wall, length / 2 + wall],
  ];
  return [shapes.kernel.placed(shapes.loft(rings), alongNormal(hole))];
}

/** Turns +y to the normal, the ovals' width along the plane of x and z, their length across it as far as the normal allows. */
function alongNormal({ point: [px, pz], normal: [nx, nz], aside, normalAside: ny }: VesselHoleOutline): Placing {
  const level = Math.hypot(nx, nz);
  const x = level === 0 ? ([1, 0, 0] as const) : ([nz / level, 0, -nx / level] as const);
  const z = [-x[2] * ny, x[2] * nx - x[0] * nz, x[0] * ny] as const;
  return { x, y: [nx, ny, nz], z, move: [px, aside, pz] };
}

/**
 * The larger part's inner half of the wall reaches as a lip into the smaller one. Both narrow toward the lower pole, so the lip slides
 * in, and the cavity stays the ellipsoid.
 */
function halves(
  vessel: VesselOutline,
  whole: Solid,
  openings: number,
  leastWall: number,
  shapes: Shapes,
): readonly Part[] {
  const { kernel } = shapes;
  const { wall, split } = vessel;
  if (split === undefined) return [];
  const big = 4 * (Math.max(...vessel.semiAxes) + wall + USUAL.windwayLength);
  const slice = (from: number, to: number) => shapes.box([-big, big], [-big, big], [from, to]);
  const gap = USUAL.stopperFit / 2;
  // Lip and seat share the wall: each must be one that the printer can close.
  const hasLip = wall / 2 - gap >= leastWall;
  const lipTo = split.at - (hasLip ? split.lip : 0);
  const inner = (play: number) => shell(vessel, wall / 2 + play, shapes);
  const upper = kernel.common(whole, slice(split.at, big));
  const lower = kernel.common(whole, slice(-big, split.at));
  const lip = () => kernel.common(kernel.common(whole, slice(lipTo, split.at)), inner(-gap));
  const recess = () => kernel.common(slice(lipTo - USUAL.tenonPlay, split.at + BEYOND), inner(gap));
  const below = vessel.holes.filter(({ point }) => point[1] < split.at).length;
  const glue = hasLip ? "Glue it airtight at the lip" : "Glue it airtight; the wall is too thin for a lip";
  const path = ["vessel"];
  return [
    {
      name: "upper half",
      solid: hasLip ? kernel.union([upper, lip()]) : upper,
      up: "+z",
      stands: "its open rim on the bed, the mouth up",
      advice: [
        `${glue}, the holes in line. The domes of both halves close over nothing: print them slowly and cooled.`,
      ],
      genus: openings - below,
      path,
      touchesMouth: true,
    },
    {
      name: "lower half",
      solid: hasLip ? kernel.minus(lower, [recess()]) : lower,
      up: "-z",
      stands: "its open rim on the bed",
      advice: [],
      genus: below,
      path,
    },
  ];
}
