/** Why a mesh has no straight bore: slabs of it are examined one by one. */
import { extent, type Mesh, partOf } from "../mesh/mesh.js";
import { lineThrough } from "../mesh/statistics.js";
import { centresOf } from "./centres.js";

const SLABS = 12;
const FEWEST = 6;
const LEAST_SHARE = 0.2;

/** How far the middles of slabs leave a straight line, as a share of the length; undefined where few slabs have a round bore. @param mesh along z, nearly */
export function bendOf(mesh: Mesh): number | undefined {
  const [low, high] = extent(mesh);
  const size = high[2] - low[2];
  const { v, t } = mesh;
  const middle = (i: number) =>
    [0, 1, 2].reduce((sum, k) => sum + (v[3 * (t[3 * i + k] as number) + 2] as number) / 3, 0);
  const middles = Array.from({ length: SLABS }, (_, k) => {
    const [from, to] = [low[2] + (size * k) / SLABS, low[2] + (size * (k + 1)) / SLABS];
    const slab = partOf(mesh, (i) => middle(i) >= from && middle(i) < to);
    const [centre] = slab.t.length < 36 ? [] : centresOf(slab, 1);
    return centre !== undefined && centre.share > LEAST_SHARE ? [{ ...centre, z: (from + to) / 2 }] : [];
  }).flat();
  if (middles.length < FEWEST) return undefined;
  const line = (key: "x" | "y") =>
    lineThrough(
      middles.map(({ z }) => z),
      middles.map((each) => each[key]),
    ).residuals;
  const [x, y] = [line("x"), line("y")];
  return Math.max(...x.map((each, i) => Math.hypot(each, y[i] as number))) / size;
}
