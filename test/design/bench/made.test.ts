/** A made thing by its measured notes: what it was measured in, and how far each note is from what its drawing sounds. */
import { describe, expect, it } from "vitest";
import { madeOf } from "../../../server/src/design/bench/made.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { instrumentOf, tube } from "../../support/marked.js";

const made = (...measured: readonly string[]) => {
  const notes = measured.map((note) => `  - { ${note} }\n`).join("");
  const holes =
    "holes: [{ name: L1, at: 250, diameter: 8 }]\nfingerings: [{ note: G4, holes: ● }, { note: B4, holes: ○ }]\n";
  return madeOf(analyse(instrumentOf(tube(`air: { temperature: 22 }\n${holes}measured:\n${notes}`))));
};

describe("the air that notes were measured in", () => {
  it.each([
    [["note: G4, hz: 440, temperature: 19", "note: B4, hz: 580, temperature: 19"], 19],
    [["note: G4, hz: 440, temperature: 19", "note: B4, hz: 580, temperature: 21"], undefined],
    // A note that states none was played in the design's air.
    [["note: G4, hz: 440, temperature: 19", "note: B4, hz: 580"], undefined],
    [["note: G4, hz: 440, temperature: 22", "note: B4, hz: 580"], 22],
    [["note: G4, hz: 440"], 22],
  ])("%s", (notes, degrees) => {
    expect(made(...notes).measuredAt).toBe(degrees);
    expect(made(...notes).temperature).toBe(22);
  });
});

describe("a note that was measured", () => {
  it("is off by the mean of its readings, the surer the more there are", () => {
    const [once] = made("note: G4, hz: 440, uncertainty: 4").notes;
    const [often] = made(
      "note: G4, hz: 440, uncertainty: 4",
      "note: G4, hz: 450, uncertainty: 4",
      "note: G4, hz: 445, uncertainty: 4",
      "note: G4, hz: 445, uncertainty: 4",
    ).notes;
    expect(once?.uncertainty).toBe(4);
    // Four readings halve it (the mean of independent readings).
    expect(often?.uncertainty).toBe(2);
    const cents = (hz: number) => 1200 * Math.log2(hz / 440);
    const mean = (cents(450) + 2 * cents(445)) / 4;
    expect((often?.offset ?? 0) - (once?.offset ?? 0)).toBeCloseTo(mean, 6);
  });
  it("leaves the others as the model has them, and unsure", () => {
    const [, other] = made("note: G4, hz: 440, uncertainty: 4").notes;
    expect(other).toMatchObject({ name: "B4", offset: 0, uncertainty: undefined });
    expect(other?.unsure).toBeGreaterThan(4);
  });
});
