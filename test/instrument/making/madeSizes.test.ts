/** What hands and printer ask of, of the finished object. Worked out by hand: scale first, then shrinkage, then what holes come out smaller. */
import { describe, expect, it } from "vitest";
import { HANDS } from "../../../server/src/instrument/defaults.js";
import { madeSizesOf } from "../../../server/src/instrument/making/madeSizes.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { tube } from "../../support/marked.js";

const sizes = (text: string) => madeSizesOf(documentOf(fileOf(tube(text))).resolution);
const near = (value: number) => expect.closeTo(value, 9);
const HOLES = `holes:
  - { name: L1, at: 100, diameter: 6 }
  - { name: L2, at: 130, diameter: 7, length: 9 }
  - { name: L3, at: 163, diameter: 8 }
  - { name: R1, at: 300, diameter: 14 }
`;
const FINGERED = `${HOLES}fingerings: [{ degree: 1, holes: ●●●○ }, { degree: 2, holes: ●●○○ }]\n`;

describe("the made sizes", () => {
  it("are those of the finished print, of holes that a finger closes", () => {
    const print = "print: { scale: 110 %, shrinkage: 1 %, holeUndersize: 0.2, bed: [200, 200, 400], lineWidth: 0.5 }\n";
    expect(sizes(`${FINGERED}${print}hands: { reach: 40, fingertip: 12 }\n`)).toEqual({
      // 33 mm is nearer to the stated reach than 30.
      widestGap: { mm: near(33 * 1.1 * 0.99), between: ["L2", "L3"] },
      reach: 40,
      widestHole: { mm: near(9 * 1.1 * 0.99 - 0.2), name: "L2" },
      fingertip: 12,
      // Laid, it is not yet shrunk.
      wall: { mm: near(3 * 1.1), lines: near((3 * 1.1) / 0.5) },
      hasBed: true,
    });
  });
  it("go by the hand that is usual, and the nozzle, where the design states none", () => {
    const { reach, fingertip } = HANDS.adult;
    expect(sizes(`${FINGERED}print: { nozzle: 0.4 }\n`)).toMatchObject({
      reach: reach.middleRing,
      fingertip,
      wall: { lines: near(3 / 0.4) },
      hasBed: false,
    });
    expect(sizes("")).toMatchObject({ widestGap: undefined, widestHole: undefined, reach: reach.indexMiddle });
  });
  it("count every hole where nothing says which are fingered", () => {
    expect(sizes(HOLES)?.widestHole).toEqual({ mm: 14, name: "R1" });
  });
  it("are not known while a number of the print is wrong", () =>
    expect(sizes("print: { scale: big }")).toBeUndefined());
});
