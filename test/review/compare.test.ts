/** Two versions of a design: what changed, note by note and dimension by dimension. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { rekey } from "../../server/src/design/rekey/rekey.js";
import { DEFAULT_SETTINGS } from "../../server/src/design/settings.js";
import { dataOf } from "../../server/src/document/treeData.js";
import { parseNote } from "../../server/src/music/note.js";
import { leavesTolerance } from "../../server/src/review/compare.js";
import { verdict } from "../../server/src/review/verdict.js";
import { comparison, dimensions, structure } from "../support/compared.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";
import { vessel } from "../support/families.js";

/** L2 of the test whistle as it should be: D5 and what lies below come into tune. */
const MENDED = WHISTLE.replace("at: 210.3", "at: 205.3");
const predicted = (text: string) =>
  analyse(documentOf(fileOf(text)).resolution.instrument).fingerings.map(({ cents }) => cents ?? Number.NaN);

describe("a hole that moved", () => {
  const changed = comparison(WHISTLE, MENDED);

  it("is reported by its name, in the maker's unit", () => {
    expect(dimensions(changed)).toEqual({ "`at` of L2": "210.3 → 205.3" });
    expect(changed.dimensions[0]).toMatchObject({ unit: "mm", path: ["holes", 1, "at"] });
    expect(structure(changed)).toEqual([]);
  });

  it("is reported for every fingering as the difference of the two predictions", () => {
    const [old, next] = [predicted(WHISTLE), predicted(MENDED)];
    changed.notes.forEach((note, i) => {
      expect(note.change).toBeCloseTo((next[i] ?? 0) - (old[i] ?? 0), 9);
    });
    expect(changed.notes).toHaveLength(old.length);
  });

  it("has a verdict that counts and names what is worse, and a gate that closes only on the way out", () => {
    const there = verdict(changed);
    expect(there).toMatch(/^\d notes? better/);
    expect(there).toContain("came within the tolerance of ±10 cents");
    expect(leavesTolerance(changed)).toBe(false);
    const back = comparison(MENDED, WHISTLE);
    expect(verdict(back)).toMatch(/worse: .*[A-G]\d [+−]\d+ → −\d+/);
    expect(verdict(back)).toMatch(/left the tolerance of ±10 cents\.$/);
    expect(leavesTolerance(back)).toBe(true);
  });

  it("takes findings away, and brings them back", () => {
    const codes = (findings: readonly { readonly code: string }[]) => findings.map(({ code }) => code);
    expect(codes(changed.findings.went)).toContain("pitch/out-of-tune");
    expect(changed.findings.came).toEqual([]);
    expect(codes(comparison(MENDED, WHISTLE).findings.came)).toContain("pitch/out-of-tune");
  });

  it("is measured against the hand", () => {
    const stretch = changed.measures.find(({ name }) => name.startsWith("widest stretch"));
    // L1 at 173.3; the test whistle is printed as drawn.
    expect(stretch).toMatchObject({
      area: "hands",
      unit: "mm",
      old: expect.closeTo(37, 6),
      next: expect.closeTo(32, 0),
    });
  });
});

describe("the same design", () => {
  it("does not change, whatever its syntax, comments, spelling of signs and way of counting notes", () => {
    const json = JSON.stringify(dataOf(documentOf(fileOf(MENDED)).root), null, 2);
    expect(verdict(comparison(MENDED, json, "json"))).toBe("Nothing changes.");
    const signs = MENDED.replace("●●○○○○", "xxo ooo").replace(/#.*/g, "");
    expect(verdict(comparison(MENDED, signs))).toBe("Nothing changes.");
    expect(dimensions(comparison(MENDED, MENDED.replace("note: D5", "degree: 5")))).toEqual({
      "`note` of fingering 5": "D5 → –",
      "`degree` of fingering 5": "– → 5",
    });
    expect(verdict(comparison(MENDED, MENDED.replace("note: D5", "degree: 5")))).toBe("No note changes.");
  });

  it("is compared in one unit: inches and millimetres of one length are not a change", () => {
    const inches = WHISTLE.replace(
      "parameters: { wall: 3, tube: 16 }",
      "parameters: { wall: 3, tube: 16 }\nunits: in",
    ).replace(
      /(at|diameter|width|cutUp|wall|tube): (\d[\d.]*)/g,
      (_, name, value) => `${name}: ${Number(value) / 25.4}`,
    );
    const changed = comparison(WHISTLE, inches);
    // Parameters have no unit of their own: the reader cannot know that they are lengths.
    expect(Object.keys(dimensions(changed)).filter((name) => !name.includes("parameters"))).toEqual(["`units`"]);
    expect(verdict(changed)).toBe("No note changes.");
  });
});

describe("which hole is which", () => {
  it("goes by name where the order is another", () => {
    const holes = (first: string, second: string) =>
      vessel(`holes:
  - ${first}
  - ${second}
fingerings:
  - { note: C5, holes: ●● }
  - { note: D5, holes: ${first.includes("R1") ? "○●" : "●○"} }`);
    const [one, other] = ["{ name: R1, diameter: 5 }", "{ name: R2, diameter: 7 }"];
    const changed = comparison(holes(one, other), holes(other, one));
    expect(structure(changed)).toEqual(["reordered holes"]);
    expect(dimensions(changed)).toEqual({});
    expect(changed.notes.map(({ pair }) => pair)).toEqual([
      { old: 0, next: 0 },
      { old: 1, next: 1 },
    ]);
    for (const { fingeredAnew, change } of changed.notes) {
      expect(fingeredAnew).toBe(false);
      expect(Math.abs(change ?? 1)).toBeLessThan(1e-6);
    }
  });

  it("goes by place where the name is another", () => {
    const renamed = MENDED.replace("name: L2", "name: middle").replace("at: 205.3", "at: 206.1");
    const changed = comparison(MENDED, renamed);
    expect(structure(changed)).toEqual(["renamed holes L2 middle"]);
    expect(dimensions(changed)).toMatchObject({ "`at` of middle": "205.3 → 206.1" });
  });

  const NEW_HOLE = "  - { name: T, at: 150, diameter: 6, side: back }\n";
  const withThumb = MENDED.replace("holes:\n", `holes:\n${NEW_HOLE}`).replace(/holes: (?=[●○])/g, "holes: ●");

  it("recognizes a new hole, and the fingerings that only grew by its sign", () => {
    const changed = comparison(MENDED, withThumb);
    expect(structure(changed)).toEqual(["added holes T"]);
    expect(changed.notes.map(({ pair }) => pair)).toEqual(Array.from({ length: 7 }, (_, i) => ({ old: i, next: i })));
    expect(changed.notes.some(({ fingeredAnew }) => fingeredAnew)).toBe(false);
    expect(structure(comparison(withThumb, MENDED))).toEqual(["removed holes T"]);
  });

  it("goes by place alone where no hole has a name", () => {
    const nameless = (text: string) => text.replace(/name: (?:[LR]\d|T), /g, "");
    expect(structure(comparison(nameless(MENDED), nameless(withThumb)))).toEqual(["added holes hole 1"]);
    expect(dimensions(comparison(nameless(MENDED), nameless(WHISTLE)))).toEqual({ "`at` of hole 2": "205.3 → 210.3" });
  });

  it("treats a hole far away as another one", () => {
    const far = MENDED.replace("name: L1, at: 173.3", "name: foot vent, at: 360");
    expect(structure(comparison(MENDED, far))).toEqual(["added holes foot vent", "removed holes L1"]);
  });
});

describe("which fingering is which", () => {
  const rows = (text: string) => text.slice(text.indexOf("fingerings:\n") + "fingerings:\n".length);

  it("goes by degree and pattern where the order is another", () => {
    const lines = rows(MENDED).trimEnd().split("\n");
    const turned = `${MENDED.replace(rows(MENDED), "")}${lines.toReversed().join("\n")}\n`;
    const changed = comparison(MENDED, turned);
    expect(structure(changed)).toEqual(["reordered fingerings"]);
    expect(changed.notes.every(({ change }) => change === 0)).toBe(true);
  });

  it("reports what was added and what was removed as such", () => {
    const more = `${MENDED}  - { degree: 7, holes: ○○○○○○ }\n`;
    expect(verdict(comparison(MENDED, more))).toBe("1 note added.");
    expect(verdict(comparison(more, MENDED))).toBe("1 note removed.");
    expect(leavesTolerance(comparison(more, MENDED))).toBe(false);
  });

  it("matches a note with another fingering, and a fingering with another note", () => {
    const crossed = comparison(MENDED, MENDED.replace("degree: 6, holes: ●○○○○○", "degree: 6, holes: ●○●○○○"));
    expect(crossed.notes.filter(({ fingeredAnew }) => fingeredAnew).map(({ pair }) => pair.next)).toEqual([5]);
    const asked = comparison(MENDED, MENDED.replace("degree: 6, holes", 'degree: "b6", holes'));
    expect(asked.notes[5]).toMatchObject({ pair: { old: 5, next: 5 }, change: expect.closeTo(100, 3) });
  });

  it("reports a note whose register is gone as lost, and stops there", () => {
    const gone = MENDED.replace("register: 2", "register: 9");
    const changed = comparison(MENDED, gone);
    expect(verdict(changed)).toMatch(/^1 note lost: G5 [+−]\d+ → –\./);
    expect(changed.notes.some(({ state }) => state === "lost")).toBe(true);
    expect(leavesTolerance(changed)).toBe(true);
  });
});

it("stops at a note that is lost, even one that was out of tune", () => {
  const changed = comparison(
    WHISTLE,
    WHISTLE.replace("degree: 6, holes: ●○○○○○", "degree: 6, holes: ●○○○○○, register: 9"),
  );
  expect(changed.notes[5]).toMatchObject({ state: "lost", leftTolerance: false });
  expect(leavesTolerance(changed)).toBe(true);
});

describe("across a change of key", () => {
  it("matches a degree with another fingering, too", () => {
    const other = MENDED.replace("key: G4", "key: A4").replace("degree: 6, holes: ●○○○○○", "degree: 6, holes: ●○●○○○");
    expect(comparison(MENDED, other).notes[5]).toMatchObject({ pair: { old: 5, next: 5 }, fingeredAnew: true });
  });

  it("compares deviations and gives the interval", () => {
    const to = parseNote("F4");
    if (to === undefined) throw new Error("no note");
    const { text } = rekey(fileOf(MENDED), 0, to, "redraw", DEFAULT_SETTINGS);
    const changed = comparison(MENDED, text);
    // From G to F is a major second, two semitones (common practice).
    expect(verdict(changed)).toMatch(/^From G4 to F4, a major second lower: deviations are compared/);
    expect(changed.rekeyed?.semitones).toBe(-2);
    expect(changed.notes.map(({ pair }) => pair.next)).toEqual(changed.notes.map(({ pair }) => pair.old));
    // Redrawn by one factor, every deviation stays within a few cents; frequencies fall by about 200.
    for (const { change } of changed.notes) expect(Math.abs(change ?? 100)).toBeLessThan(8);
  });
});

describe("whatever is compared", () => {
  const place = fc.integer({ min: 0, max: 5 });
  const shifted = fc.array(fc.tuple(place, fc.integer({ min: -30, max: 30 })), { maxLength: 3 }).map((moves) =>
    moves.reduce((text, [hole, tenths]) => {
      const match = [...text.matchAll(/at: (\d+\.\d), diameter: \d/g)][hole];
      if (match?.[1] === undefined) return text;
      const moved = (Number(match[1]) + tenths / 10).toFixed(1);
      return `${text.slice(0, match.index)}at: ${moved}${text.slice(match.index + 4 + match[1].length)}`;
    }, MENDED),
  );

  it("the comparison reversed is the reverse of the comparison", () => {
    fc.assert(
      fc.property(shifted, (text) => {
        const [there, back] = [comparison(MENDED, text), comparison(text, MENDED)];
        expect(back.notes.map(({ change }) => change)).toEqual(there.notes.map(({ change }) => -(change ?? 0) + 0));
        expect(back.dimensions.map(({ old, next }) => [next, old])).toEqual(
          there.dimensions.map(({ old, next }) => [old, next]),
        );
        expect(back.findings.came.map(({ code }) => code)).toEqual(there.findings.went.map(({ code }) => code));
      }),
      { numRuns: 12 },
    );
  });

  it.each([
    ["", ""],
    ["", MENDED],
    [MENDED, "holes: 3"],
    [MENDED, MENDED.replace("at: 394.1", "at: =nowhere")],
    ["[1, 2", "{"],
  ])("takes texts that are no designs (%#)", (old, next) => {
    expect(verdict(comparison(old, next))).toMatch(/\.$/);
    expect(leavesTolerance(comparison(old, next))).toBe(next.includes("=nowhere"));
  });
});
