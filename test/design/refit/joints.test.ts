/** A refit leaves a joint of a cylinder where it is, says why where it cannot, and names what keeps the result from being printed. */
import { describe, expect, it } from "vitest";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { checked, fileOf } from "../../support/designs.js";
import { note } from "../../support/vessel.js";

/** Two parts of a cylinder, some 40 cents sharp. */
const PARTED = `borewright: 1
family: rim
key: D4
mouth: ideal
bore:
  - { at: 0, diameter: 18 }
  - { at: 190, diameter: 18, joint: true }
  - { at: 560, diameter: 18 }
wall: 3
holes: [{ name: R1, at: 386, diameter: 9 }, { name: R2, at: 420, diameter: 9 }, { name: R3, at: 460, diameter: 8 }]
fingerings:
  - { degree: 1, holes: xxx }
  - { degree: 2, holes: xxo }
  - { degree: 3, holes: xoo }
  - { degree: 4, holes: ooo }
print: { bed: [220, 220, 450], nozzle: 0.4 }
`;
/** The same, narrowing from the joint on, where the bed takes its parts lying slantwise. */
const TAPERED = PARTED.replace("at: 560, diameter: 18", "at: 480, diameter: 15").replace("450]", "250]");
const jointIn = (text: string) => Number(/at: ([\d.]+), diameter: 18, joint/.exec(text)?.[1]);
const footIn = (text: string) => Number(/at: ([\d.]+), diameter: 18 }\nwall/.exec(text)?.[1]);

describe("a joint in a cylinder", () => {
  it("stays where it is while the foot moves, in its own key and in others", () => {
    const results = [retune(fileOf(PARTED), 0, "all"), rekey(fileOf(PARTED), 0, note("C#4"), "refit")];
    for (const { text, remarks } of results) {
      expect(Math.abs(checked(text).analysis.summary?.worstCents ?? 99)).toBeLessThan(2);
      expect(footIn(text)).toBeGreaterThan(565);
      expect(jointIn(text)).toBe(190);
      expect(remarks.join(" ")).not.toContain("joint");
    }
  });

  it("moves where a part would not fit the bed, and says why", () => {
    const { text, remarks } = rekey(fileOf(PARTED), 0, note("B3"), "refit");
    expect(jointIn(text)).toBeGreaterThan(191);
    const { findings } = checked(text);
    expect(findings.map(({ code }) => code)).not.toContain("print/longer-than-bed");
    expect(remarks.join(" ")).toMatch(
      /The joint at 190 mm moves to [\d.]+ mm\. At its old place: The part that ends at [\d.]+ mm is [^:]+: it (fits only|does not fit)/,
    );
  });

  it("names no part that still lies on the bed as what moves it", () => {
    // Parts of some 265 mm lie slantwise on the first bed: two of a taper that a retune lengthens, and with it the joint. On the second only
    // the lower part would, and only with the joint at its old place.
    for (const text of [TAPERED, TAPERED.replace("[220, 220, 250]", "[310, 310, 360]")]) {
      const { remarks } = retune(fileOf(text), 0, "all");
      expect(remarks.join(" ")).toMatch(/The joint at 190 mm moves to [\d.]+ mm: it goes with the bore/);
    }
  });
});

it("a refit names what keeps its result from being printed", () => {
  const duct = PARTED.replace("family: rim", "family: duct")
    .replace("mouth: ideal", "mouth: { window: { width: 11, cutUp: 5 } }")
    .replace("wall: 3", "wall: 1.5");
  const said = retune(fileOf(duct), 0, "all").remarks.join(" ");
  expect(said).toMatch(
    /As drawn it cannot be printed: The wall leaves room for a windway 0\.3 mm high; one under 0\.5 mm prints closed/,
  );
  expect(retune(fileOf(duct.replace("wall: 1.5", "wall: 3")), 0, "all").remarks.join(" ")).not.toContain(
    "cannot be printed",
  );
});
