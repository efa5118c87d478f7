/** Changes in words: of the finished hole, in the design's own unit. */
import { expect, it } from "vitest";
import { holeName, remedyInWords, volumeDecimals, wholeRemedyInWords } from "../../../server/src/design/fix/remedy.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { instrumentOf, tube } from "../../support/marked.js";

const HOLES = "holes: [{ name: L1, at: 200, diameter: 7 }, { at: 230, diameter: 6 }]\n";
/** Twice as large as drawn; holes come out 0.3 mm narrower. */
const of = (more = "print: { scale: 200 %, holeUndersize: 0.3 }\n") => analyse(instrumentOf(tube(`${HOLES}${more}`)));
const move = (change: number, hole = 0) => ({ kind: "move", hole, fingering: 0, value: 0.4 + change, change }) as const;
const resize = (value: number, change: number, hole = 0) =>
  ({ kind: "resize", hole, fingering: 0, value, change }) as const;

it("a hole is moved by so much, and opened or narrowed to so much, as drawn", () => {
  expect(remedyInWords(of(), move(0.005))).toBe("move L1 2.5 mm toward the foot");
  expect(remedyInWords(of(), move(-0.005, 1))).toBe("move hole 2 2.5 mm toward the mouth");
  expect(remedyInWords(of(), resize(0.0147, 0.001))).toBe("open L1 to 7.5 mm");
  expect(remedyInWords(of(), resize(0.0117, -0.001, 1))).toBe("narrow hole 2 to 6 mm");
  const inches = of(
    "units: in\nbore: [{ at: 0, diameter: 0.6 }, { at: 14, diameter: 0.6 }]\nwall: 0.12\nholes: [{ name: L1, at: 8, diameter: 0.3 }]\n",
  );
  expect(remedyInWords(inches, move(0.00254))).toBe("move L1 0.1 in toward the foot");
  expect(holeName(of(), 0)).toBe("L1");
});

it("two holes under one finger are moved by both their names", () => {
  const both = analyse(
    instrumentOf(
      tube(
        "holes: [{ name: S6a, at: 200, diameter: 4, angle: -15 }, { name: S6b, at: 200, diameter: 4, angle: 15 }]\n",
      ),
    ),
  );
  for (const hole of [0, 1])
    expect(remedyInWords(both, move(0.001, hole))).toBe("move S6a and S6b 1 mm toward the foot");
});

it("a pipe's stopper is moved, and a vessel made as large, in the file's unit", () => {
  const whole = (kind: Parameters<typeof wholeRemedyInWords>[1]["kind"], before: number, value: number) =>
    wholeRemedyInWords(of(""), { kind, before, value, fingering: 0, path: [] });
  expect(whole("pipe length", 150, 148.76)).toBe("move the stopper 1.2 mm toward the mouth");
  expect(whole("pipe length", 150, 151.24)).toBe("move the stopper 1.2 mm away from the mouth");
  expect(whole("vessel length", 90, 98.44)).toBe("make the chamber 98.4 mm long");
  expect(whole("vessel diameter", 60, 57.26)).toBe("make the chamber 57.3 mm in diameter");
  expect(whole("vessel volume", 90, 98.444)).toBe("make the volume 98.44 cm³");
  expect(whole("vessel volume", 90, 198.444)).toBe("make the volume 198.4 cm³");
  expect([99.99, 100].map(volumeDecimals)).toEqual([2, 1]);
});
