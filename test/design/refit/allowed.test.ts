/** What a refit does beside places and widths: undercuts where the design allows them, notes left aside, measured notes set aside. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { withoutStraight } from "../../../server/src/design/refit/undercutWherePaying.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { parseNote } from "../../../server/src/music/note.js";
import { checked, documentOf, fileOf, WHISTLE } from "../../support/designs.js";

const job = (name: string) => readFileSync(`test/jobs/${name}.bore.yaml`, "utf8");
const known = new Map<string, ReturnType<typeof retune>>();
/** Worked out once for all tests: a result is never changed. */
const retuned = (text: string) => {
  const result = known.get(text) ?? retune(fileOf(text), 0, "all");
  known.set(text, result);
  return result;
};
const worst = ({ after }: ReturnType<typeof retuned>, but: readonly number[] = []) =>
  Math.max(
    ...after.fingerings.map(({ cents }, i) => (but.includes(i) ? 0 : Math.abs(cents ?? Number.POSITIVE_INFINITY))),
  );
const never = (): never => {
  throw new Error("no note");
};

describe("undercutting", () => {
  const holesOf = ({ text }: { readonly text: string }) =>
    [...text.matchAll(/\{[^}]*\bat:[^}]*undercut: ([\d.]+)/g)].map(([, mm]) => Number(mm));

  it("is a variable of a refit where the design says how much, and brings the worst note closer by a cent and more", () => {
    const ferry = readFileSync("examples/ferry-flute.bore.yaml", "utf8").replace(/^tolerance:.*/m, "tolerance: 4");
    const inF = (most: number) =>
      rekey(
        fileOf(ferry.replace(/^refit:.*/m, `refit: { undercut: ${most} }`)),
        0,
        parseNote("F4") ?? never(),
        "refit",
      );
    const undercut = inF(2);
    const undercuts = holesOf(undercut);
    expect(undercuts.length).toBeGreaterThan(0);
    expect(Math.max(...undercuts)).toBeLessThanOrEqual(2);
    expect(worst(undercut)).toBeLessThan(worst(inF(0)) - 1);
    expect(undercut.moves.filter(({ path }) => path[2] === "undercut").map(({ from, to }) => [from, to])).toEqual(
      undercuts.map((mm) => [0, mm]),
    );
  });

  it("is left out where the worst note gains less than a cent by it", () => {
    const result = retuned(`${job("whistle")}refit: { undercut: 0.5 }\n`);
    expect(holesOf(result)).toEqual([]);
    expect(result.text).toBe(`${retuned(job("whistle")).text}refit: { undercut: 0.5 }\n`);
  });

  it("leaves no word behind on a hole that the design cut straight and a refit leaves straight", () => {
    const drawn = WHISTLE.replace("diameter: 8.5 }   #", "diameter: 8.5, undercut: 0 }   #");
    const edits = (before: string) => withoutStraight(documentOf(fileOf(before)), documentOf(fileOf(drawn)));
    expect(applyEdits(drawn, edits(WHISTLE))).toBe(WHISTLE);
    expect(edits(drawn)).toEqual([]);
  });

  it("makes no note worse than without, from a design that is in tune as it stands, and is then done", () => {
    const quay = readFileSync("examples/quay-whistle.bore.yaml", "utf8");
    const under = (refit: string) => retuned(quay.replace(/^refit:.*/m, `refit: ${refit}`));
    const undercut = under("{ undercut: 3 }");
    expect(worst(undercut)).toBeLessThan(worst(under("{ undercut: 0 }")) + 0.1);
    expect(retuned(undercut.text).text).toBe(undercut.text);
  });

  it("is left alone where it says nothing", () => {
    expect(retuned(job("whistle")).text).not.toContain("undercut");
  });
});

describe("a note that cannot be reached", () => {
  // With one hole open the first register is A5, which the design has already; A6 is the second.
  const text = `${job("whistle")}  - { note: A6, holes: xoo ooo, register: 1 }\n`;
  const last = documentOf(fileOf(text)).resolution.instrument.fingerings.length - 1;

  it("is named with the register that lies near, left aside, and the rest are as good as without it", () => {
    const result = retuned(text);
    expect(result.remarks.join("\n")).toMatch(
      /A6 cannot be reached: it would stay [\d.]+ cents flat\. It is left aside.*Register 2 of that fingering lies near it, [\d.]+ cents (sharp|flat): say so \(register: 2\)/,
    );
    expect(worst(result, [last])).toBeLessThan(worst(retuned(job("whistle"))) + 1);
    expect(retuned(result.text).text).toBe(result.text);
  });

  it("is no way to another key where the rest stay out of tune for it: the key is refused with what stands in the way, which helps", () => {
    const quay = readFileSync("examples/quay-whistle.bore.yaml", "utf8");
    const inD = (text: string) => rekey(fileOf(text), 0, parseNote("D4") ?? never(), "refit");
    expect(() => inD(quay)).toThrow(
      /cannot reach D4, and nothing is changed: the best that was found leaves D5 \d+ cents sharp\. Held back by: the tube would have to be 57\d(\.\d)? mm long, but the bed takes 499 mm/,
    );
    expect(worst(inD(quay.replace("bed: [220, 220, 500]", "bed: [220, 220, 700]")))).toBeLessThan(5);
  });

  it("is not reported where every note can be reached", () => {
    expect(retuned(job("whistle")).remarks.join()).not.toContain("left aside");
  });
});

describe("measured notes", () => {
  const text = `${WHISTLE}measured:\n  - { note: G4, hz: 380, temperature: 20 }\n  - note: A4\n    cents: -12\n`;
  const note = parseNote("A4");
  if (note === undefined) throw new Error("A4");
  const result = rekey(fileOf(text), 0, note, "refit");

  it("are set aside by a refit, whatever their form, and not used again", () => {
    expect(documentOf(fileOf(text)).resolution.instrument.measured).toHaveLength(2);
    expect(result.text.match(/setAside: true/g)).toHaveLength(2);
    expect(checked(result.text).findings.filter(({ code }) => code.startsWith("schema/"))).toEqual([]);
    expect(documentOf(fileOf(result.text)).resolution.instrument.measured).toEqual([]);
    expect(result.remarks.join()).toContain("set aside");
  });

  it("stay in use where nothing was changed", () => {
    const inTune = `${result.text.replaceAll(/, setAside: true|\n *setAside: true/g, "")}`;
    expect(retuned(inTune).text).toBe(inTune);
  });
});

describe("a thumb hole whose note would put it above the finger hole in front", () => {
  const text = WHISTLE.replace(/(.*name: L1, at: 173.3.*)/, "$1\n  - { name: T, at: 176, diameter: 7, angle: 180 }")
    .replace(/holes: ([●○])/g, "holes: $1●")
    .concat("  - { note: G5, holes: ●○●●●●●, register: 1 }\n");

  it("stays below it, and the other notes come into tune", () => {
    const result = retuned(text);
    const [front, thumb] = ["L1", "T"].map((name) =>
      Number(new RegExp(`name: ${name}, at: ([\\d.]+)`).exec(result.text)?.[1]),
    );
    expect(thumb).toBeGreaterThan(front ?? Number.NaN);
    const last = result.after.fingerings.length - 1;
    // Comfort may cost half the tolerance.
    expect(worst(result, [last])).toBeLessThan(5);
  });
});
