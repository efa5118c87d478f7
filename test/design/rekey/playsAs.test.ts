/** The key that an instrument plays in as a whole: made up soundings of a design in G4, in equal temperament. */
import { describe, expect, it } from "vitest";
import type { Analysis } from "../../../server/src/design/predict/analysis.js";
import { keyOf } from "../../../server/src/design/rekey/asIf.js";
import { targetRatio } from "../../../server/src/design/rekey/newTargets.js";
import { playsAs } from "../../../server/src/design/rekey/playsAs.js";
import { targetsIn } from "../../../server/src/design/rekey/targetsIn.js";
import { noteFromMidi } from "../../../server/src/music/note.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { instrumentOf, tube } from "../../support/marked.js";
import { note } from "../../support/vessel.js";

const TEXT = tube(
  "holes: [{ at: 200, diameter: 7 }]\nfingerings: [{ degree: 1, holes: x }, { note: C5, holes: o }, { degree: 8, holes: x, register: 2 }]\n",
);
/** G4, C5 and G5 at A4 = 440 Hz. */
const HZ = [-2, 3, 10].map((semitones) => 440 * 2 ** (semitones / 12));
const told = (cents: readonly (number | undefined)[], among?: readonly number[], text = TEXT) => {
  const analysis = {
    fingerings: cents.map((each, i) => ({
      predictedHz: each === undefined ? undefined : (HZ[i] ?? 0) * 2 ** (each / 1200),
    })),
  } as unknown as Analysis;
  const found = playsAs(documentOf(fileOf(text)).resolution, analysis, among && new Set(among));
  return (
    found && {
      key: found.key.name,
      cents: Number(found.cents.toFixed(3)),
      scatter: Number(found.scatterCents.toFixed(3)),
      between: found.between?.map(({ name }) => name),
    }
  );
};

describe("an instrument plays", () => {
  it("in the key to which its notes lie nearest on average, on the note or between two", () => {
    expect(told([0, 0, 0])).toEqual({ key: "G4", cents: 0, scatter: 0, between: undefined });
    expect(told([4.9, 3.9, 5.9])).toEqual({ key: "G4", cents: 4.9, scatter: 1, between: undefined });
    expect(told([6, 6, 9])).toEqual({ key: "G4", cents: 7, scatter: 2, between: ["G4", "Ab4"] });
    expect(told([-6, -6, -12])).toEqual({ key: "G4", cents: -8, scatter: 4, between: ["F#4", "G4"] });
    expect(told([160, 170, 150])).toEqual({ key: "A4", cents: -40, scatter: 10, between: ["Ab4", "A4"] });
    expect(told([-1240, -1230, -1220])).toEqual({ key: "G3", cents: -30, scatter: 10, between: ["F#3", "G3"] });
  });
  it("in the nearest key of an unequal temperament too, where a semitone is not 100 cents", () => {
    const uneven = `${TEXT}temperament: meantone\n`;
    const { resolution } = documentOf(fileOf(uneven));
    const own = targetsIn(resolution, undefined).map((hz) => hz ?? Number.NaN);
    const keys = [64, 65, 66, 67, 68, 69, 70].flatMap((midi) =>
      midi === 67 ? note("G4") : (noteFromMidi(midi) ?? []),
    );
    const steps = keys.map((key) => {
      const cents = targetsIn(resolution, key).map((hz = Number.NaN, i) => 1200 * Math.log2(hz / (own[i] ?? 1)));
      return { name: key.name, cents: cents.reduce((sum, each) => sum + each, 0) / cents.length };
    });
    for (let off = -240; off <= 240; off += 8) {
      const analysis = {
        fingerings: own.map((hz) => ({ predictedHz: hz * 2 ** (off / 1200) })),
      } as unknown as Analysis;
      const [nearest] = [...steps].sort((a, b) => Math.abs(off - a.cents) - Math.abs(off - b.cents));
      expect(playsAs(resolution, analysis)?.key.name, String(off)).toBe(nearest?.name);
    }
  });
  it("by the notes that sound and count", () => {
    expect(told([undefined, 20, 30])).toEqual({ key: "G4", cents: 25, scatter: 5, between: ["G4", "Ab4"] });
    expect(told([0, 90, 110], [1, 2])).toEqual({ key: "Ab4", cents: 0, scatter: 10, between: undefined });
    expect(told([undefined, undefined, undefined])).toBeUndefined();
    expect(told([0, 0, 0], [])).toBeUndefined();
  });
  it("in the key of its lowest note where it states none", () => {
    const keyless = tube(
      "holes: [{ at: 200, diameter: 7 }]\nfingerings: [{ note: C5, holes: o }, { note: A4, holes: x }]\n",
    ).replace("key: G4\n", "");
    expect(keyOf(instrumentOf(keyless))?.name).toBe("A4");
    expect(keyOf(instrumentOf(TEXT))?.name).toBe("G4");
    expect(keyOf(instrumentOf(tube().replace("key: G4\n", "")))).toBeUndefined();
    // C5 and A4 as they are.
    const [c, a] = [523.2511306, 440];
    const analysis = { fingerings: [c, a].map((predictedHz) => ({ predictedHz })) } as unknown as Analysis;
    expect(playsAs(documentOf(fileOf(keyless)).resolution, analysis)).toMatchObject({
      key: { name: "A4" },
      between: undefined,
    });
  });
});

it("the ratio of targets is their mean in pitch, of the keys where no note has both", () => {
  const analysis = (key: string, hz: readonly (number | undefined)[]) =>
    ({
      instrument: instrumentOf(tube(`key: ${key}\n`)),
      fingerings: hz.map((targetHz) => ({ targetHz })),
    }) as unknown as Analysis;
  expect(targetRatio(analysis("G4", [400, 600, 700]), analysis("G4", [200, 150, undefined]))).toBeCloseTo(
    Math.sqrt(8),
    9,
  );
  expect(targetRatio(analysis("A4", [undefined, 500]), analysis("A3", [400, undefined]))).toBeCloseTo(2, 9);
  expect(targetRatio({ ...analysis("A4", []), instrument: {} } as unknown as Analysis, analysis("A3", []))).toBe(1);
});
