/** What findings of hands and printer complain of, a refit holds: the thumb's reach, and joints clear of holes. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { parseNote } from "../../../server/src/music/note.js";
import { checked, fileOf } from "../../support/designs.js";
import { numberAt } from "../../support/marked.js";

describe("a refit", () => {
  const WHISTLE = readFileSync(new URL("../../../examples/quay-whistle.bore.yaml", import.meta.url), "utf8");
  const FERRY = readFileSync(new URL("../../../examples/ferry-flute.bore.yaml", import.meta.url), "utf8");
  const to = (text: string, key: string) => {
    const note = parseNote(key);
    if (note === undefined) throw new Error(key);
    return rekey(fileOf(text), 0, note, "refit");
  };
  const complaints = (text: string) => checked(text).findings.map(({ code }) => code);
  /** Information says how it may lie or lean; a warning, that no way is left. */
  const doesNotFit = (text: string) =>
    checked(text).findings.some(({ code, severity }) => code === "print/longer-than-bed" && severity === "warning");
  const withBed = (text: string, bed: string) => {
    const changed = text.replace(/bed: \[[^\]]*\]/, `bed: ${bed}`);
    expect(changed).not.toBe(text);
    return changed;
  };

  it("keeps the tube within the bed, and says when that is in the way", () => {
    // It stands up to 447 mm, 27 of them its head; in F4 it would be some 480 mm long.
    const { text, obstacles, remarks } = to(withBed(WHISTLE, "[60, 60, 447]"), "F4");
    expect(doesNotFit(text)).toBe(false);
    expect(obstacles.map(({ message }) => message).join("; ")).toMatch(
      /the tube would have to be 4\d\d(\.\d)? mm long, but the bed takes 4\d\d/,
    );
    expect(remarks.join(" ")).toMatch(/joint: true/);
  });

  it("keeps each part of a split tube within the bed", () => {
    const parted = WHISTLE.replace("- { at: 150, diameter: =tube }", "- { at: 128, diameter: =tube, joint: true }");
    expect(parted).not.toBe(WHISTLE);
    const { text } = to(withBed(parted, "[60, 60, 300]"), "F4");
    expect(doesNotFit(text)).toBe(false);
  });

  it("leaves joints their share of the length, unless the design says where they may lie", () => {
    const bass = readFileSync(new URL("../../jobs/bass.bore.yaml", import.meta.url), "utf8");
    const shares = (text: string) =>
      [1, 2].map((i) => (numberAt(text, `bore.${i}.at`) ?? 0) / (numberAt(text, "bore.3.at") ?? 0));
    const farthest = (text: string) =>
      Math.max(
        ...shares(retune(fileOf(text), 0, "all").text).map((share, i) => Math.abs(share - (shares(bass)[i] ?? 0))),
      );
    // A millimetre and a twentieth of the length, however many rounds it takes.
    const length = numberAt(bass, "bore.3.at") ?? 0;
    expect(farthest(bass)).toBeLessThan(0.05 + 2 / length);
    expect(farthest(bass.replace("joint: true", "joint: true, limits: { at: [350, 900] }"))).toBeGreaterThan(0.06);
  });

  it("counts a joint's room from where it lay at first", () => {
    // In A3 it would be moved by a fifth of the length, if each round began anew.
    const refused = () => to(FERRY, "A3");
    expect(refused).toThrow(/the joint would have to move by \d+(\.\d)? mm, but only 2\d\.\d mm are allowed/);
    const { text } = to(FERRY.replace("joint: true", "joint: true, limits: { at: [150, 350] }"), "A3");
    expect(numberAt(text, "bore.1.at")).toBeGreaterThan(300);
  });

  it("lets a joint that is fixed keep no length", () => {
    const parted = WHISTLE.replace(
      /- \{ at: 150, diameter: =tube \}/,
      "- { at: 70, diameter: =tube, joint: true, fixed: true }",
    );
    expect(parted).not.toBe(WHISTLE);
    const [fixed, plain] = [parted, WHISTLE].map((text) => to(text, "E5"));
    expect(numberAt(fixed?.text ?? "", "bore.1.at")).toBe(70);
    // Its share has grown by more than a joint may move, and the bore is as short as without it, but for a part's rounding.
    const foot = ({ text = "" } = {}) => numberAt(text, "bore.2.at") ?? Number.NaN;
    expect(70 / foot(fixed) - 70 / foot({ text: WHISTLE })).toBeGreaterThan(0.06);
    expect(Math.abs(foot(fixed) - foot(plain))).toBeLessThan(3);
  });

  it("lays no part leaning where the design does not allow it", () => {
    // Flat and turned it takes 330·√2 − 21 = 446 mm, leaning some 550; in F4 the whistle would be some 475 mm long.
    const stands = withBed(WHISTLE, "[330, 330, 330]");
    const complaints = (text: string) => to(text, "F4").obstacles.map(({ message }) => message);
    expect(complaints(stands).join("; ")).toMatch(/the bed takes 44\d/);
    expect(complaints(stands.replace("print: {", "print: { leaning: true,"))).toEqual([]);
  });

  it("leaves a tube that does not fit as drawn to its finding", () => {
    const { obstacles } = to(withBed(WHISTLE, "[60, 60, 100]"), "F4");
    expect(obstacles.map(({ message }) => message).join("; ")).not.toContain("the bed takes");
  });

  it("leaves as much wall between holes as the design asks for", () => {
    const asking = WHISTLE.replace("print: {", "print: { holeGap: 16,");
    const { text } = to(asking, "Bb4");
    expect(complaints(text)).not.toContain("hole/too-near");
    expect(complaints(to(WHISTLE, "Bb4").text.replace("print: {", "print: { holeGap: 16,"))).toContain("hole/too-near");
  });
});
