/** Pan pipes and vessels as the description has them. Numbers without a name: common practice, no source. */
import type { PipesOutline, VesselHoleOutline, VesselOutline } from "../../../server/src/design/outline/outline.js";
import { reliefOf } from "../../../server/src/design/outline/relief.js";
import {
  boxVolume,
  common,
  ellipsoid,
  filled,
  type Line,
  leaning,
  nothing,
  type Point,
  partedVolume,
  pointing,
  prism,
  roundVolume,
  slice,
  wood,
} from "./lines.js";
import { CHAMFER, FAR, stopper, stopperRadii, type Volumes } from "./openings.js";

/** Steps of the grid, mm. */
const WEB = 0.3;
const PIPES_STEP = 0.02;
const VESSEL_STEP = 0.35;

export function pipesVolumes({ pipes, wall }: PipesOutline, fine: number): Volumes {
  const beside =
    (line: Line, x: number): Line =>
    (u, y) =>
      line(u - x, y);
  const tubes = pipes.map(({ diameter, to, x }) => {
    const outer = diameter / 2 + wall;
    const c = Math.min(CHAMFER, wall / 3);
    return beside(
      filled([
        [0, outer - c],
        [c, outer],
        [to - c, outer],
        [to, outer - c],
      ]),
      x,
    );
  });
  // A web fills the groove between neighbours, 0.6 of the narrower wide.
  const webs = pipes.slice(1).map((pipe, i): Line => {
    const before = pipes[i] ?? pipe;
    const half = WEB * Math.min(before.diameter, pipe.diameter);
    const [from, to] = [before.x + before.diameter / 4, pipe.x - pipe.diameter / 4];
    const ends = [2 * CHAMFER, Math.min(before.to, pipe.to) - 2 * CHAMFER];
    return (x, y) => (x > from && x < to && Math.abs(y) < half ? ends : []);
  });
  const bores = pipes.map(({ diameter, x }) =>
    beside(
      filled([
        [-FAR, diameter / 2],
        [9 * FAR, diameter / 2],
      ]),
      x,
    ),
  );
  const near = pipes.map(({ diameter, x }) => [x - diameter / 2 - wall, x + diameter / 2 + wall] as const);
  const [low, high] = [Math.min(...near.map(([x]) => x)), Math.max(...near.map(([, x]) => x))];
  // Of all pipes only those are asked that a line may meet.
  const row: Line = (x, y) => {
    const is = pipes.flatMap((_, i) => (x > (near[i]?.[0] ?? 0) && x < (near[i]?.[1] ?? 0) ? [i] : []));
    return wood(
      is.flatMap((i) => [tubes[i] ?? nothing, webs[i - 1] ?? nothing, webs[i] ?? nothing]),
      is.map((i) => bores[i] ?? nothing),
    )(x, y);
  };
  const jumps = (x: number) => [
    0,
    ...pipes.flatMap((pipe) =>
      [pipe.diameter / 2, pipe.diameter / 2 + wall].flatMap((radius) =>
        Math.abs(x - pipe.x) < radius ? [Math.sqrt(radius ** 2 - (x - pipe.x) ** 2)] : [],
      ),
    ),
    ...pipes.map(({ diameter }) => WEB * diameter),
  ];
  const volumes = new Map([["pipes", 2 * partedVolume(row, [low, high], PIPES_STEP / fine, jumps)]]);
  for (const [i, pipe] of pipes.entries()) {
    const bore = [{ path: pipe.path, at: 0, diameter: pipe.diameter }];
    const line = stopper(pipe.stopper, bore, { grooves: 1, chamfer: 0 });
    volumes.set(
      `stopper ${i + 1}${pipe.note === undefined ? "" : ` ${pipe.note}`}`,
      roundVolume(line, stopperRadii(pipe.stopper)),
    );
  }
  return volumes;
}

export function vesselVolumes(vessel: VesselOutline, leastWall: number, fine: number): Volumes {
  const { semiAxes, wall, mouth, holes, split } = vessel;
  const [a, b, c] = semiAxes;
  const shell = (out: number) => ellipsoid(semiAxes, out);
  const blown: VesselHoleOutline | undefined =
    mouth.kind === "duct"
      ? undefined
      : {
          ...mouth,
          name: "mouth",
          path: [],
          angle: 0,
          elevation: 0,
          point: [0, c],
          normal: [0, 1],
          aside: 0,
          normalAside: 0,
        };
  const openings = blown === undefined ? holes : [blown, ...holes];
  const duct = mouth.kind === "duct" ? ductOf(mouth, vessel) : { wood: [], air: [] };
  const whole = wood(
    [shell(wall), ...duct.wood, ...openings.map((hole) => boss(hole, wall))],
    [shell(0), ...duct.air, ...openings.map((hole) => holeAir(hole, wall))],
  );
  const out = Math.max(wall, ...holes.map(({ chimney }) => chimney));
  const [front, back] = mouth.kind === "duct" ? [mouth.windway.to - mouth.windway.from + FAR / 3, FAR / 3] : [0, 0];
  const volume = (line: Line) =>
    boxVolume(line, [-a - out, a + out], [-Math.max(b + out, back), Math.max(b + out, front)], VESSEL_STEP / fine);
  if (split === undefined) return new Map([["body", volume(whole)]]);
  // A wall thick enough for two is shared: the upper half's inner lip, half a stopper's gap free all round, slides into the lower.
  const hasLip = wall / 2 - 0.075 >= leastWall;
  const lip = common(whole, slice(split.at - split.lip, split.at), shell(wall / 2 - 0.075));
  const recess = common(slice(split.at - split.lip - 0.3, split.at + 1), shell(wall / 2 + 0.075));
  const upper = common(whole, slice(split.at, 9 * FAR));
  const lower = common(whole, slice(-9 * FAR, split.at));
  return new Map([
    ["upper half", volume(hasLip ? wood([upper, lip]) : upper)],
    ["lower half", volume(hasLip ? wood([lower], [recess]) : lower)],
  ]);
}

type Duct = Extract<VesselOutline["mouth"], { kind: "duct" }>;
const slope = (degrees: number) => Math.tan((degrees * Math.PI) / 180);

/** A spout along a tangent of the pole, with a pad round the window; the windway, the window and its labium in them. */
function ductOf(mouth: Duct, vessel: VesselOutline): { readonly wood: readonly Line[]; readonly air: readonly Line[] } {
  const { window, windway, labium, cheek } = mouth;
  const { floor, exitHeight, entryHeight, chamfer: k, width } = windway;
  const pole = vessel.semiAxes[2];
  const [exit, edge] = [window.length / 2, -window.length / 2];
  const entry = exit + windway.to - windway.from;
  const rim = pole + window.chimney;
  const roof = floor + Math.max(exitHeight, entryHeight) + 1.6;
  const under = floor - 1.6;
  const wide = Math.max(window.width, windway.entryWidth) + 2 * cheek;
  const foot = under - (entry - exit - 2);
  const spout = prism(
    [
      [exit, roof],
      [entry, roof],
      [entry, under],
      [exit + 2, foot],
      [exit, foot],
    ],
    wide,
  );
  const end = edge - (rim - labium.high) / slope(labium.ramp);
  const deep = pole - vessel.wall - 2;
  const pad = prism(
    [
      [exit + 1, rim],
      [end, rim],
      [end - 6, deep],
      [exit + 1, deep],
    ],
    wide,
  );
  const way = wood([
    prism(
      [
        [exit, floor],
        [entry + FAR, floor],
        [entry + FAR, floor + entryHeight],
        [entry, floor + entryHeight],
        [exit + k, floor + exitHeight],
        [exit, floor + exitHeight],
      ],
      width,
    ),
    prism(
      [
        [exit, floor - k],
        [exit + k, floor],
        [exit, floor],
      ],
      width,
    ),
    prism(
      [
        [exit, floor + exitHeight + k],
        [exit + k, floor + exitHeight],
        [exit, floor + exitHeight],
      ],
      width,
    ),
  ]);
  const relief = reliefOf(mouth, vessel);
  if (relief === undefined) throw new Error("no relief");
  const inner = pole - relief.depth;
  const cut = prism(
    [
      [exit, inner],
      [exit, 9 * FAR],
      [edge - (9 * FAR - labium.high) / slope(labium.ramp), 9 * FAR],
      [edge, labium.high],
      [edge, labium.low],
      [edge - (labium.low - inner) / slope(relief.angle), inner],
    ],
    window.width,
  );
  const above = prism(
    [
      [-9 * FAR, rim],
      [exit, rim],
      [exit, 9 * FAR],
      [-9 * FAR, 9 * FAR],
    ],
    4 * wide,
  );
  return { wood: [spout, pad], air: [way, cut, above] };
}

function holeAir(hole: VesselHoleOutline, wall: number): Line {
  const { width, length, chimney } = hole;
  if (chimney < wall - 1e-9) throw new Error("a finger's seat in a vessel is not reckoned with here");
  return cylinder(hole, [-3, chimney + FAR], width / 2, length / 2);
}

function boss(hole: VesselHoleOutline, wall: number): Line {
  const { width, length, chimney } = hole;
  if (chimney <= wall + 1e-9) return nothing;
  return cylinder(hole, [wall / 3, chimney], width / 2 + wall, length / 2 + wall);
}

function cylinder(
  { point, normal, aside, normalAside }: VesselHoleOutline,
  reach: Point,
  across: number,
  along: number,
): Line {
  if (aside === 0) return leaning(point, normal, reach, { across, along });
  if (across !== along) throw new Error("an oval hole out of the plane is not reckoned with here");
  return pointing([point[0], aside, point[1]], [normal[0], normalAside, normal[1]], reach, across);
}
