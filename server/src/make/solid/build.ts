/** From a design to the parts that make it, each as it lies on the printer's bed. */

import { preflight } from "../../design/making/preflight.js";
import type { Outline } from "../../design/outline/outline.js";
import type { Finding } from "../../instrument/finding.js";
import type { Resolution } from "../../instrument/model.js";
import { pipesParts } from "./family/pipes.js";
import { tubeParts } from "./family/tube.js";
import { vesselParts } from "./family/vessel.js";
import { Kernel, type Mesh, type Placing, type Point3 } from "./kernel.js";
import type { Part, Up } from "./parts.js";
import { Shapes } from "./shapes.js";
import { partFindings } from "./verify.js";

/** A part in mm, its least corner at 0: as it stands on the bed. */
export interface MadePart extends Omit<Part, "solid" | "genus" | "path" | "up"> {
  readonly mesh: Mesh;
  readonly size: Point3;
  /** How it was turned and moved from its place in the instrument. */
  readonly placing: Placing;
  /** mm³ */
  readonly volume: number;
}

export interface Made {
  readonly outline: Outline;
  readonly parts: readonly MadePart[];
}

/** What cannot be made, with the place of each reason. */
export class CannotMake extends Error {
  constructor(readonly findings: readonly Finding[]) {
    super(findings.map(({ message }) => message).join(" "));
  }
}

/**
 * The design as drawn, times the print scale, and nothing else: the prediction has shrinkage and undersize in it already.
 * Rejects with CannotMake, and with Cancelled once `shouldStop` says so.
 */
export async function makeSolid(resolution: Resolution, shouldStop?: () => boolean): Promise<Made> {
  const { outline, leastWall, refused } = preflight(resolution);
  if (outline === undefined || refused.length > 0) throw new CannotMake(refused);
  return Kernel.use((kernel) => {
    const parts = partsOf(outline, leastWall, new Shapes(kernel));
    const broken = parts.flatMap((part) => partFindings(part, kernel.facts(part.solid)));
    if (broken.length > 0) throw new CannotMake(broken);
    return { outline, parts: parts.map((part) => laid(part, kernel)) };
  }, shouldStop);
}

function partsOf({ body }: Outline, leastWall: number, shapes: Shapes): readonly Part[] {
  switch (body.kind) {
    case "tube":
      return tubeParts(body, leastWall, shapes);
    case "pipes":
      return pipesParts(body, shapes);
    case "vessel":
      return vesselParts(body, leastWall, shapes);
  }
}

const UPRIGHT: Readonly<Record<Up, Placing>> = {
  "+z": { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
  "-z": { x: [1, 0, 0], y: [0, -1, 0], z: [0, 0, -1] },
  "+y": { x: [1, 0, 0], y: [0, 0, 1], z: [0, -1, 0] },
};

function laid({ solid, genus: _genus, path: _path, up, ...part }: Part, kernel: Kernel): MadePart {
  const turned = UPRIGHT[up];
  const { vertices, triangles } = kernel.mesh(kernel.simplified(kernel.placed(solid, turned)));
  const [low, high] = extent(vertices);
  const moved = vertices.map((value, i) => value - (low[i % 3] ?? 0));
  const mesh = welded({ vertices: moved, triangles });
  const size = [high[0] - low[0], high[1] - low[1], high[2] - low[2]] as const;
  const placing: Placing = { ...turned, move: [-low[0], -low[1], -low[2]] };
  return { ...part, mesh, size, placing, volume: kernel.volume(solid) };
}

/** Corners that single precision makes equal are merged, and triangles between them removed, as a reader of the file would find. */
function welded({ vertices, triangles }: Mesh): Mesh {
  const { index, kept } = merged(vertices);
  const left: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const a = index[triangles[i] as number] as number;
    const b = index[triangles[i + 1] as number] as number;
    const c = index[triangles[i + 2] as number] as number;
    if (a !== b && b !== c && c !== a) left.push(a, b, c);
  }
  return { vertices: kept, triangles: Uint32Array.from(left) };
}

/** Each place once, in the order in which they come, and which of them each corner is. */
function merged(vertices: Float32Array): { readonly index: Uint32Array; readonly kept: Float32Array } {
  const count = vertices.length / 3;
  const size = 2 ** Math.ceil(Math.log2(2 * count + 2));
  // Open addressing: one more than the place's number, 0 where a slot is free.
  const slots = new Uint32Array(size);
  const index = new Uint32Array(count);
  const kept = new Float32Array(vertices.length);
  let places = 0;
  for (let i = 0; i < count; i++) {
    const x = vertices[3 * i] as number;
    const y = vertices[3 * i + 1] as number;
    const z = vertices[3 * i + 2] as number;
    let slot = slotOf(x, y, z) & (size - 1);
    for (; ; slot = (slot + 1) & (size - 1)) {
      const place = (slots[slot] as number) - 1;
      if (place < 0) {
        kept[3 * places] = x;
        kept[3 * places + 1] = y;
        kept[3 * places + 2] = z;
        slots[slot] = ++places;
        index[i] = places - 1;
        break;
      }
      if (kept[3 * place] !== x || kept[3 * place + 1] !== y || kept[3 * place + 2] !== z) continue;
      index[i] = place;
      break;
    }
  }
  return { index, kept: kept.slice(0, 3 * places) };
}

/** Steps of a corner's place that its slot tells apart, a mm: finer than corners lie, in whole numbers. */
const STEPS = 4096;

function slotOf(x: number, y: number, z: number): number {
  // Three large primes, as spatial hashes use (Teschner et al. 2003; from memory).
  return (
    Math.imul(Math.round(x * STEPS), 73856093) ^
    Math.imul(Math.round(y * STEPS), 19349663) ^
    Math.imul(Math.round(z * STEPS), 83492791)
  );
}

function extent(vertices: Float32Array): readonly [Point3, Point3] {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (const [i, value] of vertices.entries()) {
    const axis = (i % 3) as 0 | 1 | 2;
    low[axis] = Math.min(low[axis], value);
    high[axis] = Math.max(high[axis], value);
  }
  return [low, high];
}
