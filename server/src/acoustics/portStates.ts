/** What fingers make of a column's openings. */
import { fingerLength } from "./aperture.js";
import type { Cover } from "./column.js";
import type { NetworkGeometry } from "./networkGeometry.js";

/** What one fingering makes of the ports, numbered as `geometry.ports`. */
export interface PortStates {
  /** 1 where air goes out and sound comes in. */
  readonly open: Uint8Array;
  /** The ports that are. */
  readonly openings: Int32Array;
  /** Half the series length at each node over (bore radius)², as a share of the reference area/π, m. */
  readonly halfSeries: Float64Array;
  /** Length the finger's cover adds outside over the opening's area, times the reference area, m. */
  readonly added: Float64Array;
}

/** @param covers one for each hole, in the column's own order, and one for the foot, 1, where the player stops it */
export function portStates(geometry: NetworkGeometry, covers: readonly Cover[]): PortStates {
  const { ports, order, foot, area } = geometry;
  const m = ports.length;
  const isStopped = foot === "stopped" || covers[order.length] === 1;
  if (covers.length !== order.length && covers.length !== order.length + 1)
    throw new RangeError(`${order.length} holes need as many covers, not ${covers.length}`);
  const open = new Uint8Array(m);
  const halfSeries = new Float64Array(m);
  const added = new Float64Array(m);
  // Asked for every fingering of every column: small typed arrays would cost more than what is put into them.
  const series = new Array<number>(m).fill(0);
  const openings: number[] = [];
  ports.forEach((port, i) => {
    const cover = i < order.length ? (covers[order[i] as number] as number) : 0;
    if (!(cover >= 0 && cover <= 1)) throw new RangeError("a cover lies between 0 (open) and 1 (closed)");
    const silent = !port.place || (isStopped && port.place.on === "footEnd");
    open[i] = silent || cover === 1 ? 0 : 1;
    if (!silent && cover !== 1) openings.push(i);
    series[i] = port.seriesOpen + cover * (port.seriesClosed - port.seriesOpen);
    if (cover > 0 && cover < 1) {
      const radius = Math.sqrt(port.area / Math.PI);
      added[i] = (fingerLength(radius, cover) * area) / port.area;
    }
  });
  // The flow along the bore is assumed to be the same at two near holes: the difference flows out at them, and is a thousandth of their flow.
  const more = new Array<number>(m).fill(0);
  for (const { i, j, dipole } of geometry.induced) more[i] = (more[i] as number) - dipole * (series[j] as number);
  ports.forEach(({ boreRadius }, i) => {
    const own = more[i] as number;
    // The neighbour's is more by as much: two terms of that series.
    const seen = (series[i] as number) * (1 + own + own * own);
    halfSeries[i] = (seen * area) / (2 * Math.PI * boreRadius ** 2);
  });
  // Written out, as in `holePort`.
  return { open, openings: Int32Array.from(openings), halfSeries, added };
}
