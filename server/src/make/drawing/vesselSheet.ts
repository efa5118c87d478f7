/** A vessel on its sheet: cut through the holes and, beside it, through the mouth; sizes and a table of holes. */
import type { VesselHoleOutline, VesselOutline } from "../../design/outline/outline.js";
import { reliefOf } from "../../design/outline/relief.js";
import { ductWords } from "./detail.js";
import { drawAcross, drawUpward } from "./dimensions.js";
import { type Framed, wrapped } from "./frame.js";
import { bitInWords, degrees, sizeOf } from "./holeTable.js";
import { type DrawOptions, lengthIn, type Pen, type Point } from "./sheet.js";
import { drawTable, tableWidth } from "./table.js";
import { spoutOf, vesselSection } from "./vesselSection.js";

/** mm on paper: between the views; beside and above each for dimensions and names; below. */
const ROOM = { between: 26, left: 14, names: 12, below: 22 } as const;

/** How large both views are side by side: what grows with the scale, and what does not. */
export function vesselExtent(vessel: VesselOutline): { readonly size: Point; readonly paper: Point } {
  const [a, b, c] = vessel.semiAxes;
  const { wall } = vessel;
  const { front, top } = spoutOf(vessel);
  const along = c + wall + Math.max(top, c + wall);
  const up = Math.max(a + wall, front) + Math.max(a, b) + wall;
  return { size: [2 * along, up], paper: [2 * ROOM.left + ROOM.between, 2 * ROOM.names] };
}

/** @param top of the room for the views @returns where the text under them begins */
export function drawVessel(
  vessel: VesselOutline,
  factor: number,
  { pen, from, to }: Pick<Framed, "pen" | "from" | "to">,
  { unit, paper }: DrawOptions,
): void {
  const length = lengthIn(unit);
  const [a, b, c] = vessel.semiAxes;
  const { wall } = vessel;
  const { front } = spoutOf(vessel);
  const { size, paper: beside } = vesselExtent(vessel);
  const along = size[0] / 2;
  const x0 = from[0] + (to[0] - from[0] - size[0] * factor - beside[0]) / 2 + ROOM.left;
  const y0 = from[1] + ROOM.names + 6 + Math.max(a + wall, front) * factor;
  const view =
    (left: number) =>
    (z: number, y: number): Point => [left + (z + c + wall) * factor, y0 - y * factor];
  const [holes, mouth] = [view(x0), view(x0 + along * factor + ROOM.between + ROOM.left)];
  throughHoles(pen, vessel, holes, length);
  throughMouth(pen, vessel, mouth, length);
  const caption = from[1] + 6;
  for (const [at, words] of [
    [holes, "Through the holes"],
    [mouth, "Through the mouth, square to the holes"],
  ] as const)
    pen.text([at(0, 0)[0], caption], words, { size: 2.8, anchor: "middle" });
  const below = y0 + (Math.max(a, b) + wall) * factor + ROOM.below;
  pen.text([from[0] + 8, below], sentence(vessel, length), { size: 2.8 });
  drawVesselHoles(pen, [from[0] + 8, below + 8], vessel, length, paper === "A4" ? 10 : 40);
  const x = Math.max(from[0] + 8 + tableWidth(COLUMNS) + 14, to[0] - 120);
  for (const [i, line] of mouthWords(vessel, length).entries()) pen.text([x, below + 8 + 4 * i], line, { size: 2.6 });
}

type Place = (z: number, y: number) => Point;
type Length = (mm: number) => string;

/** Points that stand for an oval. */
const OVAL = 96;

/** In the plane of the holes, the mouth to the right. */
function throughHoles(pen: Pen, vessel: VesselOutline, at: Place, length: Length): void {
  const [a, , c] = vessel.semiAxes;
  const { wall, mouth, split } = vessel;
  const on = (turn: number, out: number): Point => {
    const steep = out / Math.hypot(Math.cos(turn) / c, Math.sin(turn) / a);
    return at(Math.cos(turn) * (c + steep / c), Math.sin(turn) * (a + steep / a));
  };
  const oval = (out: number, start = 0) =>
    Array.from({ length: OVAL }, (_, i) =>
      on(start + ((2 * Math.PI - 2 * start) * i) / (OVAL - (start > 0 ? 1 : 0)), out),
    );
  const pole = mouth.kind === "duct" ? mouth.window : mouth;
  // The wood round a window stands up from the shell.
  const wide = mouth.kind === "duct" ? Math.max(mouth.window.width, mouth.windway.entryWidth) / 2 + mouth.cheek : 0;
  const rim = c + pole.chimney;
  const pad = wide > 0 ? [at(rim, -wide), at(rim, wide)] : [];
  pen.area([...oval(wall, Math.asin(Math.min(1, wide / (a + wall)))), ...pad], "cut");
  pen.area(oval(0), "white");
  opening(pen, at, { point: [0, c], normal: [0, 1], width: pole.width, chimney: pole.chimney });
  for (const hole of vessel.holes) {
    opening(pen, at, hole);
    pen.line(alongHole(at, hole, -3, hole.chimney + 3), "axis");
    const [[x0, y0] = [0, 0], [x1, y1] = [0, 0]] = alongHole(at, hole, hole.chimney, hole.chimney + 1);
    const per = Math.hypot(x1 - x0, y1 - y0) || 1;
    const out = 3 * per + NAME;
    pen.text([x0 + ((x1 - x0) / per) * out, y0 + ((y1 - y0) / per) * out + 1], hole.name, {
      size: 2.8,
      anchor: "middle",
    });
  }
  pen.line([at(-c - wall - 4, 0), at(c + wall + 4, 0)], "axis");
  const below = at(0, -a - wall)[1];
  drawAcross(pen, [at(-c, 0), at(c, 0)].map(([x]): Point => [x, below]) as [Point, Point], below + 12, length(2 * c));
  drawUpward(pen, [at(0, -a), at(0, a)], at(-c - wall, 0)[0] - 7, length(2 * a));
  if (split === undefined) return;
  // The outline of both parts' seam.
  for (const side of [1, -1]) {
    const y = (out: number) => side * (a + out) * Math.sqrt(Math.max(0, 1 - (split.at / (c + out)) ** 2));
    pen.line([at(split.at, y(0)), at(split.at, y(wall))], "outline");
  }
  const seam: Point = [at(split.at, 0)[0], below];
  drawAcross(pen, [[at(-c, 0)[0], below], seam], below + 6, length(split.at + c));
}

/** mm on paper from a hole's axis' end to its name. */
const NAME = 2.5;

type Opening = Pick<VesselHoleOutline, "point" | "normal" | "width" | "chimney">;

function alongHole(
  at: Place,
  { point: [px, pz], normal: [nx, nz] }: Opening,
  from: number,
  to: number,
): readonly Point[] {
  return [from, to].map((out) => at(pz + nz * out, px + nx * out));
}

function opening(pen: Pen, at: Place, { point: [px, pz], normal: [nx, nz], width, chimney }: Opening): void {
  const side = (aside: number, out: number) => at(pz + nz * out - nx * aside, px + nx * out + nz * aside);
  const half = width / 2;
  pen.area([side(-half, -1), side(half, -1), side(half, chimney + 0.5), side(-half, chimney + 0.5)], "white", "none");
  for (const edge of [-half, half]) pen.line([side(edge, 0), side(edge, chimney)], "outline");
}

function throughMouth(pen: Pen, vessel: VesselOutline, at: Place, length: Length): void {
  const [, b, c] = vessel.semiAxes;
  const { wall } = vessel;
  for (const area of vesselSection(vessel))
    pen.area(
      area.map(([z, y]) => at(z, y)),
      "cut",
    );
  pen.line([at(-c - wall - 4, 0), at(c + wall + 4, 0)], "axis");
  drawUpward(pen, [at(0, -b), at(0, b)], at(-c - wall, 0)[0] - 7, length(2 * b));
}

function sentence({ semiAxes, wall, split }: VesselOutline, length: Length): string {
  const [x, y, z] = semiAxes.map((half) => length(2 * half));
  const parts = split === undefined ? "" : ` Parted ${length(split.at + semiAxes[2])} above the chamber's lower end.`;
  return `Chamber ${z} to the mouth, ${x} across in the plane of the holes, ${y} through it; wall ${length(wall)}.${parts}`;
}

function mouthWords(vessel: VesselOutline, length: Length): readonly string[] {
  const { mouth } = vessel;
  if (mouth.kind !== "duct")
    return [
      `Mouth hole ${length(mouth.length)} along, ${length(mouth.width)} across, chimney ${length(mouth.chimney)}.`,
    ];
  const underside = reliefOf(mouth, vessel)?.angle ?? mouth.labium.relief;
  const way = `Windway ${length(mouth.windway.to - mouth.windway.from)} long, along a tangent of the chamber.`;
  return [...ductWords({ ...mouth, labium: { ...mouth.labium, relief: underside } }, length), ...wrapped(way, 62)];
}

const COLUMNS = [
  { head: "hole", width: 14 },
  { head: "⌀", width: 18 },
  { head: "from the mouth", width: 26 },
  { head: "over the outside", width: 28 },
  { head: "chimney", width: 16 },
  { head: "drill mm", width: 16 },
] as const;

/** No template of paper lies flat on a round body: the way along its outside, from the pole, finds the place. */
function drawVesselHoles(pen: Pen, at: Point, vessel: VesselOutline, length: Length, most: number): void {
  const { holes } = vessel;
  if (holes.length === 0) return;
  const rows = holes.map((hole) => [
    hole.name,
    sizeOf(hole, length),
    hole.elevation === 0 ? degrees(hole.angle) : `${degrees(hole.angle)}, ${degrees(hole.elevation)} over`,
    length(wayOutside(vessel, hole)),
    length(hole.chimney),
    bitInWords(hole),
  ]);
  drawTable(pen, at, COLUMNS, rows, most);
  const y = at[1] + (Math.min(holes.length, most) + 1 + (holes.length > most ? 1 : 0)) * 4.6 + 1;
  const words =
    "Over the outside: along the body from the pole at the mouth straight to the hole's middle. Over: from the plane drawn, to the side away from the windway.";
  pen.text([at[0], y], words, { size: 2.2 });
}

/** Chords by which a way along an ellipse is added up. */
const CHORDS = 720;

function wayOutside(
  { semiAxes: [a, b, c], wall }: VesselOutline,
  { point: [px, pz], normal: [nx, nz], aside, normalAside }: VesselHoleOutline,
): number {
  const [x, y, z] = [px + nx * wall, aside + normalAside * wall, pz + nz * wall];
  const out = Math.hypot(x, y);
  // Half the body's width on the way to the hole.
  const across = out === 0 ? a + wall : out / Math.hypot(x / (a + wall), y / (b + wall));
  const along = c + wall;
  const last = Math.atan2(out / across, z / along);
  const on = (turn: number) => [across * Math.sin(turn), along * Math.cos(turn)] as const;
  let way = 0;
  for (let i = 1; i <= CHORDS; i++) {
    const [[u, v], [x, y]] = [on((last * (i - 1)) / CHORDS), on((last * i) / CHORDS)];
    way += Math.hypot(x - u, y - v);
  }
  return way;
}
