/**
 * Whole refits of instruments with one hole, which cost next to nothing: what comes into tune, and what is said where it does not. What the
 * notes need is what a refit finds that may do it.
 */
import { describe, expect, it } from "vitest";
import { Cancelled } from "../../../server/src/acoustics/cancelled.js";
import { OutOfReach } from "../../../server/src/design/refit/outOfReach.js";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import type { RekeyResult } from "../../../server/src/design/rekey/rekeyResult.js";
import { checked, fileOf } from "../../support/designs.js";
import { foundIn } from "../../support/found.js";
import { numberAt } from "../../support/marked.js";
import { note } from "../../support/vessel.js";

/** A textbook tube some 40 cents flat with its hole closed, 75 with it open. */
const TUBE = ({ foot = "at: 440", hole = "at: 330, diameter: 7", notes = "", more = "" } = {}) => `borewright: 1
family: duct
key: G4
mouth: ideal
bore: [{ at: 0, diameter: 16 }, { ${foot}, diameter: 16 }]
wall: 3
holes: [{ name: A, ${hole} }]
fingerings: [{ degree: 1, holes: x }, { degree: 3, holes: o }${notes}]
${more}`;
/** A vessel whose lower note wants a smaller chamber, and the upper a narrower hole. */
const VESSEL = ({
  shape = "shape: sphere, diameter: 60",
  hole = "diameter: 8, angle: 90",
  more = "",
} = {}) => `borewright: 1
family: vessel
key: C5
mouth: { window: { width: 9, cutUp: 5 } }
vessel: { ${shape} }
wall: 4
holes: [{ name: A, ${hole} }]
fingerings: [{ degree: 1, holes: x }, { degree: 3, holes: o }]
${more}`;

const tuned = (text: string, freedom: "all" | "holes" = "all") => retune(fileOf(text), 0, freedom);
const moved = (text: string, key: string) => rekey(fileOf(text), 0, note(key), "refit");
const cents = ({ after }: RekeyResult) => after.fingerings.map((each) => Math.abs(each.cents ?? 99));
const footOf = (text: string) => numberAt(text, "bore.1.at") ?? Number.NaN;
const refusal = (work: () => unknown): string => {
  try {
    work();
  } catch (error) {
    if (error instanceof OutOfReach) return error.message;
    throw error;
  }
  return "not refused";
};

const FREE = tuned(TUBE());

describe("a tube of one hole", () => {
  it("comes into tune by hole and foot, and nothing is said; in tune it stays to the letter", () => {
    expect(Math.max(...cents(FREE))).toBeLessThan(1);
    expect(FREE.remarks).toEqual([]);
    expect(FREE.moves.map(({ path }) => path.join("."))).toEqual(["holes.0.at", "bore.1.at"]);
    const again = tuned(FREE.text);
    expect([again.text, again.remarks, again.moves, again.obstacles]).toEqual([FREE.text, [], [], []]);
  });
  it("says of a foot that is fixed, or not free, where the notes need it", () => {
    const fixed = tuned(TUBE({ foot: "at: 440, fixed: true" }));
    expect(footOf(fixed.text)).toBe(440);
    expect(fixed.remarks).toEqual([
      `Held back by: the foot is \`fixed\` at 440 mm, but these notes need it at ${footOf(FREE.text)} mm. To come closer, let it move (without \`fixed\`).`,
    ]);
    const inches = TUBE({ foot: "at: 17.3, fixed: true", hole: "at: 13, diameter: 0.28", more: "units: in\n" })
      .replaceAll("diameter: 16", "diameter: 0.63")
      .replace("wall: 3", "wall: 0.12");
    expect(tuned(inches).remarks.join()).toMatch(
      /^Held back by: the foot is `fixed` at 17\.3 in, but these notes need it at 16\.9\d in\./,
    );
  });
  it("says of a hole that is fixed what place and width the notes of another key need", () => {
    const fixed = FREE.text.replace("diameter: 7 }", "diameter: 7, fixed: true }");
    const free = moved(FREE.text, "F#4");
    expect(refusal(() => moved(fixed, "F#4"))).toMatch(
      /^A refit of this instrument cannot reach F#4, and nothing is changed: the best that was found leaves A#4 \d\d cents sharp\. Held back by: A is `fixed` at 313\.\d mm, but these notes need it at (\d+(\.\d)?) mm\. To come closer, let it move \(without `fixed`\)\. Held back by: A is `fixed` at a width of 7 mm, but these notes need [\d.]+ mm\. To come closer, let it move \(without `fixed`\)\. Printed at 10\d\.\d+ % it plays in F#4\. No refit reaches a key closer than its own, G4$/,
    );
    expect(Math.max(...cents(free))).toBeLessThan(1);
    expect(numberAt(free.text, "holes.0.at")).toBeGreaterThan(320);
  });
  it("says which limits are in the way, and that nothing is changed", () => {
    const { text, remarks, obstacles, moves } = tuned(
      TUBE({ hole: "at: 330, diameter: 7, limits: { at: [328, 332], diameter: [6.9, 7.1] }" }),
    );
    expect(text).toContain("at: 330, diameter: 7,");
    expect(moves).toEqual([]);
    expect(remarks).toEqual([
      "Nothing is changed: what can be reached within the limits is no closer than what is drawn (worst 75 cents flat).",
      "Not in tune in G4: the best that was found leaves a note 75 cents off.",
      expect.stringMatching(
        /^Held back by: A would have to lie at 31\d(\.\d)? mm, outside its limits\. To come closer, widen its limits\.at\.$/,
      ),
      expect.stringMatching(
        /^Held back by: A would have to be [\d.]+ mm wide, outside its limits\. To come closer, widen its limits\.diameter\.$/,
      ),
    ]);
    expect(obstacles.map(({ limit }) => Math.round(limit))).toEqual([328, 7]);
  });
  it("within its tolerance but far says why it is no closer", () => {
    const { remarks, obstacles } = tuned(TUBE({ foot: "at: 440, fixed: true", more: "tolerance: 60\n" }));
    expect(obstacles).toEqual([]);
    expect(remarks).toEqual([
      expect.stringMatching(
        /^Within the tolerance of 60 cents, but no closer than 39 cents: B4 stays [\d.]+ cents flat and G4 stays 39 cents flat, .*\. To come closer, let a refit shape the bore .*\.$/,
      ),
    ]);
  });
  it("within its tolerance and five cents says nothing", () => {
    const worst = (foot: number) => {
      const found = tuned(TUBE({ foot: `at: ${foot}, fixed: true` }));
      return [Math.max(...cents(found)) > 5, found.remarks.length];
    };
    expect([worst(431), worst(431.8)]).toEqual([
      [false, 0],
      [true, 1],
    ]);
  });
  it("keeps the bed, names the nearest key that does, and is refused where it must not be so long", () => {
    // As long as free refits make it, 483 mm in F4, 456 in F#4.
    const bed = (mm: number) => `${FREE.text}print: { bed: [60, 60, ${mm}] }\n`;
    const near = moved(bed(450), "F#4");
    expect(footOf(near.text)).toBeLessThanOrEqual(450);
    expect(near.nearestKey?.name).toBe("G4");
    expect(near.remarks).toEqual([
      expect.stringMatching(
        /^Held back by: the tube would have to be 45\d(\.\d)? mm long, but the bed takes 450 mm\. To come closer, split it \(joint: true on a station between holes\) or state a larger bed \(print\.bed\), or take key G4\.$/,
      ),
    ]);
    expect(refusal(() => moved(bed(470), "E4"))).toMatch(
      /^A refit of this instrument cannot reach E4, and nothing is changed: the best that was found leaves E4 1\d\d cents sharp\. Held back by: the tube would have to be 51\d(\.\d)? mm long, but the bed takes 470 mm\. To come closer, split it .*\(print\.bed\)\. Printed at 11[89]\.\d+ % it plays in E4, but then: The tube is 51\d(\.\d)? mm long .*\. The nearest possible key by refit is F#4$/,
    );
    const found = foundIn(() => moved(bed(470), "E4"));
    expect(found.nearestKey?.name).toBe("F#4");
    expect(found.remarks[0]).toMatch(/^Not in tune in E4: the best that was found leaves a note 1\d\d cents off\.$/);
  });
  it("says what bore is usual where it keeps its own for another length, or grows it where it may", () => {
    const said = (key: string) => moved(FREE.text, key).remarks;
    expect(said("D4")).toEqual([
      expect.stringMatching(/^The bore keeps its 16 mm; for this length makers usually choose about (19|20)\.\d mm\./),
    ]);
    expect(said("G5")[0]).toMatch(/usually choose about 9\.\d mm/);
    expect(said("A4")).toEqual([]);
    // Nothing is in the way: no other key is looked for.
    expect(moved(FREE.text, "A4").nearestKey).toBeUndefined();
    const grown = moved(`${FREE.text}refit: { growth: 0.75 }\n`, "D4");
    expect(grown.remarks).toEqual([]);
    expect(numberAt(grown.text, "bore.0.diameter")).toBeCloseTo(16 * 2 ** ((0.75 * 5) / 12), 0);
    expect(grown.moves.map(({ path }) => path.join("."))).toContain("bore.0.diameter");
    expect(grown.factor).toBeCloseTo(footOf(grown.text) / footOf(FREE.text), 3);
  });
  it("sets aside what was measured, where it changes anything", () => {
    const measured = "measured: [{ note: G4, hz: 390 }]\n";
    const { text, remarks } = tuned(TUBE({ more: measured }));
    expect(text).toContain("setAside: true");
    expect(remarks).toEqual([
      expect.stringMatching(/^The `measured` notes belong to the instrument before this change. They are set aside/),
    ]);
    const still = tuned(`${FREE.text}${measured}`);
    expect([still.text, still.remarks]).toEqual([`${FREE.text}${measured}`, []]);
  });
  it("is retuned to its first note where it has no key", () => {
    const { text, from, to } = tuned(
      TUBE().replace("key: G4\n", "").replace("degree: 1", "note: G4").replace("degree: 3", "note: B4"),
    );
    expect([from.name, to.name]).toEqual(["G4", "G4"]);
    expect(footOf(text)).toBeCloseTo(footOf(FREE.text), 1);
  });
  it("stops when told to", () => {
    expect(() => retune(fileOf(TUBE()), 0, "all", undefined, { shouldStop: () => true })).toThrow(Cancelled);
  });
});

describe("a note that no dimension brings near", () => {
  const overblown = ", { note: G5, holes: x, register: 2 }, { note: B5, holes: o, register: 2 }";

  it("is left aside with the register that lies near, and the rest come into tune", () => {
    const found = tuned(TUBE({ notes: `${overblown}, { note: D6, holes: x, register: 1 }` }));
    expect(Math.max(...cents(found).slice(0, 4))).toBeLessThan(5);
    expect(found.remarks).toHaveLength(1);
    expect(found.remarks[0]).toMatch(
      /^D6 cannot be reached: it would stay 1\d\d\d cents flat\. It is left aside, and the rest are brought into tune\. Register 3 of that fingering lies near it, \d+ cents (sharp|flat): say so \(register: 3\)\.$/,
    );
  });
  it("is left aside by the holes alone, and no limit is blamed for it", () => {
    const found = tuned(
      TUBE({ foot: `at: ${footOf(FREE.text)}`, notes: `${overblown}, { note: E5, holes: x }` }),
      "holes",
    );
    expect(Math.max(...cents(found).slice(0, 4))).toBeLessThan(5);
    expect(footOf(found.text)).toBe(footOf(FREE.text));
    expect(found.remarks).toEqual([
      expect.stringMatching(
        /^E5 cannot be reached: it would stay 90\d cents flat\. It is left aside, and the rest are brought into tune\. Give it another fingering, or leave it out\.$/,
      ),
    ]);
    expect(found.obstacles).toEqual([]);
  });
});

describe("a vessel of one hole", () => {
  const free = tuned(VESSEL());

  it.each([
    ["a sphere", {}, ["vessel.diameter", "holes.0.diameter"]],
    ["a stated volume", { shape: "volume: 110" }, ["vessel.volume", "holes.0.diameter"]],
    [
      "a tube",
      { shape: "shape: tube, length: 70, diameter: 40", hole: "diameter: 8, at: 40" },
      ["vessel.length", "vessel.diameter", "holes.0.diameter"],
    ],
  ])("%s comes into tune by its size and the hole, and stays so", (_, more, paths) => {
    const found = tuned(VESSEL(more));
    expect(Math.max(...cents(found))).toBeLessThan(3);
    expect(found.moves.map(({ path }) => path.join(".")).sort()).toEqual([...paths].sort());
    expect(tuned(found.text).text).toBe(found.text);
    expect(found.remarks).toEqual([]);
  });
  it("says which limit is in the way, and how far off the worst note would be without it", () => {
    const held = tuned(VESSEL({ hole: "diameter: 8, angle: 90, limits: { diameter: [7, 8] }" }));
    expect(numberAt(held.text, "holes.0.diameter")).toBe(7);
    const needed = numberAt(free.text, "holes.0.diameter") ?? Number.NaN;
    expect(needed).toBeLessThan(7);
    expect(held.obstacles).toEqual([
      {
        message: expect.stringMatching(
          /^A would have to be narrower than 7 mm: with [56]\.\d mm the worst note would be 0\.\d cents off$/,
        ),
        advice: expect.stringMatching(/^accept a narrower hole \(limits\.diameter\)/),
        limit: 7,
        needed: expect.closeTo(needed, 0),
        unit: "mm",
      },
    ]);
  });
  it("with its chamber kept is told that its notes want another, and is left as it was", () => {
    const held = tuned(VESSEL(), "holes");
    expect(held.text).toBe(VESSEL());
    expect(held.remarks).toEqual([
      expect.stringMatching(/^Nothing is changed: .* \(worst \d+ cents flat\)\.$/),
      expect.stringMatching(/^Not in tune in C5: /),
      expect.stringMatching(
        /these holes and this chamber cannot bring both closer\. To come closer, let the chamber's size change/,
      ),
    ]);
  });
  it("bored with drills at hand keeps to them, and says where they leave a note off", () => {
    const { text, obstacles, remarks } = tuned(VESSEL({ more: "stock: { drills: [5, 8] }\n" }));
    expect([5, 8]).toContain(numberAt(text, "holes.0.diameter"));
    expect(obstacles[0]?.message).toMatch(
      /^bored with the drills at hand, [CE]\d? ?.*stays \d+ cents (sharp|flat), where at most 2\.0 cents is asked for$/,
    );
    expect(moved(VESSEL({ more: "stock: { drills: [5, 8] }\n" }), "D5").nearestKey).toBeUndefined();
    // Another key would not help.
    expect(remarks.join(" ")).toMatch(/To come closer, name a drill between them \(stock\.drills\)\.$/);
    expect(
      tuned(VESSEL({ more: `stock: { drills: [5, ${numberAt(free.text, "holes.0.diameter")}, 8] }\n` })).obstacles,
    ).toEqual([]);
  });
  it("moves to another key and keeps the hole where that is fixed", () => {
    const other = moved(free.text, "A4");
    expect(Math.max(...cents(other))).toBeLessThan(3);
    expect(checked(other.text).analysis.instrument.key?.name).toBe("A4");
    const fixed = free.text.replace("angle: 90 }", "angle: 90, fixed: true }");
    expect(numberAt(moved(fixed, "B4").text, "holes.0.diameter")).toBe(numberAt(free.text, "holes.0.diameter"));
  });
});
