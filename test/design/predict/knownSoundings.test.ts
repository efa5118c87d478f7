/** What an edit costs: only what it touched is predicted again, and the prediction is the same. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { KnownSoundings } from "../../../server/src/design/predict/knownSoundings.js";
import { readDesign } from "../../../server/src/document/read.js";
import { WHISTLE } from "../../support/designs.js";

function instrumentOf(text: string) {
  const [document] = readDesign(text, "yaml").documents;
  if (document === undefined) throw new Error("no design");
  return document.resolution.instrument;
}

/** Frequencies of all fingerings, and at how many frequencies the scan asked whether to stop. */
function predicted(text: string, known?: KnownSoundings) {
  let asked = 0;
  const shouldStop = () => {
    asked++;
    return false;
  };
  const analysis = analyse(instrumentOf(text), undefined, known ? { known, shouldStop } : { shouldStop });
  return { hz: analysis.fingerings.map(({ predictedHz }) => predictedHz), asked };
}

const PIPES = `borewright: 1
family: panpipe
key: C5
air: { temperature: 22, humidity: 60 }
mouth: { cover: 0.5 }
wall: 2
pipes:
  - { note: C5, length: 153.6, diameter: 15 }
  - { note: D5, length: 138, diameter: 15 }
  - { note: E5, length: 119.9, diameter: 15 }
`;

describe("a second analysis", () => {
  it("of the same column in another temperament asks nothing of the physics", () => {
    const known = new KnownSoundings();
    const first = predicted(WHISTLE, known);
    const second = predicted(WHISTLE.replace("key: G4", "key: G4\ntemperament: just"), known);
    expect(first.asked).toBeGreaterThan(0);
    expect(second).toEqual({ hz: first.hz, asked: 0 });
  });

  it("with one fingering more costs that one alone", () => {
    const known = new KnownSoundings();
    const before = predicted(WHISTLE, known);
    const more = `${WHISTLE}  - { note: E5, holes: ●○●○○○ }\n`;
    const after = predicted(more, known);
    expect(after.hz).toEqual(predicted(more).hz);
    expect(after.hz).toHaveLength(before.hz.length + 1);
    expect(after.asked).toBeGreaterThan(0);
    expect(after.asked).toBeLessThan(before.asked / 2);
  });

  it("with one pipe shorter costs that pipe alone", () => {
    const known = new KnownSoundings();
    const before = predicted(PIPES, known);
    const shorter = PIPES.replace("length: 138", "length: 137");
    const after = predicted(shorter, known);
    expect(after.hz).toEqual(predicted(shorter).hz);
    expect(after.hz[1]).toBeGreaterThan(before.hz[1] ?? Number.NaN);
    expect(after.asked).toBeGreaterThan(0);
    expect(after.asked).toBeLessThan(before.asked / 2);
  });

  it("of another column or in another air is one of its own", () => {
    const known = new KnownSoundings();
    const before = predicted(WHISTLE, known);
    for (const text of [
      WHISTLE.replace("diameter: 8.5", "diameter: 9"),
      WHISTLE.replace("temperature: 22", "temperature: 12"),
    ]) {
      const after = predicted(text, known);
      expect(after.hz).toEqual(predicted(text).hz);
      expect(after.hz).not.toEqual(before.hz);
    }
  });

  it("of a column from many edits ago is worked out again: memory is bounded, and what was asked last is kept", () => {
    const known = new KnownSoundings();
    const state = (n: number) => PIPES.replace("length: 138", `length: ${138 + n / 100}`);
    const first = predicted(state(1), known);
    // 64 columns: two pipes that stay, and as many states of the third.
    for (let n = 2; n <= 62; n++) predicted(state(n), known);
    expect(predicted(state(1), known).asked).toBe(0);
    predicted(state(63), known);
    expect(predicted(state(1), known)).toEqual({ hz: first.hz, asked: 0 });
    expect(predicted(state(3), known).asked).toBe(0);
    const again = predicted(state(2), known);
    expect(again.asked).toBeGreaterThan(0);
    expect(again.hz).toEqual(predicted(state(2)).hz);
  });
});
