/** Numbers in findings: no more digits than a print or a hand has, and never two that read alike where one is more than the other. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checked } from "../../support/designs.js";
import { codesOf, tube } from "../../support/marked.js";

const messageOf = (text: string, code: string) =>
  checked(text).findings.find((finding) => finding.code === code)?.message;
const holes = (...entries: readonly string[]) => `holes:\n${entries.map((entry) => `  - { ${entry} }`).join("\n")}\n`;

describe("sizes that a finding compares", () => {
  // Each text breaks its limit by a number of hundredths or thousandths of a millimetre that rounding would hide.
  it.each([
    [
      "hands/out-of-reach",
      `hands: { reach: 34 }\n${holes("name: L1, at: 100, diameter: 6", "name: L2, at: 134.04, diameter: 6")}`,
      /are 34\.04 mm apart; the stated reach is 34 mm\. Bring them 0\.1 mm closer/,
    ],
    [
      "hands/out-of-reach",
      `hands: { reach: 34.25 }\n${holes("name: L1, at: 100, diameter: 6", "name: L2, at: 134.2504, diameter: 6")}`,
      /are 34\.3 mm apart; the stated reach is 34\.25 mm/,
    ],
    [
      "hands/hole-too-wide",
      `hands: { fingertip: 9 }\n${holes("name: L1, at: 100, diameter: 9.04")}`,
      /is 9\.04 mm wide; a fingertip closes 9 mm\. Draw it 9 mm wide/,
    ],
    [
      "hole/too-near",
      holes("name: L1, at: 100, diameter: 7", "name: L2, at: 108.598, diameter: 7"),
      /only 1\.598 mm of wall is left; it needs 1\.6 mm/,
    ],
    [
      "print/wall-too-thin",
      "print: { nozzle: 0.4 }\nwall: 1.199\n",
      /prints 1\.199 mm thick; to be airtight it needs 1\.2 mm/,
    ],
    [
      "print/longer-than-bed",
      "print: { bed: [352, 100, 100] }\nbore: [{ at: 0, diameter: 16 }, { at: 352.03, diameter: 16 }]\n",
      /is 352\.03 mm long and 22 mm thick, the bed 352 mm/,
    ],
    [
      "hole/wider-than-bore",
      holes("name: L1, at: 100, diameter: 16.001"),
      /is 16\.001 mm wide, and the bore there is only 16 mm/,
    ],
    [
      "hole/outside-bore",
      holes("name: L1, at: 348.504, diameter: 7"),
      /L1 at 348\.504 mm runs over the foot at 352 mm\. Move it to 348\.5 mm or less/,
    ],
    [
      "model/out-of-range",
      holes("name: L1, at: 100, diameter: 12.801"),
      /is 0\.8001 of the bore's width; the prediction was checked up to 0\.8\./,
    ],
    ["value/out-of-range", "pitchStandard: 600.000001\n", /must be at most 600 Hz, and is 600\.000001 Hz/],
  ])("%s: %s", (code, changes, message) => {
    expect(messageOf(tube(changes), code)).toMatch(message);
  });

  it("are shown in their true order, however little they differ", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 60, noNaN: true }),
        fc.double({ min: 2e-4, max: 3, noNaN: true }),
        fc.constantFrom(["mm", 1], ["in", 25.4] as const),
        (reach, over, [unit, millimetres]) => {
          const [limit, apart] = [reach / Number(millimetres), (reach + over) / Number(millimetres)];
          const text = `units: ${unit}\nhands: { reach: ${limit} }\n${holes("name: L1, at: 2, diameter: 0.2", `name: L2, at: ${2 + apart}, diameter: 0.2`)}`;
          const said = messageOf(tube(text), "hands/out-of-reach") ?? "";
          const [, is, has] = /are ([\d.]+) \w+ apart; the stated reach is ([\d.]+)/.exec(said) ?? [];
          expect(Number(is)).toBeGreaterThan(Number(has));
        },
      ),
    );
  });
});

describe("measured sizes", () => {
  it("are given to a tenth of a millimetre where that is enough", () => {
    const scaled = tube(
      `hands: { reach: 34 }\nprint: { scale: 103.7 % }\n${holes("name: L1, at: 100, diameter: 6", "name: L2, at: 141.33, diameter: 6")}`,
    );
    expect(messageOf(scaled, "hands/out-of-reach")).toMatch(
      /are 42\.9 mm apart; the stated reach is 34 mm\. Bring them 8\.9 mm closer/,
    );
  });

  it("advise numbers that satisfy the rule once they are written", () => {
    fc.assert(
      fc.property(fc.double({ min: 1.01, max: 1.3, noNaN: true }), (scale) => {
        const text = (width: string) =>
          tube(
            `hands: { fingertip: 9.37 }\nprint: { scale: ${100 * scale} %, holeUndersize: 0.15 }\n${holes(`name: L1, at: 100, diameter: ${width}`)}`,
          );
        const advised = /Draw it ([\d.]+) mm wide/.exec(messageOf(text("12"), "hands/hole-too-wide") ?? "")?.[1] ?? "";
        expect(codesOf(text(advised))).not.toContain("hands/hole-too-wide");
      }),
    );
  });
});
