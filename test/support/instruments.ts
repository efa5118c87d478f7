/** Random instruments of every family, described in full, as text: from everyday ones to ones that nobody would make. */
import fc from "fast-check";
import { stringify } from "yaml";

const between = (min: number, max: number, decimals = 1) =>
  fc.double({ min, max, noNaN: true }).map((value) => Number(value.toFixed(decimals)));
const keys = fc.constantFrom("C4", "D4", "F4", "G4", "A4", "Bb4", "C5", "D5", "G5");
const degrees = fc.integer({ min: 1, max: 10 });

const common = fc.record({
  key: keys,
  temperament: fc.constantFrom("equal", "just", "meantone"),
  tolerance: fc.constantFrom(2, 5, 10),
  print: fc.record(
    {
      scale: fc.constantFrom("100 %", "93.5 %", "110 %"),
      shrinkage: fc.constantFrom("0 %", "0.3 %"),
      holeUndersize: fc.constantFrom(0, 0.15),
      rounding: fc.constantFrom(0.1, 0.05, 0.25),
    },
    { requiredKeys: [] },
  ),
  hands: fc.record({ reach: between(22, 45), fingertip: between(7, 13) }, { requiredKeys: [] }),
});

/** What a maker may say of a hole or a station. */
const held = (at: number, diameter: number) =>
  fc.oneof(
    { weight: 4, arbitrary: fc.constant({}) },
    { weight: 1, arbitrary: fc.constant({ fixed: true }) },
    {
      weight: 1,
      arbitrary: fc.record({ a: between(0, 6), d: between(0, 2) }).map(({ a, d }) => ({
        limits: { at: [round(at - a), round(at + a)], diameter: [round(diameter - d / 2), round(diameter + d)] },
      })),
    },
  );

const round = (value: number) => Number(Math.max(0.1, value).toFixed(2));

function fingeringsOf(holes: number) {
  const sign = fc.constantFrom("●", "○", "●", "○", "◐");
  const pattern = fc.oneof(
    { weight: 4, arbitrary: fc.nat({ max: holes }).map((open) => "●".repeat(holes - open) + "○".repeat(open)) },
    { weight: 1, arbitrary: fc.array(sign, { minLength: holes, maxLength: holes }).map((signs) => signs.join("")) },
  );
  const register = fc.constantFrom(1, 1, 1, 2, 3);
  return fc.array(fc.record({ degree: degrees, holes: pattern, register }), { minLength: 1, maxLength: 8 });
}

const MOUTHS = {
  duct: fc.record({ window: fc.record({ width: between(2, 14), cutUp: between(1.5, 7) }) }),
  rim: fc.record({ cover: between(0.3, 0.9, 2) }),
  transverse: fc.record({ hole: fc.record({ length: between(6, 13), width: between(6, 12) }) }),
} as const;

const tubes = fc
  .record({
    common,
    family: fc.constantFrom("duct" as const, "rim" as const, "transverse" as const),
    length: between(150, 800),
    wide: between(7, 24),
    taper: fc.constantFrom(1, 1, 0.8, 0.6, 1.2),
    step: fc.boolean(),
    holes: fc.array(fc.record({ gap: between(0.02, 0.3, 3), size: between(0.2, 0.95, 2), back: fc.nat({ max: 6 }) }), {
      maxLength: 7,
    }),
    wall: between(1.5, 6),
    stopped: fc.nat({ max: 9 }),
  })
  .chain(({ common: said, family, length, wide, taper, step, holes, wall, stopped }) => {
    const start = 0.25 * length;
    const gaps = holes.reduce((sum, { gap }) => sum + gap, 0) || 1;
    let at = start;
    const placed = holes.map(({ gap, size, back }, i) => {
      at += (gap / gaps) * 0.65 * length;
      return {
        name: `H${i + 1}`,
        at: round(at),
        diameter: round(size * wide * Math.min(1, taper)),
        ...(back === 0 && { side: "back" }),
      };
    });
    return fc
      .record({
        mouth: MOUTHS[family],
        held: fc.tuple(...placed.map((hole) => held(hole.at, hole.diameter))),
        foot: held(length, wide),
        fingerings: fingeringsOf(placed.length),
      })
      .map(({ mouth, held: heldHoles, foot, fingerings }) => ({
        borewright: 1,
        family,
        ...said,
        mouth,
        bore: [
          { at: family === "transverse" ? -wide : 0, diameter: wide },
          ...(step
            ? [
                { at: round(0.2 * length), diameter: wide },
                { at: round(0.2 * length), diameter: round(0.9 * wide) },
              ]
            : []),
          { at: length, diameter: round(taper * wide), ...foot },
        ],
        wall,
        ...(stopped === 0 && { foot: "stopped" }),
        holes: placed.map((hole, i) => ({ ...hole, ...heldHoles[i] })),
        fingerings,
      }));
  });

const pipes = fc
  .record({
    common,
    pipes: fc.array(fc.record({ note: keys, length: between(30, 400), diameter: between(5, 22) }), {
      minLength: 1,
      maxLength: 6,
    }),
  })
  .map(({ common: said, pipes: own }) => ({ borewright: 1, family: "panpipe", ...said, pipes: own }));

const vessels = fc
  .record({
    common,
    shape: fc.constantFrom("ellipsoid", "tube", "volume", "box"),
    length: between(24, 140),
    width: between(14, 80),
    height: between(14, 70),
    wall: between(1.5, 6),
    window: fc.record({ width: between(2, 12), cutUp: between(1.3, 6) }),
    holes: fc.array(
      fc.record({ diameter: between(1.5, 12), angle: between(-170, 170, 0), fixed: fc.nat({ max: 6 }) }),
      {
        maxLength: 6,
      },
    ),
  })
  .chain(({ common: said, shape, length, width, height, wall, window, holes }) =>
    fingeringsOf(holes.length).map((fingerings) => ({
      borewright: 1,
      family: "vessel",
      ...said,
      mouth: { window },
      vessel:
        shape === "volume"
          ? { volume: round((length * width * height) / 2000) }
          : shape === "tube"
            ? { shape, length, diameter: width }
            : { shape, length, width, height },
      wall,
      holes: holes.map(({ diameter, angle, fixed }, i) => ({
        name: `H${i + 1}`,
        diameter,
        ...(shape === "tube" ? { at: round((length * (i + 1)) / (holes.length + 1) / 2) } : { angle }),
        ...(fixed === 0 && { fixed: true }),
      })),
      fingerings: fingerings.map(({ degree, holes: signs }) => ({ degree, holes: signs })),
    })),
  );

export const FAMILY_TEXTS = {
  tubes: tubes.map((data) => stringify(data)),
  pipes: pipes.map((data) => stringify(data)),
  vessels: vessels.map((data) => stringify(data)),
} as const;

export const instrumentTexts: fc.Arbitrary<string> = fc.oneof(
  { weight: 3, arbitrary: FAMILY_TEXTS.tubes },
  { weight: 2, arbitrary: FAMILY_TEXTS.vessels },
  { weight: 1, arbitrary: FAMILY_TEXTS.pipes },
);
