/** Corners that are one place become one corner: a file lists each once a triangle. */

export interface Welded {
  readonly v: Float64Array;
  readonly t: Int32Array;
}

/** As a share of the mesh's size: what writing a number in single precision moves it. */
const SAME = 2e-7;

/** Triangles with two corners alike are left out. @param soup nine numbers a triangle */
export function weld(soup: Float64Array): Welded {
  const cell = SAME * sizeOf(soup);
  const table = new CornerTable(soup.length / 3, cell > 0 ? cell : 1);
  const kept = new Int32Array(soup.length / 3);
  let count = 0;
  for (let i = 0; i < soup.length; i += 9) {
    const a = table.indexOf(soup, i);
    const b = table.indexOf(soup, i + 3);
    const c = table.indexOf(soup, i + 6);
    if (a === b || b === c || c === a) continue;
    kept[count] = a;
    kept[count + 1] = b;
    kept[count + 2] = c;
    count += 3;
  }
  return { v: table.corners(), t: kept.slice(0, count) };
}

function sizeOf(soup: Float64Array): number {
  const [low, high] = [new Float64Array(3).fill(Infinity), new Float64Array(3).fill(-Infinity)];
  for (let i = 0; i < soup.length; i++) {
    const value = soup[i] as number;
    if (value < (low[i % 3] as number)) low[i % 3] = value;
    if (value > (high[i % 3] as number)) high[i % 3] = value;
  }
  return Math.hypot(...[0, 1, 2].map((k) => (high[k] as number) - (low[k] as number)));
}

/** An open hash of cells; a corner looks into the neighbouring cells too, so that rounding never parts two copies of one place. */
class CornerTable {
  private readonly slots: Int32Array;
  private readonly mask: number;
  private readonly found: Float64Array;
  private readonly cells: Float64Array;
  private count = 0;

  constructor(
    most: number,
    private readonly cell: number,
  ) {
    const size = 2 ** Math.ceil(Math.log2(2 * most + 2));
    this.slots = new Int32Array(size).fill(-1);
    this.mask = size - 1;
    this.found = new Float64Array(3 * most);
    this.cells = new Float64Array(3 * most);
  }

  corners(): Float64Array {
    return this.found.slice(0, 3 * this.count);
  }

  indexOf(soup: Float64Array, at: number): number {
    const x = (soup[at] as number) / this.cell;
    const y = (soup[at + 1] as number) / this.cell;
    const z = (soup[at + 2] as number) / this.cell;
    const [i, j, k] = [Math.round(x), Math.round(y), Math.round(z)];
    const own = this.find(i, j, k);
    if (own >= 0) return own;
    const [di, dj, dk] = [x > i ? 1 : -1, y > j ? 1 : -1, z > k ? 1 : -1];
    for (let m = 1; m < 8; m++) {
      const near = this.find(i + (m & 1 ? di : 0), j + (m & 2 ? dj : 0), k + (m & 4 ? dk : 0));
      if (near >= 0) return near;
    }
    return this.add(i, j, k, soup, at);
  }

  private slotOf(i: number, j: number, k: number): number {
    // Three large primes, as spatial hashes use (Teschner et al. 2003; from memory).
    return (Math.imul(i | 0, 73856093) ^ Math.imul(j | 0, 19349663) ^ Math.imul(k | 0, 83492791)) & this.mask;
  }

  private find(i: number, j: number, k: number): number {
    for (let slot = this.slotOf(i, j, k); ; slot = (slot + 1) & this.mask) {
      const index = this.slots[slot] as number;
      if (index < 0) return -1;
      const { cells } = this;
      if (cells[3 * index] === i && cells[3 * index + 1] === j && cells[3 * index + 2] === k) return index;
    }
  }

  private add(i: number, j: number, k: number, soup: Float64Array, at: number): number {
    let slot = this.slotOf(i, j, k);
    while ((this.slots[slot] as number) >= 0) slot = (slot + 1) & this.mask;
    const index = this.count++;
    this.slots[slot] = index;
    this.cells.set([i, j, k], 3 * index);
    for (let axis = 0; axis < 3; axis++) this.found[3 * index + axis] = soup[at + axis] as number;
    return index;
  }
}
