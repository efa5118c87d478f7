/** From measured notes to the next print in one go: the mouth that they show, then every note in tune with it. */
import { describe, expect, it } from "vitest";
import { CannotCalibrate, type PrintedDesign } from "../../../server/src/design/calibrate/calibrate.js";
import { calibratedFile, corrected } from "../../../server/src/design/calibrate/correct.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { CannotRekey } from "../../../server/src/design/rekey/rekeyResult.js";
import { DEFAULT_SETTINGS } from "../../../server/src/design/settings.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { instrumentOf, numberAt } from "../../support/marked.js";

/** Without holes, so that its length is all there is to solve. */
const TUBE = `borewright: 1
family: duct
key: D5
air: { temperature: 20 }
mouth: { window: { width: 8.5, cutUp: 4 }, extra: 0 }
bore: [{ at: 0, diameter: 13 }, { at: 262, diameter: 13 }]
wall: 2
fingerings: [{ degree: 1 }]
`;
const hz = (text: string) => analyse(instrumentOf(text)).fingerings[0]?.predictedHz ?? Number.NaN;
const longer = (extra: number) => TUBE.replace("extra: 0", `extra: ${extra}`);
/** Played with a mouth so much longer than drawn. */
const played = (extra: number) => `${TUBE}measured: [{ note: D5, hz: ${hz(longer(extra)).toFixed(4)} }]\n`;
const printed = (text: string): PrintedDesign => {
  const { resolution } = documentOf(fileOf(text));
  return { resolution, analysis: analyse(resolution.instrument) };
};

describe("a design corrected by its measured notes", () => {
  it("has the mouth that they show, and is in tune with it", () => {
    const text = played(2.5);
    const { edits, file, refit, calibration } = corrected(fileOf(text), 0, "all", DEFAULT_SETTINGS);
    expect(calibration.fitted[0]?.after).toBeCloseTo(2.5, 1);
    expect(numberAt(file.text, "mouth.extra")).toBeCloseTo(2.5, 1);
    expect(numberAt(file.text, "bore.1.at")).toBe(262);
    // From the text as it was, all at once.
    const after = applyEdits(text, edits);
    expect(after).toBe(refit.text);
    expect(numberAt(after, "mouth.extra")).toBe(numberAt(file.text, "mouth.extra"));
    // D5 is five semitones above A4.
    expect(Math.abs(1200 * Math.log2(hz(after) / (440 * 2 ** (5 / 12))))).toBeLessThan(1);
  });

  it("regards earlier prints, too", () => {
    const { calibration } = corrected(fileOf(played(1)), 0, "all", DEFAULT_SETTINGS, { earlier: [printed(played(3))] });
    expect(calibration.earlier).toMatchObject({ prints: 1, notes: 1 });
    expect(calibration.fitted[0]?.after).toBeCloseTo(2, 1);
  });
});

describe("what cannot be corrected", () => {
  const refused = (text: string, index = 0) => {
    const told = [
      calibratedFile,
      (...[file, at]: readonly [ReturnType<typeof fileOf>, number]) => corrected(file, at, "all", DEFAULT_SETTINGS),
    ].map((work) => {
      try {
        work(fileOf(text), index, DEFAULT_SETTINGS);
      } catch (error) {
        return error as Error;
      }
      throw new Error("it was not refused");
    });
    expect(told[0]).toBeInstanceOf(CannotCalibrate);
    expect(told[1]).toBeInstanceOf(CannotRekey);
    return told.map(({ message }) => message);
  };
  // As a refit's reasons, whose sentence goes on.
  it.each([
    ["an instrument that is not there", played(1), 1, "there is no such instrument in the file"],
    [
      "a mouth that is part of something else, too",
      played(1)
        .replace(/mouth: (.*), extra: 0/, "mouth: &lips $1")
        .concat("x-spare: [*lips]\n"),
      0,
      "the mouth is written in a way that does not let it be changed alone: write it out",
    ],
    [
      "nothing measured",
      TUBE,
      0,
      "there are no measured notes (those set aside are of an earlier print): list some, `measured: [{ note: G4, hz: 389.4 }]`",
    ],
  ])("is told: %s", (_, text, index, why) => {
    expect(refused(text, index)).toEqual([`${why}.`, why]);
  });
});
