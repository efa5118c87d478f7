/** A design measured back from the mesh of its solid, by slicing that knows nothing of the making: bore, holes, cavity. */
import type { TubeOutline, VesselOutline } from "../../server/src/design/outline/outline.js";
import type { Resolution } from "../../server/src/instrument/model.js";
import { makeSolid } from "../../server/src/make/solid/build.js";
import { inPlace } from "../../server/src/make/solid/together.js";
import { cut, openingAt, type Soup } from "./mesh.js";

export type Data = Record<string, unknown> & { bore?: Record<string, number>[]; holes?: Record<string, number>[] };

export class Measuring {
  worst = 0;
  chord = 0;

  /** Compares, and gives what was measured. */
  size(is: number, wanted: number): number {
    this.worst = Math.max(this.worst, Math.abs(is - wanted));
    return is;
  }

  /** The circle round a point: its diameter by area; how far its corners and the middles of its sides lie from the design's. */
  circle(loops: ReturnType<typeof cut>, middle: readonly [number, number], diameter: number) {
    const found = openingAt(loops, middle);
    for (const [i, [x, y]] of found.loop.entries()) {
      const [u, v] = found.loop[(i + 1) % found.loop.length] ?? [x, y];
      for (const [a, b] of [
        [x, y],
        [(x + u) / 2, (y + v) / 2],
      ] as const)
        this.chord = Math.max(
          this.chord,
          Math.abs(Math.hypot(a - found.middle[0], b - found.middle[1]) - diameter / 2),
        );
    }
    return { diameter: this.size(found.diameter, diameter), middle: found.middle };
  }
}

/** About the z axis, so that what lies at an angle comes to the front. */
function toFront(soup: Soup, degrees: number): Soup {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return soup.map((value, i) => {
    const [x = 0, y = 0] = soup.subarray(i - (i % 3), i - (i % 3) + 2);
    return i % 3 === 0 ? c * x - s * y : i % 3 === 1 ? s * x + c * y : value;
  });
}

function tube(body: TubeOutline, parts: ReadonlyMap<string, Soup>, data: Data, measuring: Measuring): void {
  const partAt = (z: number) => parts.get(body.parts.find(({ from, to }) => z >= from && z <= to)?.name ?? "");
  for (const [i, { at, diameter }] of body.bore.entries()) {
    // Beside the station, clear of ends, mouth and joints; on a cone its slope is taken off again.
    const [before, after] = [body.bore[i - 1], body.bore[i + 1]];
    const beside = clearOfHoles(
      body,
      after === undefined ? [before?.at ?? at, at] : [at, after.at],
      after === undefined,
    );
    if (beside === undefined || at <= 0 || body.joints.some((joint) => joint.at === at)) continue;
    const next = after ?? before;
    const slope = next === undefined || next.at === at ? 0 : (next.diameter - diameter) / (next.at - at);
    const soup = partAt(beside);
    if (soup === undefined) continue;
    const wanted = diameter + slope * (beside - at);
    const is = measuring.circle(cut(soup, 2, beside), [0, 0], wanted).diameter - slope * (beside - at);
    const station = data.bore?.[i];
    if (station !== undefined) station.diameter = is;
  }
  for (const [i, hole] of body.holes.entries()) {
    const soup = partAt(hole.at);
    if (soup === undefined) throw new Error(`no part at ${hole.at}`);
    const front = hole.angle === 0 ? soup : toFront(soup, hole.angle);
    if (hole.undercut > 0 || hole.length !== hole.width) continue;
    // Between the bore and where the body's side is no wider than the hole.
    const side = Math.sqrt(Math.max(0, (hole.boreRadius + body.wall) ** 2 - (hole.width / 2) ** 2));
    const loops = cut(front, 1, (hole.boreRadius + Math.min(hole.boreRadius + hole.chimney, side)) / 2);
    const { diameter, middle } = measuring.circle(loops, [0, hole.at], hole.width);
    Object.assign(data.holes?.[i] ?? {}, { diameter, at: measuring.size(middle[1], hole.at) });
  }
}

/** A place in a stretch of the bore, as near its start (or its end) as no hole opens the wall. */
function clearOfHoles(
  { holes }: TubeOutline,
  [from, to]: readonly [number, number],
  fromEnd: boolean,
): number | undefined {
  const steps = Array.from({ length: Math.floor((to - from) / 2) }, (_, i) =>
    fromEnd ? to - 2 * (i + 1) : from + 2 * (i + 1),
  );
  return steps.find((z) => holes.every(({ at, length, undercut }) => Math.abs(z - at) > (length + undercut) / 2 + 0.5));
}

function vessel(body: VesselOutline, all: Soup, data: Data, measuring: Measuring): void {
  const [a, b, c] = body.semiAxes;
  // A height without holes.
  const free = Array.from({ length: 60 }, (_, i) => -0.6 * c + (i * c) / 50).find((z) =>
    body.holes.every(({ point, width }) => Math.abs(point[1] - z) > width),
  );
  if (free === undefined) throw new Error("no height without holes");
  const shrink = Math.sqrt(1 - (free / c) ** 2);
  const { size, diameter: byArea } = openingAt(cut(all, 2, free), [0, 0]);
  // Corners lie outside the surface: what sounds is the room within, so the oval is taken by its area.
  const share = byArea / Math.sqrt(size[0] * size[1]);
  const half = (extent: number, wanted: number) => measuring.size((share * extent) / shrink / 2, wanted);
  const [x, y] = [half(size[0], a), half(size[1], b)];
  const poles = [...all].filter((_, i) => i % 3 === 2 && Math.hypot(all[i - 2] ?? 9, all[i - 1] ?? 9) < 0.01);
  const z = measuring.size(-share * Math.max(...poles.filter((each) => each < 0)), c);
  data.vessel = { ...(data.vessel as object), length: 2 * z, width: 2 * x, height: 2 * y };
  for (const [i, hole] of body.holes.entries()) {
    // Turned about y until the hole looks along x.
    const [nx, nz] = hole.normal;
    const turned = all.map((value, k) => {
      const [px = 0, , pz = 0] = all.subarray(k - (k % 3), k - (k % 3) + 3);
      return k % 3 === 0 ? nx * px + nz * pz : k % 3 === 2 ? nx * pz - nz * px : value;
    });
    const [px, pz] = hole.point;
    const loops = cut(turned, 0, nx * px + nz * pz + 0.7 * hole.chimney);
    const { diameter } = measuring.circle(loops, [0, nx * pz - nz * px], hole.width);
    Object.assign(data.holes?.[i] ?? {}, { diameter });
  }
}

/** The design's data with the measured numbers in place of its own, in mm; formulas that they stand beside keep their parameters. */
export async function measuredBack(
  resolution: Resolution,
): Promise<{ readonly data: Data; readonly measuring: Measuring }> {
  const { outline, parts } = await makeSolid(resolution);
  const soups = new Map(
    parts.map((part): [string, Soup] => {
      const { vertices, triangles } = inPlace(part);
      const soup = [...triangles].flatMap((corner) => [...vertices.subarray(3 * corner, 3 * corner + 3)]);
      return [part.name, Float64Array.from(soup)];
    }),
  );
  const data = structuredClone(resolution.draft.data) as Data;
  const measuring = new Measuring();
  const { body } = outline;
  if (body.kind === "tube") tube(body, soups, data, measuring);
  if (body.kind === "vessel")
    vessel(body, Float64Array.from([...soups.values()].flatMap((soup) => [...soup])), data, measuring);
  if (body.kind === "pipes") {
    const row = soups.get("pipes") ?? new Float64Array();
    for (const [i, { x, diameter, length }] of body.pipes.entries()) {
      const found = measuring.circle(cut(row, 2, length / 2), [x, 0], diameter);
      Object.assign((data.pipes as object[])[i] ?? {}, { diameter: found.diameter });
    }
  }
  return { data, measuring };
}
