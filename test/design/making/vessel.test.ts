/** A vessel's mouth and holes: where they stop being something that can be made. */
import { describe, expect, it } from "vitest";
import { vessel } from "../../support/families.js";
import { holdFromBothSides, refused } from "../../support/making.js";

describe("a vessel", () => {
  const window = (sizes: string, more = "") => vessel("").replace("width: 9, cutUp: 5 }", `${sizes} }${more}`);
  const ball = (cutUp: number) => vessel("", "shape: sphere, diameter: 120").replace("cutUp: 5", `cutUp: ${cutUp}`);
  const across = (entries: string) =>
    vessel(entries).replace("window: { width: 9, cutUp: 5 }", "hole: { length: 12, width: 10 }");
  const at = (place: string) => `holes:\n  - { diameter: 6, ${place} }`;
  const beside = (place: string) => vessel(`holes:\n  - { diameter: 6, angle: 90 }\n  - { diameter: 6, ${place} }`);
  holdFromBothSides([
    [
      "with a low windway",
      0.45,
      0.55,
      (height) => window("width: 9, cutUp: 5", `, windway: { height: ${height} }`),
      "mouth.windway.height: The windway is 0.45 mm high; one under 0.5 mm prints closed. Make it higher.",
    ],
    [
      "with a window hardly deeper than its labium",
      2.2,
      2.3,
      (chimney) => window(`width: 9, cutUp: 5, chimney: ${chimney}`),
      "mouth.window.chimney: The labium's edge would end 1.95 mm above the chamber, and the window is 2.2 mm deep: no ramp is left. Make the wall thicker.",
    ],
    [
      "with a window that its chamber curves away under",
      31.4,
      31.2,
      (width) => window(`width: ${width}, cutUp: 5`),
      "mouth.window.width: The chamber curves away so steeply under the window that the labium's underside never leaves its shell. Make the window smaller or the chamber wider there.",
    ],
    [
      "with a wide windway",
      46.1,
      45.9,
      (width) => window("width: 9, cutUp: 5", `, windway: { width: ${width} }`),
      "mouth.window.width: Window and windway with their sides are 60.12 mm wide, and the chamber 60 mm. Make them narrower.",
    ],
    [
      "with a long window",
      60.1,
      59.9,
      ball,
      "mouth.window.cutUp: The window is 60.1 mm long; over this chamber it may be 60 mm at most. Make it shorter.",
    ],
    [
      "with a hole beside its windway",
      15.5,
      15.6,
      (angle) => vessel(at(`angle: ${angle}`)),
      "holes.0.angle: hole 1 would come out under the mouth. Give it an `angle` farther round.",
    ],
    [
      "with a hole beyond its labium",
      31.8,
      31.9,
      (rise) => vessel(at(`angle: 0, elevation: ${rise}`)),
      "holes.0.angle: hole 1 would come out under the mouth. Give it an `angle` farther round.",
    ],
    [
      "with an oval hole beyond its labium",
      34.2,
      34.3,
      (rise) => vessel(at(`length: 10, angle: 0, elevation: ${rise}`)),
      "holes.0.angle: hole 1 would come out under the mouth. Give it an `angle` farther round.",
    ],
    [
      "with a hole in its windway's way",
      -60,
      60,
      (rise) => vessel(at(`angle: 0, elevation: ${rise}`)),
      "holes.0.angle: hole 1 would come out under the mouth. Give it an `angle` farther round.",
    ],
    [
      "with a hole beside its embouchure hole",
      -11.7,
      -11.8,
      (angle) => across(at(`angle: ${angle}`)),
      "holes.0.angle: hole 1 would come out under the mouth. Give it an `angle` farther round.",
    ],
    [
      "with a hole over its embouchure hole",
      12.9,
      13,
      (rise) => across(at(`angle: 0, elevation: ${rise}`)),
      "holes.0.angle: hole 1 would come out under the mouth. Give it an `angle` farther round.",
    ],
    [
      "with a hole below its embouchure hole",
      -12.9,
      -13,
      (rise) => across(at(`angle: 0, elevation: ${rise}`)),
      "holes.0.angle: hole 1 would come out under the mouth. Give it an `angle` farther round.",
    ],
    [
      "with holes close together",
      103.6,
      103.7,
      (angle) => beside(`angle: ${angle}`),
      "holes.1.angle: Between hole 1 and hole 2 1.18 mm of wall would be left on the bed, and the printer can close 1.2 mm. Move them apart or narrow one, or state what your printer can close: `print.leastWall`.",
    ],
    [
      "with holes close above each other",
      13.8,
      13.9,
      (rise) => beside(`angle: 90, elevation: ${rise}`),
      "holes.1.angle: Between hole 1 and hole 2 1.16 mm of wall would be left on the bed, and the printer can close 1.2 mm. Move them apart or narrow one, or state what your printer can close: `print.leastWall`.",
    ],
    [
      "with a hole in a thin wall",
      1.15,
      1.2,
      (chimney) => vessel(at(`angle: 90, chimney: ${chimney}`)),
      "holes.0.chimney: The wall at hole 1 would be 1.15 mm thick on the bed, and the printer can close 1.2 mm. Make it thicker, or state what your printer can close: `print.leastWall`.",
    ],
  ]);

  it("is refused at the number that is written, where the other is usual", () => {
    expect(refused(vessel("wall: 2.2"))).toEqual([
      "wall: The labium's edge would end 1.95 mm above the chamber, and the window is 2.2 mm deep: no ramp is left. Make the wall thicker.",
    ]);
    const wide = vessel(`holes:\n${"  - { diameter: 24 }\n".repeat(9)}`);
    expect(refused(wide).at(-1)).toMatch(/^holes\.\d\.diameter: Between hole \d and hole \d /);
  });
});
