/** Random designs of every family: such as a maker could have written, and a little out of tune. Dimensions invented. */
import type { Random } from "./random.js";

export type Data = { [key: string]: unknown };

export const FAMILIES = ["duct", "transverse", "rim", "panpipe", "vessel"] as const;
export type Family = (typeof FAMILIES)[number];

const KEYS = [
  ["C4", 261.6],
  ["D4", 293.7],
  ["F4", 349.2],
  ["G4", 392],
  ["Bb4", 466.2],
  ["C5", 523.3],
  ["D5", 587.3],
] as const;
const MAJOR = [2, 4, 5, 7, 9, 11];
const NAMES = ["L1", "L2", "L3", "R1", "R2", "R3"];
/** m/s at room temperature; near enough for a first size. */
const SOUND = 345;

export function drawnDesign(random: Random, family: Family): Data {
  const [key, hz] = random.pick(KEYS);
  const halfWave = (1000 * SOUND) / (2 * hz);
  const own =
    family === "panpipe"
      ? pipes(random, hz)
      : family === "vessel"
        ? vessel(random, hz)
        : tube(random, family, halfWave);
  const design: Data = {
    borewright: 1,
    ...(random.chance(0.7) && { name: random.pick(["Quay", "Mole: second print", "Lantern #3", "“Fähre”", "'s'"]) }),
    family,
    key,
    ...(random.chance(0.3) && {
      temperament: random.pick(["equal", "just", "meantone", "werckmeister-3", "vallotti"]),
    }),
    ...(random.chance(0.2) && { pitchStandard: random.pick([415, 432, 442]) }),
    ...(random.chance(0.7) && { tolerance: random.pick([3, 5, 8, 10, 15]) }),
    ...(random.chance(0.6) && {
      air: random.pick<unknown>([{ temperature: 22, humidity: 60 }, "played", { temperature: 18 }]),
    }),
    ...own,
    ...(random.chance(0.6) && { print: drawnPrint(random) }),
    ...(random.chance(0.3) && { hands: { reach: random.whole(30, 45), fingertip: random.whole(9, 14) } }),
    ...(random.chance(0.2) && { measured: measured(random, key, hz) }),
    ...(random.chance(0.1) && { rules: { "print/wall-lines": "off", "response/weak-note": "warning" } }),
  };
  return design;
}

/** Millimetres as they are drawn. */
const mm = (value: number, decimals = 1) => Number(value.toFixed(decimals));
const about = (random: Random, value: number, by = 0.02) => mm(value * random.between(1 - by, 1 + by));

function tube(random: Random, family: Family, halfWave: number): Data {
  const wide = mm(random.between(0.028, 0.048) * halfWave);
  const end = halfWave - 1.4 * wide;
  const count = random.whole(0, NAMES.length);
  // Few sizes, as drills come: so some holes are alike.
  const sizes = [0.38, 0.47, 0.56].map((share) => mm(wide * share));
  const diameters = NAMES.slice(0, count).map(() => random.pick(sizes));
  // The foot's hole raises the lowest note by a tone, the next one by two, as the scale goes.
  const holes = diameters.map((diameter, i) => ({
    name: NAMES[i],
    at: about(random, end * 2 ** (-(MAJOR[count - 1 - i] ?? 0) / 12) - 0.5 * wide),
    diameter,
    ...(random.chance(0.1) && { undercut: 1 }),
    ...(random.chance(0.05) && { side: "back" }),
    ...(random.chance(0.05) && { length: mm(1.4 * diameter) }),
    ...(random.chance(0.05) && { raised: 1.5 }),
    ...(random.chance(0.08) && { fixed: true }),
    ...(random.chance(0.08) && { limits: { diameter: [3, mm(diameter + 2)] } }),
  }));
  const covered = (open: number) => "●".repeat(count - open) + "○".repeat(open);
  const first = Array.from({ length: count + 1 }, (_, open) => ({ degree: open + 1, holes: covered(open) }));
  const second = first
    .slice(0, random.whole(0, 3))
    .map(({ degree, holes }) => ({ degree: degree + 7, holes, register: 2 }));
  const middle = random.chance(0.4)
    ? [{ at: mm(end * 0.4), diameter: wide, ...(random.chance(0.5) && { joint: true }) }]
    : [];
  const start = family === "transverse" ? -mm(wide * 0.9) : 0;
  return {
    mouth: tubeMouth(random, family, wide),
    bore: [
      { at: start, diameter: wide },
      ...middle,
      { at: about(random, end, 0.01), diameter: mm(wide * random.between(0.85, 1.05)) },
    ],
    wall: mm(random.between(1.6, 5)),
    ...(random.chance(0.3) && { foot: "open" }),
    ...(count > 0 && { holes }),
    fingerings: [...random.some(first, 0.95), ...second],
  };
}

function tubeMouth(random: Random, family: Family, wide: number): Data {
  if (family === "rim") return { cover: mm(random.between(0.4, 0.8), 2) };
  if (family === "transverse")
    return { hole: { length: mm(0.6 * wide), width: mm(0.65 * wide) }, cover: 0.45, stopper: mm(wide * 0.9) };
  const window = { width: mm(0.6 * wide), cutUp: mm(0.28 * wide), ...(random.chance(0.15) && { stopper: 3 }) };
  return { window, ...(random.chance(0.1) && { extra: -2 }) };
}

function pipes(random: Random, hz: number): Data {
  const degrees = [0, ...MAJOR, 12].slice(0, random.whole(1, 8));
  const NOTES = ["G4", "A4", "B4", "C5", "D5", "E5", "F#5", "G5"];
  const hertz = [392, 440, 493.9, 523.3, 587.3, 659.3, 740, 784];
  return {
    mouth: { cover: mm(random.between(0.4, 0.7), 2) },
    wall: mm(random.between(1, 3)),
    ...(hz > 0 && {
      pipes: degrees.map((_, i) => ({
        note: NOTES[i],
        length: about(random, (1000 * SOUND) / (4 * (hertz[i] ?? 440)) - 8),
        diameter: random.pick([11, 12, 13, 15]),
      })),
    }),
  };
}

function vessel(random: Random, hz: number): Data {
  // An ellipsoid of the examples' proportions; a vessel's pitch goes with the root of its volume.
  const size = (523.3 / hz) ** (2 / 3);
  const count = random.whole(1, 6);
  const shape = random.pick<Data>([
    { shape: "ellipsoid", length: mm(62.3 * size), width: mm(44 * size), height: mm(40 * size) },
    { shape: "sphere", diameter: mm(48 * size) },
    { shape: "ellipsoid", volume: mm(57 * size ** 3, 2) },
    { volume: mm(57 * size ** 3, 2) },
    { shape: "cylinder", length: mm(60 * size), diameter: mm(36 * size) },
    { shape: "box", length: mm(60 * size), width: mm(36 * size), height: mm(28 * size) },
  ]);
  const holes = Array.from({ length: count }, (_, i) => ({
    name: NAMES[i],
    diameter: about(random, (3 + i * 0.6) * size, 0.1),
    ...(random.chance(0.7) && { angle: 60 + 25 * i }),
  }));
  const fingerings = Array.from({ length: count + 1 }, (_, open) => ({
    degree: open + 1,
    holes: "○".repeat(open) + "●".repeat(count - open),
  }));
  const window = { width: mm(10 * size), cutUp: mm(5 * size) };
  return { mouth: { window }, vessel: shape, wall: mm(random.between(2, 4)), holes, fingerings };
}

function drawnPrint(random: Random): Data {
  return {
    nozzle: 0.4,
    ...(random.chance(0.6) && { scale: random.pick<unknown>(["100 %", "97.5 %", 100, 102.5]) }),
    ...(random.chance(0.6) && { shrinkage: "0.2 %" }),
    ...(random.chance(0.5) && { holeUndersize: 0.15 }),
    ...(random.chance(0.2) && { rounding: random.pick([0.05, 0.25, 0.5]) }),
    ...(random.chance(0.3) && { bed: [220, 220, 250] }),
  };
}

function measured(random: Random, key: string, hz: number): readonly Data[] {
  return [{ note: key, hz: mm(hz * random.between(0.97, 1.02)), ...(random.chance(0.5) && { temperature: 20 }) }];
}
