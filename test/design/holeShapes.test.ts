/** Holes that are oval, undercut or raised, from the text to the note. How near to finite elements: test/acoustics. */
import { describe, expect, it } from "vitest";
import { checkDocument } from "../../server/src/design/check.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";

/** The upper hand's second hole, with something added to its entry. */
const withHole = (more: string) =>
  WHISTLE.replace(/(name: L2, at: [\d.]+, diameter: [\d.]+)/, (entry) => `${entry}${more}`);

function analysisOf(text: string) {
  const { findings, analysis } = checkDocument(documentOf(fileOf(text)));
  return { codes: findings.map(({ code }) => code), findings, analysis };
}

/** Cents of every note above the same note of the plain whistle. */
function raisedBy(more: string): number[] {
  const plain = analysisOf(WHISTLE).analysis.fingerings;
  return analysisOf(withHole(more)).analysis.fingerings.map(({ cents }, i) => (cents ?? 0) - (plain[i]?.cents ?? 0));
}

const governed = (changes: readonly number[]) =>
  analysisOf(WHISTLE).analysis.fingerings.flatMap(({ fingering: { pattern } }, i) =>
    pattern?.startsWith("●○") ? [changes[i] ?? Number.NaN] : [],
  );

describe("a hole", () => {
  it("as long as it is wide, not undercut and not raised is the plain one", () => {
    const diameter = /name: L2, at: [\d.]+, diameter: ([\d.]+)/.exec(WHISTLE)?.[1];
    for (const change of raisedBy(`, length: ${diameter}, undercut: 0, raised: 0`)) expect(change).toBe(0);
  });

  it.each([
    [", length: 10", 1],
    [", undercut: 1.5", 1],
    [", raised: 1.5", -1],
    [", chimney: 4.5, raised: 1.5", -1],
  ])("changes its own notes as every maker expects, longer and undercut sharper, raised flatter: %s", (more, sign) => {
    const own = governed(raisedBy(more));
    expect(own.length).toBeGreaterThan(0);
    for (const change of own) {
      expect(change * sign).toBeGreaterThan(1);
      expect(change * sign).toBeLessThan(60);
    }
  });

  it("half a millimetre longer does what half a millimetre wider does, nearly", () => {
    const size = Number(/name: L2, at: [\d.]+, diameter: ([\d.]+)/.exec(WHISTLE)?.[1]);
    const longer = governed(raisedBy(`, length: ${size + 0.5}`));
    const wider = WHISTLE.replace(`diameter: ${size} `, `diameter: ${size + 0.5}, length: ${size} `);
    expect(wider).not.toBe(WHISTLE);
    const plain = analysisOf(WHISTLE).analysis.fingerings;
    const changes = analysisOf(wider).analysis.fingerings.map(({ cents }, i) => (cents ?? 0) - (plain[i]?.cents ?? 0));
    for (const [i, change] of governed(changes).entries())
      expect(Math.abs(change - (longer[i] ?? 0))).toBeLessThan(1.5);
  });

  it("printed at twice the size sounds an octave lower without losses, whatever its shape", () => {
    const shaped = withHole(", length: 10, undercut: 1, raised: 1").replace(/air: .*/, "air: { losses: false }");
    const hertz = (text: string) => analysisOf(text).analysis.fingerings.map(({ predictedHz }) => predictedHz ?? 0);
    const twice = hertz(`${shaped}print: { scale: 200 % }\n`);
    for (const [i, hz] of hertz(shaped).entries()) expect(Math.abs((2 * (twice[i] ?? 0)) / hz - 1)).toBeLessThan(1e-9);
  });
});

describe("findings", () => {
  it("an undercut wider than the bore is one, at the undercut", () => {
    const { findings } = analysisOf(withHole(", undercut: 9"));
    const found = findings.find(({ code }) => code === "hole/wider-than-bore");
    expect(found?.path).toEqual(["holes", 1, "undercut"]);
    expect(found?.message).toMatch(/Undercut it less/);
  });

  it("a long oval runs into its neighbour", () => {
    expect(analysisOf(withHole(", length: 60")).codes).toContain("hole/overlap");
  });

  it("an oval longer than a fingertip is one, at its length", () => {
    const found = analysisOf(withHole(", length: 14")).findings.find(({ code }) => code === "hands/hole-too-wide");
    expect(found?.path).toEqual(["holes", 1, "length"]);
    expect(found?.message).toMatch(/14 mm long/);
  });
});
