/** What is said of an instrument that has grown: sizes of the printed thing, before and after. */
import { describe, expect, it } from "vitest";
import type { Analysis } from "../../../server/src/design/predict/analysis.js";
import {
  boreRemarks,
  growthRemarks,
  measuredRemarks,
  setAsideRemarks,
  shapeRemarks,
} from "../../../server/src/design/rekey/remarks.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { panPipe, vessel } from "../../support/families.js";
import { instrumentOf, tube } from "../../support/marked.js";

const analysis = (text: string) => ({ instrument: instrumentOf(text) }) as Analysis;
const grown = (text: (print: string) => string, percent: number) =>
  growthRemarks(analysis(text("")), analysis(text(`print: { scale: ${percent} % }\n`)), documentOf(fileOf(text(""))));
const HOLES = "holes:\n  - { at: 120, diameter: 6 }\n  - { at: 150, diameter: 8 }\n  - { at: 200, diameter: 7 }\n";

describe("an instrument that has grown", () => {
  it("says of a tube what became of wall, holes and length", () => {
    expect(grown((print) => tube(HOLES + print), 125)).toEqual([
      "Everything grows in proportion: wall 3 mm → 3.8 mm, widest hole 8 mm → 10 mm, widest gap between holes 50 mm → 62.5 mm, length 352 mm → 440 mm.",
    ]);
    expect(grown((print) => tube(print), 50)).toEqual([
      "Everything shrinks in proportion: wall 3 mm → 1.5 mm, length 352 mm → 176 mm.",
    ]);
    const one = "holes:\n  - { at: 120, diameter: 6 }\n";
    expect(grown((print) => tube(one + print), 50)[0]).toMatch(/widest hole 6 mm → 3 mm, length/);
  });
  it("says of pipes and of a chamber what theirs became, in inches where the design is", () => {
    expect(
      grown((print) => vessel(`holes: [{ diameter: 6, angle: 90 }, { diameter: 8, angle: 60 }]\n${print}`), 50),
    ).toEqual(["Everything shrinks in proportion: wall 4 mm → 2 mm, widest hole 8 mm → 4 mm, length 90 mm → 45 mm."]);
    expect(grown((print) => vessel(print), 50)).toEqual([
      "Everything shrinks in proportion: wall 4 mm → 2 mm, length 90 mm → 45 mm.",
    ]);
    expect(grown(panPipe, 50)).toEqual([
      "Everything shrinks in proportion: widest pipe 15 mm → 7.5 mm, longest pipe 158 mm → 79 mm.",
    ]);
    const inches = (print: string) =>
      vessel(
        `units: in\nwall: 0.2\nholes: [{ diameter: 0.3, angle: 90 }]\n${print}`,
        "shape: sphere, diameter: 3",
      ).replace("width: 9, cutUp: 5", "width: 0.35, cutUp: 0.2");
    expect(grown(inches, 200)[0]).toMatch(
      /^Everything grows in proportion: wall 0\.2 in → 0\.4 in, widest hole 0\.3 in → 0\.6 in, length [\d.]+ in → [\d.]+ in\.$/,
    );
  });
  it("says nothing of 2 %, and of notes measured before in any case", () => {
    expect(grown((print) => tube(print), 101.9)).toEqual([]);
    expect(grown((print) => tube(print), 98.1)).toEqual([]);
    expect(grown((print) => tube(print), 102.1)[0]).toMatch(/^Everything grows in proportion: /);
    expect(grown((print) => tube(print), 97.9)[0]).toMatch(/^Everything shrinks in proportion: /);
    const measured = (print: string) => tube(`measured: [{ note: G4, hz: 392 }]\n${print}`);
    const says = "The `measured` notes belong to the instrument before this change; measure again after printing.";
    expect(grown(measured, 100)).toEqual([says]);
    expect(measuredRemarks(documentOf(fileOf(measured(""))))).toEqual([says]);
    expect(setAsideRemarks(analysis(measured("")))[0]).toMatch(/set aside \(setAside: true\)/);
    expect(setAsideRemarks(analysis(tube()))).toEqual([]);
  });
});

describe("a bore that changes its shape", () => {
  const bored = (...stations: readonly (readonly [number, number])[]) =>
    analysis(tube(`bore:\n${stations.map(([at, d]) => `  - { at: ${at}, diameter: ${d} }\n`).join("")}`));
  const drawn = bored([0, 18], [170, 18], [441, 15.5]);
  it("is reported where a section of its own slope keeps less than half of its part", () => {
    expect(shapeRemarks(drawn, bored([0, 18], [84, 18], [441, 15.5]))).toEqual([
      "The bore between stations 1 and 2 shrinks from 170 mm to 84 mm. To keep it, state where these stations may lie (limits.at).",
    ]);
    expect(shapeRemarks(drawn, bored([0, 18], [86, 18], [441, 15.5]))).toEqual([]);
    // An instrument half as long may have all sections half as long.
    expect(shapeRemarks(drawn, bored([0, 18], [80, 18], [220, 15.5]))).toEqual([]);
    expect(shapeRemarks(drawn, bored([0, 18], [42, 18], [220, 15.5]))).toHaveLength(1);
  });
  it("is measured against either neighbour, in width over length", () => {
    // A flare at the foot, kept by 16 mm of 40, and by 25.
    const flared = bored([0, 16], [400, 16], [440, 20]);
    expect(shapeRemarks(flared, bored([0, 16], [424, 16], [440, 20]))).toEqual([
      "The bore between stations 2 and 3 shrinks from 40 mm to 16 mm. To keep it, state where these stations may lie (limits.at).",
    ]);
    expect(shapeRemarks(flared, bored([0, 16], [415, 16], [440, 20]))).toEqual([]);
    // Over 271 mm half a millimetre is a slope of 0.0018, and 0.6 one of 0.0022.
    const tapered = (foot: number) =>
      shapeRemarks(bored([0, 18], [170, 18], [441, foot]), bored([0, 18], [60, 18], [441, foot]));
    expect(tapered(17.5)).toEqual([]);
    expect(tapered(17.4)).toHaveLength(1);
    expect(tapered(18.6)).toHaveLength(1);
  });
  it("is not where only a step lies beside it, which has no slope", () => {
    const stepped = (at: number) => bored([0, 18], [at, 18], [at, 16], [441, 16]);
    expect(shapeRemarks(stepped(170), stepped(60))).toEqual([]);
  });
  it("is not where a station only divides a cylinder or a cone, nor where there are fewer", () => {
    expect(shapeRemarks(bored([0, 18], [170, 18], [441, 18]), bored([0, 18], [5, 18], [441, 18]))).toEqual([]);
    expect(shapeRemarks(drawn, bored([0, 18], [441, 15.5]))).toEqual([]);
    expect(shapeRemarks(drawn, bored([0, 18], [60, 18], [300, 16], [441, 15.5]))).toEqual([]);
    expect(shapeRemarks(analysis(panPipe("")), analysis(panPipe("")))).toEqual([]);
  });
});

describe("a bore that stays", () => {
  const long = (foot: number, diameter = 16, units = "") =>
    analysis(tube(`${units}bore:\n  - { at: 0, diameter: ${diameter} }\n  - { at: ${foot}, diameter: ${diameter} }\n`));
  it("is reported where makers would choose another for the length", () => {
    // 1.28 to the power of 0.75 is 1.2034, 1.27 to it 1.196.
    expect(boreRemarks(long(300), long(384))).toEqual([
      "The bore keeps its 16 mm; for this length makers usually choose about 19.3 mm. With `refit: { growth: 0.75 }` or --growth a refit lets bore, mouth and holes grow.",
    ]);
    expect(boreRemarks(long(300), long(381))).toEqual([]);
    // 0.74 to the power of 0.75 is 0.798.
    expect(boreRemarks(long(300), long(222))[0]).toContain("about 12.8 mm");
    expect(boreRemarks(long(300), long(225))).toEqual([]);
    const inches = "units: in\nwall: 0.1\n";
    expect(boreRemarks(long(12, 0.6, inches), long(24, 0.6, inches))[0]).toMatch(/keeps its 0\.6 in; .* 1\.01 in/);
  });
  it("is none of a vessel's or of pipes", () => {
    expect(boreRemarks(analysis(panPipe("")), analysis(panPipe("print: { scale: 50 % }")))).toEqual([]);
    const chamber = (length: number) => analysis(vessel("", `shape: tube, length: ${length}, diameter: 30`));
    expect(boreRemarks(chamber(60), chamber(120))).toEqual([]);
  });
});
