/** An outline as lines of a section along its axis: x along it, y upward away from the front; millimetres, y growing downward. */
import type { HoleOutline, Outline, Profile, VesselHoleOutline } from "../../../design/outline/outline.js";

/** Path data of SVG 2, and the box it lies in. */
export interface Shape {
  readonly paths: readonly string[];
  readonly box: Box;
}

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

type Point = readonly [x: number, y: number];

export function shapeOf({ body }: Outline): Shape {
  const lines = body.kind === "tube" ? tube(body) : body.kind === "pipes" ? pipes(body) : vessel(body);
  const points = lines.flat();
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return {
    paths: lines.map((line) => `M${line.map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`).join("L")}`),
    box: { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) },
  };
}

export function around(boxes: readonly Box[]): Box {
  return {
    left: Math.min(...boxes.map(({ left }) => left)),
    top: Math.min(...boxes.map(({ top }) => top)),
    right: Math.max(...boxes.map(({ right }) => right)),
    bottom: Math.max(...boxes.map(({ bottom }) => bottom)),
  };
}

function tube({
  outside,
  bore,
  holes,
  foot,
}: Extract<Outline["body"], { kind: "tube" }>): readonly (readonly Point[])[] {
  const inner: Profile = bore.map(({ at, diameter }) => [at, diameter / 2]);
  const [above, below] = [side(inner, -1), side(inner, 1)];
  const end = [above.at(-1), below.at(-1)].filter((point) => point !== undefined);
  const round = [...side(outside, -1), ...side(outside, 1).toReversed()];
  return [[...round, ...round.slice(0, 1)], above, below, ...(foot === "stopped" ? [end] : []), ...holes.map(hole)];
}

function side(profile: Profile, sign: 1 | -1): readonly Point[] {
  return profile.map(([z, radius]) => [z, sign * radius] as const);
}

/** Seen from the side: a hole at the front above, at the back below, others by where they lie between. */
function hole({ at, length, angle, boreRadius, chimney }: HoleOutline): readonly Point[] {
  const way = -Math.cos((angle * Math.PI) / 180);
  const [from, to] = [way * boreRadius, way * (boreRadius + chimney)];
  const [left, right] = [at - length / 2, at + length / 2];
  return [
    [left, from],
    [left, to],
    [right, to],
    [right, from],
    [left, from],
  ];
}

function pipes({ pipes: all }: Extract<Outline["body"], { kind: "pipes" }>): readonly (readonly Point[])[] {
  return all.map(({ x, diameter, length }) => {
    const [upper, lower] = [x - diameter / 2, x + diameter / 2];
    return [
      [0, upper],
      [length, upper],
      [length, lower],
      [0, lower],
    ] as const;
  });
}

/** Straight pieces of an ellipse: a degree each three are rounder than a line is wide. */
const PIECES = 120;

function vessel({ semiAxes: [x, , z], wall, holes }: Extract<Outline["body"], { kind: "vessel" }>) {
  const ellipse = (grown: number) =>
    Array.from({ length: PIECES + 1 }, (_, i): Point => {
      const angle = (2 * Math.PI * i) / PIECES;
      return [-(z + grown) * Math.cos(angle), (x + grown) * Math.sin(angle)];
    });
  return [ellipse(0), ellipse(wall), ...holes.map(vesselHole)];
}

/** The mouth of a vessel lies to the left, as that of a tube does. */
function vesselHole({ point: [x, z], normal: [nx, nz], width, chimney }: VesselHoleOutline): readonly Point[] {
  const at = (along: number, out: number): Point => [-(z + nz * out - nx * along), x + nx * out + nz * along];
  return [at(-width / 2, 0), at(-width / 2, chimney), at(width / 2, chimney), at(width / 2, 0)];
}
