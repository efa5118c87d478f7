/**
 * A second way to a mesh, which knows nothing of circles or of the kernel: a body given by a function, negative in wood, is cut into
 * tetrahedra on a grid, as scans and sculpting programs leave it. Its edges are rounded by a cell and its triangles are of any shape.
 */

export type Body = (x: number, y: number, z: number) => number;
type Point = readonly [x: number, y: number, z: number];

/** The cube's six tetrahedra round its diagonal (Freudenthal), corners as bits x, y, z: neighbours' faces agree. */
const TETRAHEDRA = [
  [0, 1, 3, 7],
  [0, 3, 2, 7],
  [0, 2, 6, 7],
  [0, 6, 4, 7],
  [0, 4, 5, 7],
  [0, 5, 1, 7],
] as const;

/** Nine numbers a triangle. @param cell sizes of the grid along x, y, z */
export function implicitMesh(body: Body, low: Point, high: Point, cell: Point): Float64Array {
  const count = low.map((from, k) => Math.ceil(((high[k] ?? 0) - from) / (cell[k] ?? 1))) as [number, number, number];
  const [nx, ny, nz] = count;
  const at = (i: number, j: number, k: number): Point => [
    low[0] + i * cell[0],
    low[1] + j * cell[1],
    low[2] + k * cell[2],
  ];
  const index = (i: number, j: number, k: number) => (k * (ny + 1) + j) * (nx + 1) + i;
  const values = new Float64Array((nx + 1) * (ny + 1) * (nz + 1));
  for (let k = 0; k <= nz; k++)
    for (let j = 0; j <= ny; j++) for (let i = 0; i <= nx; i++) values[index(i, j, k)] = body(...at(i, j, k)) || 1e-9;
  const soup: number[] = [];
  /** By corner and edge from it: a cut is a corner of many triangles. */
  const cuts = new Map<number, Point>();
  for (let k = 0; k < nz; k++)
    for (let j = 0; j < ny; j++)
      for (let i = 0; i < nx; i++) {
        const corner = (bits: number) => [i + (bits & 1), j + ((bits >> 1) & 1), k + (bits >> 2)] as const;
        const value = (bits: number) => values[index(...corner(bits))] ?? 0;
        if (isAlike(values, index(i, j, k), nx + 1, (nx + 1) * (ny + 1))) continue;
        for (const tetrahedron of TETRAHEDRA) {
          const wood = tetrahedron.filter((bits) => value(bits) < 0);
          const air = tetrahedron.filter((bits) => value(bits) >= 0);
          // From the lesser corner, so that neighbours find the same point to the last bit.
          const cut = (a: number, b: number): Point => {
            const [p, q] = a < b ? [a, b] : [b, a];
            const edge = 8 * index(...corner(p)) + (p ^ q);
            const known = cuts.get(edge) ?? root(body, at(...corner(p)), at(...corner(q)), value(p), value(q));
            cuts.set(edge, known);
            return known;
          };
          const out = outward(
            wood.map((bits) => at(...corner(bits))),
            air.map((bits) => at(...corner(bits))),
          );
          if (wood.length === 1 || air.length === 1) {
            const [apex, base] = wood.length === 1 ? [wood, air] : [air, wood];
            triangle(soup, out, ...(base.map((each) => cut(apex[0] ?? 0, each)) as [Point, Point, Point]));
          } else if (wood.length === 2) {
            const [a, b, c, d] = [wood[0] ?? 0, wood[1] ?? 0, air[0] ?? 0, air[1] ?? 0];
            triangle(soup, out, cut(a, c), cut(a, d), cut(b, d));
            triangle(soup, out, cut(a, c), cut(b, d), cut(b, c));
          }
        }
      }
  return Float64Array.from(soup);
}

/** Whether all corners of a cube lie in wood, or all in air. @param first its least corner; @param row, layer to the next along y, z */
function isAlike(values: Float64Array, first: number, row: number, layer: number): boolean {
  const isWood = (values[first] as number) < 0;
  for (let bits = 1; bits < 8; bits++) {
    const corner = first + (bits & 1) + (bits & 2 ? row : 0) + (bits & 4 ? layer : 0);
    if ((values[corner] as number) < 0 !== isWood) return false;
  }
  return true;
}

/** The surface between two points, one in wood and one in air, by the secant, so that corners lie on it. */
function root(body: Body, from: Point, to: Point, atFrom: number, atTo: number): Point {
  const between = (share: number): Point => [
    from[0] + share * (to[0] - from[0]),
    from[1] + share * (to[1] - from[1]),
    from[2] + share * (to[2] - from[2]),
  ];
  let [a, b, fa, fb] = [0, 1, atFrom, atTo];
  for (let step = 0; step < 3; step++) {
    const share = a + ((b - a) * fa) / (fa - fb);
    const value = body(...between(share));
    if (value < 0 === fa < 0) [a, fa] = [share, value];
    else [b, fb] = [share, value];
  }
  return between(a + ((b - a) * fa) / (fa - fb));
}

function outward(wood: readonly Point[], air: readonly Point[]): Point {
  const mean = (points: readonly Point[], axis: 0 | 1 | 2) => {
    let sum = 0;
    for (const point of points) sum += point[axis];
    return sum / points.length;
  };
  const between = (axis: 0 | 1 | 2) => mean(air, axis) - mean(wood, axis);
  return [between(0), between(1), between(2)];
}

function triangle(soup: number[], out: Point, a: Point, b: Point, c: Point): void {
  const [ux, uy, uz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const [wx, wy, wz] = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
  const side = (uy * wz - uz * wy) * out[0] + (uz * wx - ux * wz) * out[1] + (ux * wy - uy * wx) * out[2];
  for (const point of side > 0 ? [a, b, c] : [a, c, b]) soup.push(point[0], point[1], point[2]);
}
