import fc from "fast-check";
import type { AirState } from "../../server/src/acoustics/airState.js";
import type { Column, Mouth, ToneHole } from "../../server/src/acoustics/column.js";

export const cents = (a: number, b: number): number => 1200 * Math.log2(a / b);

/** The air of reference/fem-open.json; the constants of the losses are not used. */
export const losslessAir: AirState = {
  soundSpeed: 343.37,
  density: 1.2041,
  viscosity: 1.8e-5,
  heatCapacityRatio: 1.402,
  prandtl: 0.71,
  losses: false,
};

/** Lengths in mm, as makers write them. */
export function tube(length: number, diameter: number, rest: Partial<Column> = {}): Column {
  const radius = diameter / 2000;
  const bore = [
    { x: 0, radius },
    { x: length / 1000, radius },
  ];
  return { bore, wall: 0.004, foot: "open", holes: [], mouth: { kind: "ideal" }, ...rest };
}

/** Every length of a column times `s`. */
export function scaled(column: Column, s: number): Column {
  const { mouth } = column;
  const grown: Record<string, unknown> = {};
  for (const [name, value] of Object.entries(mouth)) {
    grown[name] = typeof value === "number" && name !== "cover" ? value * s : value;
  }
  return {
    ...column,
    wall: column.wall * s,
    bore: column.bore.map(({ x, radius }) => ({ x: x * s, radius: radius * s })),
    holes: column.holes.map((h) => ({ ...h, x: h.x * s, radius: h.radius * s, chimney: h.chimney * s })),
    mouth: grown as unknown as Mouth,
  };
}

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Mouths for a bore of radius `a` in a wall, m. */
const mouths = (a: number, wall: number): fc.Arbitrary<Mouth> =>
  fc.oneof(
    fc.constant<Mouth>({ kind: "ideal" }),
    real(0, 0.06).map((length): Mouth => ({ kind: "correction", length })),
    fc.record({
      kind: fc.constant("window" as const),
      width: real(0.8 * a, 1.5 * a),
      cutUp: real(0.003, 0.007),
      chimney: fc.constant(wall),
    }),
    fc.record({
      kind: fc.constant("window" as const),
      width: real(0.8 * a, 1.5 * a),
      cutUp: real(0.003, 0.007),
      chimney: fc.constant(wall),
      stopper: real(0, 3 * a),
    }),
    fc.record({
      kind: fc.constant("embouchure" as const),
      length: real(0.9 * a, 1.3 * a),
      width: real(0.8 * a, 1.1 * a),
      chimney: fc.constant(wall + 0.001),
      cover: real(0, 0.6),
      stopper: real(0.5 * a, 2.5 * a),
    }),
    real(0, 0.85).map((cover): Mouth => ({ kind: "rim", cover })),
  );

/** Instruments within the ranges of the hole formulas, holes 2.6 to 6 bore radii apart in the lower part of the bore. */
export const instruments: fc.Arbitrary<Column> = fc
  .record({
    length: real(0.2, 0.6),
    a: real(0.006, 0.0105),
    taper: real(0.75, 1.05),
    wall: real(0.002, 0.005),
    first: real(0.25, 0.5),
    sizes: fc.array(fc.record({ delta: real(0.25, 0.75), gap: real(2.8, 6), back: fc.boolean() }), { maxLength: 7 }),
  })
  .chain(({ length, a, taper, wall, first, sizes }) => {
    const radiusAt = (x: number) => a * (1 + ((taper - 1) * x) / length);
    const holes: ToneHole[] = [];
    let x = first * length;
    for (const { delta, gap, back } of sizes) {
      if (x > length - 2 * a) break;
      const radius = Math.max(wall / 3, radiusAt(x) * delta);
      holes.push({ x, radius, chimney: wall, angle: back && holes.length === 0 ? Math.PI : 0 });
      x += gap * a;
    }
    const bore = [
      { x: 0, radius: a },
      { x: length, radius: a * taper },
    ];
    return mouths(a, wall).map((mouth): Column => ({ bore, wall, foot: "open", holes, mouth }));
  });

/** Why something is refused as no instrument: what the maker is told. Empty where it is not refused, or by another error. */
export function refusal(of: () => unknown): string {
  try {
    of();
    return "";
  } catch (error) {
    return error instanceof RangeError ? error.message : "";
  }
}

/** Holes opened from the foot upward: common practice, no source. */
export const openedFromFoot = (column: Column, open: number): number[] =>
  column.holes.map((_, i) => (i >= column.holes.length - open ? 0 : 1));
