import type { AirState } from "./airState.js";
import { type Frustum, frustaBetween, lossRadius } from "./bore.js";
import type { Column, Station } from "./column.js";
import {
  areUncoupled,
  axialCoupling,
  boreCoupling,
  effectiveDistance,
  imageCoupling,
  inducedAxialFlow,
} from "./coupling.js";
import { type MouthEnd, mouthEnd } from "./mouth.js";
import { footPort, holePorts, type Port } from "./ports.js";
import { sameValue } from "./sameValue.js";

/** A frustum, 0 for no `step`, and which of the geometry's loss radii stands for its walls. */
export interface Piece extends Frustum {
  readonly step: number;
  readonly wave: number;
}

/**
 * Everything about a column that depends on neither frequency nor fingering. Ports are numbered as the unknowns of the network are:
 * tone holes from the mouth to the foot 0…n−1, the foot n, the mouth n+1.
 */
export interface NetworkGeometry {
  readonly column: Column;
  readonly air: AirState;
  readonly foot: "open" | "stopped";
  readonly ports: readonly Port[];
  /** Position in the column's own list of holes, by port. */
  readonly order: readonly number[];
  /** Area to whose ρc/S all impedances refer: the bore at the mouth, m². */
  readonly area: number;
  /** Section i ends at port i; the first begins at the mouth. */
  readonly sections: readonly (readonly Piece[])[];
  /** The air upstream of the mouth's opening, from its rigid end. */
  readonly cavity: readonly Piece[];
  readonly lossRadii: readonly number[];
  /** Which loss radius a port's chimney has; −1 without chimney. */
  readonly chimneyWave: readonly number[];
  /** Pairs of openings that are coupled outside, with the distance that stands between them, m. */
  readonly outside: readonly { readonly i: number; readonly j: number; readonly distance: number }[];
  /** Where walls stop the bore, m. */
  readonly rigidEnds: readonly number[];
  /** Pairs of openings that are coupled in the bore, 1/m; one with itself where it is coupled with its own image in a rigid end. */
  readonly inside: readonly { readonly i: number; readonly j: number; readonly coupling: number }[];
  /**
   * Holes i whose series length feels what flows out at j: `share` of it more than the plane wave's flow, less if negative. Of two holes
   * near each other each feels the other. Of j's series length i feels `dipole` times it, 1/m.
   */
  readonly induced: readonly {
    readonly i: number;
    readonly j: number;
    readonly share: number;
    readonly dipole: number;
  }[];
  /** Length of the air column with the mouth's own, m, which sets the step of the scan. */
  readonly length: number;
  readonly largestRadius: number;
}

/** Coupling in the bore below this share of 1/(bore radius) is left out. */
const INSIDE_NEGLIGIBLE = 1e-7;
/** A station may lie this much before the one above it, m: the rounding of sums of lengths. */
const BACKWARD_ROUNDING = 1e-9;

/**
 * Lays a column out. Throws a RangeError with a plain reason where the numbers make no
 * instrument. @param base of a column that differs slightly: equal openings are taken over, by identity
 */
export function layOut(column: Column, air: AirState, base?: NetworkGeometry): NetworkGeometry {
  validate(column);
  validateAir(air);
  const mouth = mouthEnd(column);
  const holes = holePorts(column, base);
  const foot = footPort(column);
  const ports = [...holes.ports, foot, mouth.port].map((port, i, { length }) => {
    const known = base?.ports.length === length ? base.ports[i] : undefined;
    return known && sameValue(known, port) ? known : port;
  });
  for (const hole of holes.ports) {
    if (hole.x < mouth.port.x || hole.x > foot.x) {
      throw new RangeError(`the hole at ${(hole.x * 1e3).toFixed(1)} mm does not lie between mouth and foot`);
    }
  }
  if (foot.x <= mouth.port.x) throw new RangeError("the foot must lie downstream of the mouth");
  const bore = column.bore.filter((station) => station.x >= mouth.start);
  const radii = new Map<number, number>();
  const indexOf = (radius: number): number => {
    const index = radii.get(radius) ?? radii.size;
    radii.set(radius, index);
    return index;
  };
  const outline = mouthless(column, mouth.port);
  const nodes = [mouth.port, ...holes.ports, foot];
  // Written out, as in `holePort`: pieces of one hidden class.
  const numbered = (f: Frustum): Piece => {
    const { length, radius1, radius2, step = 0 } = f;
    return { length, radius1, radius2, step, wave: indexOf(lossRadius(f)) };
  };
  const number = (frusta: readonly Frustum[]): Piece[] => frusta.map(numbered);
  const knownSection = sectionsOf(base, column, air, ports);
  const section = (i: number, from: number, to: number): readonly Piece[] => {
    const known = knownSection(i, from, to);
    // With other losses before it, its own are numbered differently.
    const asNumbered = known?.every(({ wave }) => indexOf(base?.lossRadii[wave] as number) === wave);
    return known !== undefined && asNumbered ? known : number(known ?? frustaBetween(outline, from, to, air.losses));
  };
  const chimneyWave = ports.map((p) => (p.chimney ? indexOf(p.chimney.lossRadius) : -1));
  const { port } = mouth;
  const ends = rigidEnds(column, mouth);
  return {
    column,
    air,
    foot: column.foot,
    ports,
    order: holes.order,
    area: Math.PI * port.boreRadius ** 2,
    sections: nodes.slice(1).map((node, i) => section(i, (nodes[i] as Port).x, node.x)),
    cavity: number(frustaBetween(outline, mouth.start, port.x, air.losses)),
    lossRadii: [...radii.keys()],
    chimneyWave,
    outside: outsidePairs(ports, column.foot, base),
    rigidEnds: ends,
    inside: insidePairs(ports, ends, base),
    induced: inducedPairs(ports, base),
    length: foot.x - mouth.start + mouthLength(port),
    largestRadius: Math.max(...bore.map((s) => s.radius), port.boreRadius),
  };
}

/** What a base has of the same bore, by the section's index and ends: undefined where it is not the same. */
function sectionsOf(base: NetworkGeometry | undefined, column: Column, air: AirState, ports: readonly Port[]) {
  const mouth = ports.at(-1);
  const isSame =
    base !== undefined &&
    base.column.bore === column.bore &&
    base.air.losses === air.losses &&
    base.ports.length === ports.length &&
    base.ports.at(-1) === mouth;
  return (i: number, from: number, to: number): readonly Piece[] | undefined => {
    if (!isSame) return undefined;
    const before = i === 0 ? mouth : base.ports[i - 1];
    return before?.x === from && base.ports[i]?.x === to ? base.sections[i] : undefined;
  };
}

/** The outline, of which a mouth that is a bare node uses nothing upstream of 0: it goes on as a cylinder there. */
function mouthless(column: Column, port: Port): readonly Station[] {
  return port.place ? column.bore : clippedAt0(column.bore);
}

function clippedAt0(bore: readonly Station[]): Station[] {
  const rest = bore.filter((s) => s.x >= 0);
  if (rest.length === bore.length || rest[0]?.x === 0) return rest;
  const before = bore[bore.length - rest.length - 1] as Station;
  const after = rest[0] as Station;
  const share = -before.x / (after.x - before.x);
  return [{ x: 0, radius: before.radius + share * (after.radius - before.radius) }, ...rest];
}

/** Length of bore that has the mouth's inertance, m, roughly. */
function mouthLength({ chimney, area, boreRadius, added, place }: Port): number {
  if (!place) return 0;
  const length = added + (chimney ? chimney.inner + chimney.length + chimney.outer : boreRadius);
  return Math.max(0, (length * Math.PI * boreRadius ** 2) / area);
}

/** Where walls stop the bore, m: upstream of a window or an embouchure hole, and at a stopped foot. */
function rigidEnds({ bore, foot }: Column, mouth: MouthEnd): readonly number[] {
  const upstream = mouth.port.chimney ? [mouth.start] : [];
  return foot === "stopped" ? [...upstream, bore.at(-1)?.x ?? 0] : upstream;
}

function outsidePairs(
  ports: readonly Port[],
  foot: "open" | "stopped",
  base?: NetworkGeometry,
): NetworkGeometry["outside"] {
  const known = base?.foot === foot ? new KnownPairs(base, ports, base.outside) : undefined;
  const pairs: { i: number; j: number; distance: number }[] = [];
  ports.forEach((p, i) => {
    for (let j = 0; j < i; j++) {
      const q = ports[j] as Port;
      const silent = foot === "stopped" && (p.place?.on === "footEnd" || q.place?.on === "footEnd");
      if (!p.place || !q.place || silent) continue;
      pairs.push(known?.pair(i, j) ?? { i, j, distance: effectiveDistance(p.place, q.place) });
    }
  });
  return pairs;
}

/**
 * Holes and window in the bore, each pair once; an opening with itself where a rigid end is so near that it feels its own mirror image.
 * Every opening has an image behind each rigid end; what a window's own does is in its inner length already.
 */
function insidePairs(
  ports: readonly Port[],
  rigidEnds: readonly number[],
  base?: NetworkGeometry,
): NetworkGeometry["inside"] {
  const known = base && sameValue(base.rigidEnds, rigidEnds) ? new KnownPairs(base, ports, base.inside) : undefined;
  const openings = openingsInBore(ports);
  const pairs: { i: number; j: number; coupling: number }[] = [];
  for (const p of openings) {
    for (const q of openings) {
      if (q.index > p.index || (p === q && p.isWindow) || areUncoupled(p, q)) continue;
      if (known?.has(p.index, q.index)) {
        const pair = known.pair(p.index, q.index);
        if (pair !== undefined) pairs.push(pair);
        continue;
      }
      const images = rigidEnds.map((end) =>
        p === q ? imageCoupling(p, 2 * Math.abs(p.x - end)) : boreCoupling(p, { ...q, x: 2 * end - q.x }),
      );
      const coupling = images.reduce((sum, image) => sum + image, p === q ? 0 : boreCoupling(p, q));
      if (Math.abs(coupling) * p.boreRadius > INSIDE_NEGLIGIBLE) pairs.push({ i: p.index, j: q.index, coupling });
    }
  }
  return pairs;
}

function inducedPairs(ports: readonly Port[], base?: NetworkGeometry): NetworkGeometry["induced"] {
  const known = base && new KnownPairs(base, ports, base.induced);
  // Foot and mouth are the last two: only a tone hole's series length stands between two lengths of bore.
  const holes = openingsInBore(ports).filter(({ index }) => index < ports.length - 2);
  const pairs: { i: number; j: number; share: number; dipole: number }[] = [];
  for (const p of holes) {
    for (const q of holes) {
      if (p === q || areUncoupled(p, q)) continue;
      if (known?.has(p.index, q.index)) {
        const pair = known.pair(p.index, q.index);
        if (pair !== undefined) pairs.push(pair);
        continue;
      }
      const share = inducedAxialFlow(p, q);
      // The ports' order tells which of two at one place comes first.
      if (share === 0) continue;
      pairs.push({
        i: p.index,
        j: q.index,
        share: p.index < q.index ? share : -share,
        dipole: axialCoupling(p, q),
      });
    }
  }
  return pairs;
}

/** The openings that the bore's near field reaches: holes and window, not its ends. */
function openingsInBore(ports: readonly Port[]) {
  return ports.flatMap(({ inside, place, boreRadius, isWindow = false }, index) =>
    inside && place ? [{ index, isWindow, x: place.x, angle: place.angle, boreRadius, ...inside }] : [],
  );
}

interface OfPair {
  readonly i: number;
  readonly j: number;
}

/** Each base's pairs by their openings: many columns are compared with one. */
const indexed = new WeakMap<readonly OfPair[], ReadonlyMap<number, OfPair>>();

/** What a base knows of pairs of openings that have not changed. */
class KnownPairs<P extends OfPair> {
  private readonly byPair: ReadonlyMap<number, P>;

  constructor(
    private readonly base: NetworkGeometry,
    private readonly ports: readonly Port[],
    pairs: readonly P[],
  ) {
    const index = indexed.get(pairs) ?? new Map(pairs.map((pair) => [this.key(pair.i, pair.j), pair]));
    indexed.set(pairs, index);
    this.byPair = index as ReadonlyMap<number, P>;
  }

  /** Whether both openings are the base's own. */
  has(i: number, j: number): boolean {
    return this.base.ports[i] === this.ports[i] && this.base.ports[j] === this.ports[j];
  }

  /** Undefined where an opening has changed, or the two are not coupled. */
  pair(i: number, j: number): P | undefined {
    return this.has(i, j) ? this.byPair.get(this.key(i, j)) : undefined;
  }

  private key(i: number, j: number): number {
    return i * this.base.ports.length + j;
  }
}

const positive = (value: number): boolean => Number.isFinite(value) && value > 0;

/** NaN and infinity are refused here, too: later they would make the scan refine without end. */
function validate({ bore, wall, holes }: Column): void {
  if (bore.length < 2) throw new RangeError("a bore needs at least two stations");
  let before = Number.NEGATIVE_INFINITY;
  for (const { x, radius } of bore) {
    if (!Number.isFinite(x) || !positive(radius))
      throw new RangeError("every station needs a place and a diameter above 0");
    if (x < before - BACKWARD_ROUNDING) throw new RangeError("stations must be listed from the mouth to the foot");
    before = x;
  }
  if (!(wall >= 0 && Number.isFinite(wall))) throw new RangeError("the wall must be a thickness, and not negative");
  for (const { x, radius, chimney, angle, halfLength = radius, undercut = 0, raised = 0 } of holes) {
    if (!positive(radius) || !positive(chimney) || !Number.isFinite(x) || !Number.isFinite(angle)) {
      throw new RangeError("every hole needs a place, a diameter above 0 and a chimney above 0");
    }
    if (!positive(halfLength) || !positive(Math.min(radius, halfLength) + undercut)) {
      throw new RangeError("every hole needs a length above 0, outside and at the bore");
    }
    if (!(raised >= 0 && raised < chimney))
      throw new RangeError("a hole's chimney must reach beyond what stands out of it");
  }
}

function validateAir({ soundSpeed, density, viscosity, heatCapacityRatio, prandtl, losses }: AirState): void {
  const needed = losses ? [soundSpeed, density, viscosity, heatCapacityRatio, prandtl] : [soundSpeed, density];
  if (!needed.every(positive)) throw new RangeError("the air's speed of sound and its constants must be above 0");
}
