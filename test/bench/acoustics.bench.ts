/** Speed of the acoustics, in ms and as a ratio to a fixed loop; printed, never asserted. Run: npm run bench -- acoustics */
import { airState } from "../../server/src/acoustics/air.js";
import type { Column, Cover, Mouth, Station } from "../../server/src/acoustics/column.js";
import { type Query, soundingFrequencies } from "../../server/src/acoustics/resonance.js";
import { Response } from "../../server/src/acoustics/response.js";

const HOLES = [0.232, 0.258, 0.284, 0.318, 0.347, 0.374, 0.4];
const cylinder: Station[] = [
  { x: 0, radius: 0.0095 },
  { x: 0.52, radius: 0.0095 },
];
const tapered: Station[] = [
  { x: 0, radius: 0.0095 },
  { x: 0.12, radius: 0.0094 },
  { x: 0.3, radius: 0.0078 },
  { x: 0.52, radius: 0.0058 },
];
const embouchure: Mouth = {
  kind: "embouchure",
  length: 0.0122,
  width: 0.0104,
  chimney: 0.005,
  cover: 0.4,
  stopper: 0.018,
};

function flute(bore: Station[], mouth: Mouth): Column {
  const holes = HOLES.map((x, i) => ({
    x,
    radius: 0.003 + 0.0002 * (i % 4),
    chimney: 0.0035,
    angle: i === 0 ? Math.PI : 0,
  }));
  return { bore, wall: 0.0035, foot: "open", holes, mouth };
}

/** Eight patterns, holes opened from the foot, each in two registers. */
const sixteen: Query[] = Array.from({ length: 8 }, (_, open) => {
  const covers: Cover[] = HOLES.map((_, i) => (i >= HOLES.length - open ? 0 : 1));
  return [1, 2].map((register) => ({ covers, register }));
}).flat();

/** Sixteen patterns of their own, as with cross fingerings. */
const crossed: Query[] = Array.from({ length: 16 }, (_, n) => ({
  covers: HOLES.map((_, i) => (i >= HOLES.length - (n % 8) && !(n >= 8 && i === 6) ? 0 : 1)),
  register: 1 + (n >= 8 ? 1 : 0),
}));

/** Warm time of the calibration loop, ms: what the ratios are to. */
let reference = Number.NaN;

/** Prints a line; the warm median, ms. */
function report(name: string, work: () => unknown, runs = 60): number {
  const times: number[] = [];
  for (let i = 0; i < runs; i++) {
    const start = performance.now();
    work();
    times.push(performance.now() - start);
  }
  const cold = times[0] as number;
  const warm = times.slice(runs / 2).sort((a, b) => a - b);
  const median = warm[Math.floor(warm.length / 2)] as number;
  const ratio = Number.isNaN(reference) ? "1" : (median / reference).toFixed(2);
  console.log(
    `${name.padEnd(64)} first ${cold.toFixed(1).padStart(5)} ms   warm median ${median.toFixed(2).padStart(6)} ms   ratio ${ratio}`,
  );
  return median;
}

/** Something fixed to compare machines by: a million square roots and divisions. */
reference = report("calibration loop", () => {
  let sum = 0;
  for (let i = 1; i <= 1e6; i++) sum += 1 / Math.sqrt(i + sum * 1e-9);
  return sum;
});

const air = airState({ temperature: 22, humidity: 0.6, carbonDioxide: 0.0004, pressure: 101_325, losses: true });
const cases: [string, Column][] = [
  ["cylinder, embouchure", flute(cylinder, embouchure)],
  ["tapered, embouchure", flute(tapered, embouchure)],
  ["cylinder, ideal mouth", flute(cylinder, { kind: "ideal" })],
  ["cylinder, window", flute(cylinder, { kind: "window", width: 0.009, cutUp: 0.0045, chimney: 0.0035 })],
];
for (const [name, column] of cases) {
  report(`7 holes, 8 patterns × 2 registers, losses, ${name}`, () => soundingFrequencies(column, air, sixteen));
}
report("7 holes, 16 patterns, losses, tapered, embouchure", () =>
  soundingFrequencies(flute(tapered, embouchure), air, crossed),
);
report("the same without losses", () =>
  soundingFrequencies(flute(tapered, embouchure), { ...air, losses: false }, crossed),
);
const response = new Response(flute(tapered, embouchure), air);
const states = response.states(crossed[5]?.covers ?? []);
report("1000 single impedances, tapered, embouchure", () => {
  for (let i = 1; i <= 1000; i++) response.at(i * 0.03, states);
});
