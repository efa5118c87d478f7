/** What takes too much work is left out and told: counted, so that the same is left out every time. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkDocument } from "../../../server/src/design/check.js";
import { fixesFor } from "../../../server/src/design/fix/fixHole.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { KnownSoundings } from "../../../server/src/design/predict/knownSoundings.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";

const PLENTY = 1e12;
const BIG_VESSEL = `borewright: 1
family: vessel
key: C5
mouth: { window: { width: 10, cutUp: 5 } }
wall: 4
vessel: { shape: ellipsoid, length: 90, width: 60, height: 50 }
holes: [ { diameter: 6, angle: 60 }, { diameter: 7, angle: 80 }, { diameter: 8, angle: 100 } ]
fingerings: [ { degree: 1, holes: xxx }, { degree: 2, holes: xxo }, { degree: 3, holes: xoo }, { degree: 4, holes: ooo } ]
`;
const PIPES = `borewright: 1
family: panpipe
key: C5
mouth: { cover: 0.5 }
wall: 2
pipes: [ { note: C5, length: 153.6, diameter: 15 }, { note: D5, length: 138, diameter: 15 }, { note: E5, length: 119.9, diameter: 15 } ]
`;

/** Frequencies within so much work, µs. */
function within(text: string, prediction: number, known?: KnownSoundings) {
  const allowance = { prediction, remedies: PLENTY };
  const { instrument } = documentOf(fileOf(text)).resolution;
  return analyse(instrument, undefined, known ? { allowance, known } : { allowance }).fingerings;
}

describe("a prediction beyond its budget", () => {
  it.each([
    ["tube", WHISTLE, 2000],
    ["vessel", BIG_VESSEL, 300],
    ["pan pipe", PIPES, 300],
  ])("of a %s ends after the first fingerings of the design, which sound as ever", (_, text, enough) => {
    const all = within(text, PLENTY).map(({ predictedHz }) => predictedHz);
    let most = 0;
    for (let share = 0; share <= 1; share += 1 / 16) {
      const found = within(text, share * enough);
      const left = found.findIndex(({ isBeyondBudget }) => isBeyondBudget);
      const told = left < 0 ? found.length : left;
      expect(found.slice(told).every(({ isBeyondBudget }) => isBeyondBudget)).toBe(true);
      expect(found.map(({ predictedHz }) => predictedHz)).toEqual(all.map((hz, i) => (i < told ? hz : undefined)));
      expect(told).toBeGreaterThanOrEqual(most);
      most = told;
      if (share === 0) expect(told).toBe(0);
    }
    expect(most).toBeGreaterThan(1);
  });

  it("leaves out the same, whatever was predicted before", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2000 }), fc.integer({ min: 0, max: 2000 }), (before, now) => {
        const known = new KnownSoundings();
        within(WHISTLE.replace(/^ {2}- \{ degree: 3.*\n/m, ""), before, known);
        within(WHISTLE, before, known);
        expect(within(WHISTLE, now, known)).toEqual(within(WHISTLE, now));
      }),
      { numRuns: 25 },
    );
  });

  it("is one finding, at the first fingering left out, and no other finding is about those", () => {
    const document = documentOf(fileOf(WHISTLE));
    const found = within(WHISTLE, 400);
    const first = found.findIndex(({ isBeyondBudget }) => isBeyondBudget);
    expect(first).toBeGreaterThan(0);
    const { findings } = checkDocument(document, undefined, { allowance: { prediction: 400, remedies: PLENTY } });
    const told = findings.filter(({ code }) => code === "model/not-predicted");
    expect(told).toHaveLength(1);
    expect(told[0]?.message).toContain(`${found.length - first} of ${found.length} fingerings`);
    expect(told[0]?.message).toContain("`borewright pitch` predicts them all");
    expect(told[0]?.path).toEqual(["fingerings", first]);
    expect(findings.map(({ code }) => code)).not.toContain("pitch/no-resonance");
  });

  it("never occurs in an ordinary design", () => {
    for (const text of [WHISTLE, BIG_VESSEL, PIPES])
      expect(checkDocument(documentOf(fileOf(text))).findings.map(({ code }) => code)).not.toContain(
        "model/not-predicted",
      );
  });
});

it("a remedy beyond its budget is not given; its fix is worked out when it is asked for", () => {
  const document = documentOf(fileOf(WHISTLE));
  const told = (remedies: number) =>
    checkDocument(document, undefined, { allowance: { prediction: PLENTY, remedies } }).findings.filter(
      ({ code }) => code === "pitch/out-of-tune",
    );
  const [whole] = told(PLENTY);
  expect(whole?.message).toMatch(/ cents .*Move L2 .* toward the mouth/);
  const [short] = told(0);
  expect(short?.message).toMatch(/ cents (flat|sharp)/);
  expect(whole?.message.startsWith(short?.message ?? "?")).toBe(true);
  expect(short?.message).not.toContain("ove ");
  const analysis = analyse(document.resolution.instrument, undefined, {
    allowance: { prediction: PLENTY, remedies: 0 },
  });
  const data = short?.data as { hole: number; fingerings: readonly number[] } | undefined;
  const fixes = fixesFor(document, analysis, data?.hole, data?.fingerings[0] ?? -1);
  expect(fixes.map(({ kind }) => kind)).toContain("move");
});
