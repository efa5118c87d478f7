/** What is drawn flat for the bench: by how much, and how far mouth, length and holes give way. Small designs, where a refit has one or two sizes to solve. */
import { describe, expect, it } from "vitest";
import { drawnFlatForBench } from "../../../server/src/design/bench/drawFlat.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { fileOf } from "../../support/designs.js";
import { panPipe } from "../../support/families.js";
import { instrumentOf, numberAt } from "../../support/marked.js";

const TUBE = `borewright: 1
family: duct
key: D5
air: { temperature: 20 }
mouth: { window: { width: 8.5, cutUp: 4 } }
bore: [{ at: 0, diameter: 13 }, { at: 262, diameter: 13 }]
wall: 2
`;
const NO_HOLES = `${TUBE}fingerings: [{ degree: 1 }]\n`;
const ONE_HOLE = `${TUBE}holes: [{ at: 228.3, diameter: 8 }]\nfingerings: [{ degree: 1, holes: x }, { degree: 2, holes: o }]\n`;
const WIDE_HOLE = ONE_HOLE.replace("at: 228.3, diameter: 8", "at: 228.3, diameter: 10, fixed: true");
const PIPES = `${panPipe("air: { temperature: 20 }")}tolerance: 10\n`;

const hertz = (text: string) =>
  analyse(instrumentOf(text)).fingerings.map(({ predictedHz = Number.NaN }) => predictedHz);

function drawn(text: string, bench: string) {
  const whole = `${text}bench: { ${bench} }\n`;
  const { text: flat, edits, refit, remarks, after } = drawnFlatForBench(fileOf(whole), 0);
  expect(applyEdits(whole, edits)).toBe(flat);
  expect(after.fingerings).toEqual(analyse(instrumentOf(flat)).fingerings);
  expect(remarks).toEqual([]);
  const before = hertz(refit.text);
  const at = (path: string) => [refit.text, flat].map((each) => numberAt(each, path) ?? Number.NaN);
  /** Each number of the drawing over what it is in tune. */
  const share = (path: string) => at(path).reduce((tuned, now) => now / tuned);
  return {
    flat,
    tuned: refit.text.replace(/^bench.*\n/m, ""),
    at,
    share,
    cents: hertz(flat).map((hz, i) => 1200 * Math.log2(hz / (before[i] ?? Number.NaN))),
  };
}
/** Cents that a tenth of a millimetre makes, to which sizes are drawn here: less than two. */
const STEP = 1.6;

describe("each note", () => {
  it.each<readonly [string, string, string, readonly number[]]>([
    ["of the whole length", NO_HOLES, "lengthFlat: 10", [-10]],
    ["far below", NO_HOLES, "lengthFlat: 60", [-60]],
    ["without the mouth", NO_HOLES, "lengthFlat: 30, mouth: keep", [-30]],
    ["of holes alone", ONE_HOLE, "holesFlat: 20", [0, -20]],
    ["of length and holes", ONE_HOLE, "holesFlat: 30, lengthFlat: 15, room: 8", [-15, -30]],
    ["of pipes", PIPES, "lengthFlat: 30", [-30, -30, -30]],
  ])("is drawn as flat as is asked: %s", (_, text, bench, expected) => {
    const { cents, flat } = drawn(text, bench);
    expect(cents).toHaveLength(expected.length);
    for (const [i, each] of cents.entries()) expect(Math.abs(each - (expected[i] ?? 0))).toBeLessThan(STEP);
    // It says so still.
    expect(flat).toMatch(new RegExp(`^bench: \\{ ${bench}(, room: \\d+)? \\}\n`, "m"));
  });
});

describe("what gives way", () => {
  it("is the mouth, if that is enough; the foot moves with the window's middle, by half as much", () => {
    const { at } = drawn(NO_HOLES, "lengthFlat: 10");
    const [[tall = 0, low = 0], [foot = 0, moved = 0]] = [at("mouth.window.cutUp"), at("bore.1.at")];
    expect(low).toBeGreaterThan(0.85 * tall);
    expect(low).toBeLessThan(tall);
    // Drawn to a tenth.
    expect(Math.abs(moved - foot - (tall - low) / 2)).toBeLessThan(0.051);
  });

  it("is the mouth to 0.85 of its size, and then the length", () => {
    const { at, share } = drawn(NO_HOLES, "lengthFlat: 60");
    expect(share("mouth.window.cutUp")).toBeCloseTo(0.85, 9);
    const [foot = 0, moved = 0] = at("bore.1.at");
    expect(moved).toBeGreaterThan(foot + 5);
  });

  it("is the length alone where the mouth is kept", () => {
    const { share } = drawn(NO_HOLES, "lengthFlat: 30, mouth: keep");
    expect(share("mouth.window.cutUp")).toBe(1);
    expect(share("bore.1.at")).toBeGreaterThan(1.01);
  });

  it("is a hole at its place, to half its width, and nothing else for the holes", () => {
    const some = drawn(ONE_HOLE, "holesFlat: 20").share;
    const [bore, place] = [some("bore.1.at"), some("holes.0.at")];
    expect([some("mouth.window.cutUp"), bore, place]).toEqual([1, 1, 1]);
    const { share, cents } = drawn(WIDE_HOLE, "holesFlat: 100");
    expect(share("holes.0.diameter")).toBeGreaterThan(0.49);
    expect(share("holes.0.diameter")).toBeLessThan(0.51);
    expect(cents[1]).toBeGreaterThan(-100);
  });

  it("is the same whatever was measured", () => {
    const measured = "measured: [{ note: D5, cents: -30 }, { note: E5, cents: -20 }]\n";
    const { tuned } = drawn(ONE_HOLE, "holesFlat: 20");
    const [plain, played] = [tuned, tuned + measured].map((text) => drawn(text, "holesFlat: 25").flat);
    expect(played?.replace(/^measured.*\n/m, "")).toBe(plain);
  });
});

it("a tube is drawn no longer than the bed takes, and that is told", () => {
  // It takes the tube in tune, and not three millimetres more.
  const on = (bed: string) =>
    drawnFlatForBench(fileOf(`${NO_HOLES}bench: { lengthFlat: 16, mouth: keep }\nprint: { bed: [${bed}] }\n`), 0);
  const short = on("219, 219, 220");
  expect(numberAt(short.text, "bore.1.at")).toBe(numberAt(short.refit.text, "bore.1.at"));
  const [, flatBy] =
    /^Not drawn longer, since it would not fit the printer: The tube is 29\d.* Notes of the whole length are drawn (\d+(?:\.\d)?) cents flat instead of 16 cents\.$/.exec(
      short.remarks.join(),
    ) ?? [];
  // As drawn, which is in tune.
  expect(Number(flatBy)).toBeLessThan(1);
  // Nor is it held where it does not fit in tune either.
  for (const { text, refit, remarks } of [on("400, 400, 400"), on("90, 90, 90")]) {
    expect(remarks).toEqual([]);
    expect(numberAt(text, "bore.1.at")).toBeGreaterThan((numberAt(refit.text, "bore.1.at") ?? 0) + 2);
  }
});

it("nothing is drawn flat where the design does not say how much", () => {
  const unsaid =
    "it does not say how flat it is to be drawn: write `bench: { holesFlat: 25, lengthFlat: 16, room: 12 }`";
  const refused = (bench: string, index = 0) =>
    expect(() => drawnFlatForBench(fileOf(NO_HOLES + bench), index)).toThrow(unsaid);
  refused("");
  refused("bench: { room: 8 }\n");
  refused("bench: { holesFlat: 0, lengthFlat: 0 }\n");
  refused("bench: { lengthFlat: 10 }\n", 1);
});
