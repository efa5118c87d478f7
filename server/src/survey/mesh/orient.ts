/** One sense of winding for all faces of a mesh, and which of its closed surfaces bound a cavity. */
import { insideVotes } from "./inside.js";
import type { Mesh } from "./mesh.js";
import type { Welded } from "./weld.js";

export interface Oriented extends Mesh {
  /** Edges with one face only. */
  readonly open: number;
  /** Faces that looked another way than their neighbours. */
  readonly turned: number;
  /** Whether all looked inward. */
  readonly inverted: boolean;
  /** Closed surfaces that lie inside the wood of others. */
  readonly cavities: number;
}

/** Crumbs of fewer faces have no say. */
const LEAST_FACES = 12;
/** Share of a surface's edges that may be open, for its volume to say which side is out. */
const MOST_OPEN = 0.05;
/** A surface with this share of its area in other wood is a cavity. */
const MOSTLY = 0.6;

export function orient({ v, t }: Welded): Oriented {
  const faces = t.slice();
  const { neighbours, open } = neighboursOf(faces);
  const { shell, shells, turned } = spread(faces, neighbours);
  const mesh: Mesh = { v, t: faces, shell, shells };
  const volumes = volumesOf(mesh);
  const [counts, gaps] = [new Int32Array(shells), new Int32Array(shells)];
  for (const [i, each] of shell.entries()) {
    counts[each] = (counts[each] as number) + 1;
    for (let e = 0; e < 3; e++) if ((neighbours[3 * i + e] as number) < 0) gaps[each] = (gaps[each] as number) + 1;
  }
  /** Rags, as of a mesh whose edges meet only halfway, stay as the file has them. */
  const isBody = (i: number) =>
    (counts[i] as number) >= LEAST_FACES && (gaps[i] as number) <= MOST_OPEN * 3 * (counts[i] as number);
  const inverted = isInverted(volumes, isBody);
  const flip = new Uint8Array(shells);
  let cavities = 0;
  for (let i = 0; i < shells; i++) {
    if (!isBody(i)) {
      flip[i] = inverted ? 1 : 0;
      continue;
    }
    const isCavity = shells > 1 && insideVotes(mesh, i, volumes, counts, LEAST_FACES) > MOSTLY;
    if (isCavity) cavities++;
    flip[i] = isCavity === (volumes[i] as number) < 0 ? 0 : 1;
  }
  for (let i = 0; i < shell.length; i++) if (flip[shell[i] as number]) swap(faces, i);
  return { ...mesh, open, turned, inverted, cavities };
}

/** By the largest body; where there is none, by all together. */
function isInverted(volumes: Float64Array, isBody: (shell: number) => boolean): boolean {
  let [largest, all] = [0, 0];
  for (const [i, volume] of volumes.entries()) {
    all += volume;
    if (isBody(i) && Math.abs(volume) > Math.abs(largest)) largest = volume;
  }
  return (largest === 0 ? all : largest) < 0;
}

function swap(faces: Int32Array, i: number): void {
  const kept = faces[3 * i + 1] as number;
  faces[3 * i + 1] = faces[3 * i + 2] as number;
  faces[3 * i + 2] = kept;
}

/** For each side of each face the face beyond it; −1 at an open edge and where three or more faces meet. */
function neighboursOf(faces: Int32Array): { readonly neighbours: Int32Array; readonly open: number } {
  const sides = faces.length;
  const size = 2 ** Math.ceil(Math.log2(2 * sides + 2));
  const slots = new Int32Array(size).fill(-1);
  const partner = new Int32Array(sides).fill(-1);
  const uses = new Uint8Array(sides);
  const first = new Int32Array(sides);
  for (let side = 0; side < sides; side++) {
    const [a, b] = ends(faces, side);
    let slot = (Math.imul(a, 73856093) ^ Math.imul(b, 19349663)) & (size - 1);
    for (; ; slot = (slot + 1) & (size - 1)) {
      const other = slots[slot] as number;
      if (other < 0) {
        slots[slot] = side;
        first[side] = side;
        uses[side] = 1;
        break;
      }
      const [c, d] = ends(faces, other);
      if (a !== c || b !== d) continue;
      first[side] = other;
      uses[other] = Math.min(200, (uses[other] as number) + 1);
      partner[other] = side;
      partner[side] = other;
      break;
    }
  }
  const neighbours = new Int32Array(sides).fill(-1);
  let open = 0;
  for (let side = 0; side < sides; side++) {
    const shared = uses[first[side] as number] as number;
    if (shared === 2) neighbours[side] = Math.floor((partner[side] as number) / 3);
    else if (shared === 1) open++;
  }
  return { neighbours, open };
}

/** The corners of a side, lesser first. */
function ends(faces: Int32Array, side: number): readonly [number, number] {
  const base = side - (side % 3);
  const a = faces[side] as number;
  const b = faces[base + ((side + 1) % 3)] as number;
  return a < b ? [a, b] : [b, a];
}

function spread(faces: Int32Array, neighbours: Int32Array) {
  const count = faces.length / 3;
  const shell = new Int32Array(count).fill(-1);
  const flip = new Uint8Array(count);
  const stack = new Int32Array(count);
  const runs = (i: number, a: number, b: number) =>
    [0, 1, 2].some((e) => faces[3 * i + e] === a && faces[3 * i + ((e + 1) % 3)] === b);
  let [shells, turned] = [0, 0];
  for (let seed = 0; seed < count; seed++) {
    if ((shell[seed] as number) >= 0) continue;
    let [top, size, against] = [0, 0, 0];
    stack[top++] = seed;
    shell[seed] = shells;
    const members: number[] = [];
    while (top > 0) {
      const i = stack[--top] as number;
      members.push(i);
      size++;
      against += flip[i] as number;
      for (let e = 0; e < 3; e++) {
        const j = neighbours[3 * i + e] as number;
        if (j < 0 || (shell[j] as number) >= 0) continue;
        shell[j] = shells;
        const same = runs(j, faces[3 * i + e] as number, faces[3 * i + ((e + 1) % 3)] as number);
        flip[j] = (flip[i] as number) ^ (same ? 1 : 0);
        stack[top++] = j;
      }
    }
    // The fewer are the ones that looked the wrong way.
    const wrong = against > size / 2 ? 0 : 1;
    for (const i of members) if (flip[i] === wrong) swap(faces, i);
    turned += Math.min(against, size - against);
    shells++;
  }
  return { shell, shells, turned };
}

function volumesOf({ v, t, shell, shells }: Mesh): Float64Array {
  const volumes = new Float64Array(shells);
  const at = (corner: number, k: number) => (v[3 * corner + k] as number) - (v[k] as number);
  for (let i = 0; i < shell.length; i++) {
    const [a, b, c] = [t[3 * i] as number, t[3 * i + 1] as number, t[3 * i + 2] as number];
    const six =
      at(a, 0) * (at(b, 1) * at(c, 2) - at(b, 2) * at(c, 1)) -
      at(a, 1) * (at(b, 0) * at(c, 2) - at(b, 2) * at(c, 0)) +
      at(a, 2) * (at(b, 0) * at(c, 1) - at(b, 1) * at(c, 0));
    volumes[shell[i] as number] = (volumes[shell[i] as number] as number) + six / 6;
  }
  return volumes;
}
