/** Calibration: notes made by an instrument of known mouth, air or shrinkage are measured; the fit must find what was hidden. */

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type CalibrateOptions,
  type Calibration,
  CannotCalibrate,
  calibrate,
} from "../../../server/src/design/calibrate/calibrate.js";
import { calibrationEdits } from "../../../server/src/design/calibrate/calibrationEdits.js";
import { closingLines } from "../../../server/src/design/calibrate/wording.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import type { Syntax } from "../../../server/src/document/designFile.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { type Played, played } from "../../support/played.js";

const withExtra = (text: string, extra: number) =>
  text.replace("cutUp: 4.5, labium: 1 }", `cutUp: 4.5, labium: 1 }\n  extra: ${extra}`);
const TRANSVERSE = WHISTLE.replace("family: duct", "family: transverse").replace(
  "window: { width: 9.82, cutUp: 4.5, labium: 1 }",
  "hole: { length: 11, width: 10 }",
);

/** A tenth of a hertz, as tuners show it. */
const sounded = (text: string, digits = 1) => played(text, digits);

function measuredIn(text: string, notes: readonly Played[], temperature?: number): string {
  const at = temperature === undefined ? "" : `, temperature: ${temperature}`;
  return `${text}measured:\n${notes.map(({ note, hz }) => `  - { note: ${note}, hz: ${hz}${at} }\n`).join("")}`;
}

function calibrated(
  text: string,
  syntax: Syntax = "yaml",
  options: CalibrateOptions = {},
): { calibration: Calibration; after: string } {
  const document = documentOf(fileOf(text, syntax));
  const calibration = calibrate(document.resolution, analyse(document.resolution.instrument), options);
  return { calibration, after: applyEdits(text, calibrationEdits(document, calibration)) };
}

const refusal = (text: string) => {
  try {
    calibrated(text);
  } catch (error) {
    return error instanceof CannotCalibrate ? error.message : String(error);
  }
  return undefined;
};

describe("calibration to measured notes", () => {
  it("finds the mouth that was hidden, by any one note or by all", () => {
    const number = fc.double({ min: -3, max: 6, noNaN: true }).map((value) => Number(value.toFixed(2)));
    fc.assert(
      fc.property(number, fc.subarray([0, 1, 2, 3, 4, 5, 6], { minLength: 1 }), (extra, chosen) => {
        const notes = sounded(withExtra(WHISTLE, extra), 4).filter((_, i) => chosen.includes(i));
        const { calibration } = calibrated(measuredIn(WHISTLE, notes));
        expect(calibration.fitted).toHaveLength(1);
        expect(calibration.fitted[0]?.after).toBeCloseTo(extra, 1);
        expect(calibration.rmsResidualCents).toBeLessThan(0.2);
      }),
      { numRuns: 15 },
    );
  });

  it("finds it under an embouchure hole and at a rim", () => {
    const rim = WHISTLE.replace("family: duct", "family: rim").replace(
      "window: { width: 9.82, cutUp: 4.5, labium: 1 }",
      "cover: 0.6",
    );
    for (const [plain, mouth] of [
      [TRANSVERSE, "hole: { length: 11, width: 10 }"],
      [rim, "cover: 0.6"],
    ] as const) {
      const hidden = plain.replace(mouth, `${mouth}\n  extra: 1.5`);
      const { calibration } = calibrated(measuredIn(plain, sounded(hidden, 4)));
      expect(calibration.fitted[0]?.after).toBeCloseTo(1.5, 1);
    }
  });

  it("gives less weight to a note stated as uncertain and to an outlier", () => {
    const notes = sounded(withExtra(WHISTLE, 2), 4);
    const off = (i: number, cents: number) =>
      notes.map((each, k) => (k === i ? { ...each, hz: each.hz * 2 ** (cents / 1200) } : each));
    const extraOf = (text: string) => Number(calibrated(text).calibration.fitted[0]?.after);
    const alike = extraOf(measuredIn(WHISTLE, off(2, 10)));
    const stated = extraOf(measuredIn(WHISTLE, off(2, 10)).replace(/(note: B4, hz: [\d.]+)/, "$1, uncertainty: 40"));
    expect(Math.abs(stated - 2)).toBeLessThan(0.2 * Math.abs(alike - 2));
    // Six times as far off, the pull is hardly more than twice: beyond 1.5 deviations (12.7 cents here) it grows no longer.
    const wild = extraOf(measuredIn(WHISTLE, off(2, 60)));
    expect(Math.abs(wild - 2)).toBeLessThan(2.2 * Math.abs(alike - 2));
  });

  it("refits a correction where the mouth is one", () => {
    const correction = (length: number) =>
      WHISTLE.replace("window: { width: 9.82, cutUp: 4.5, labium: 1 }", `correction: ${length}`);
    const { calibration } = calibrated(measuredIn(correction(20), sounded(correction(23.4), 4)));
    expect(calibration.fitted).toMatchObject([{ path: ["mouth", "correction"], before: 20 }]);
    expect(calibration.fitted[0]?.after).toBeCloseTo(23.4, 1);
  });

  it("asks for the air only when the mouth alone cannot explain the notes, and none states its temperature", () => {
    const warm = withExtra(WHISTLE, 3).replace("temperature: 22", "temperature: 31.5");
    const given = measuredIn(WHISTLE, sounded(warm, 3));
    const { calibration: asking, after: mouthOnly } = calibrated(given);
    expect(asking.fitted.map(({ quantity }) => quantity)).toEqual(["mouth"]);
    expect(mouthOnly).toContain("temperature: 22, humidity: 60");
    expect(closingLines(asking, documentOf(fileOf(given)).resolution.instrument).join()).toMatch(
      /Was it 31\.\d °C rather than 22\? .*--fit-air/,
    );
    const { calibration, after } = calibrated(given, "yaml", { fitAir: true });
    expect(calibration.withAir).toBeUndefined();
    expect(asking.withAir).toEqual(calibration);
    expect(calibration.fitted.map(({ quantity }) => quantity)).toEqual(["mouth", "temperature"]);
    expect(calibration.fitted[0]?.after).toBeCloseTo(3, 0);
    expect(calibration.fitted[1]?.after).toBeCloseTo(31.5, 0);
    expect(calibration.rmsResidualCents).toBeLessThan(0.5);
    expect(after).toMatch(/temperature: 31\.[3-7], humidity: 60/);
  });

  it("fits only the mouth to three scattered notes, though a second parameter would halve the sum of squares", () => {
    const cents = [0, -14, 10];
    const notes = sounded(withExtra(WHISTLE, 2), 4)
      .filter((_, i) => [0, 5, 6].includes(i))
      .map(({ note, hz }, i) => ({ note, hz: hz * 2 ** ((cents[i] ?? 0) / 1200) }));
    const { calibration } = calibrated(measuredIn(WHISTLE, notes));
    expect([calibration, calibration.withAir].flatMap((found) => found?.fitted ?? [])).toHaveLength(1);
  });

  it("asks for the shrinkage instead where the temperature was measured", () => {
    const shrunk = `${withExtra(WHISTLE, 3)}print: { shrinkage: 1.9 % }\n`;
    const { calibration, after } = calibrated(measuredIn(WHISTLE, sounded(shrunk, 3), 22));
    expect(calibration.fitted.map(({ quantity }) => quantity)).toEqual(["mouth", "shrinkage"]);
    expect(calibration.fitted[1]?.after).toBeCloseTo(1.9, 0);
    expect(analyse(documentOf(fileOf(after)).resolution.instrument).fingerings[0]?.predictedHz).toBeCloseTo(
      sounded(shrunk, 3)[0]?.hz ?? 0,
      0,
    );
  });

  it("starts from the shrinkage that is stated, and takes no parameter of that name for it", () => {
    const notes = sounded(`${withExtra(WHISTLE, 3)}print: { shrinkage: 1.9 % }\n`, 3);
    const named = WHISTLE.replace("parameters: { ", "parameters: { shrinkage: 0.4, ");
    expect(named).not.toBe(WHISTLE);
    expect(calibrated(measuredIn(named, notes, 22)).calibration.fitted[1]).toMatchObject({ before: 0 });
    const stated = measuredIn(`${WHISTLE}print: { holeUndersize: 0, shrinkage: 0.1 % }\n`, notes, 22);
    expect(calibrated(stated).calibration.fitted[1]).toMatchObject({ quantity: "shrinkage", before: 0.1 });
  });

  it("fits no second parameter to two notes, however badly they fit", () => {
    const notes = sounded(WHISTLE).slice(0, 2);
    const spoiled = notes.map(({ note, hz }, i) => ({ note, hz: hz * (i === 0 ? 1.02 : 0.98) }));
    const { calibration } = calibrated(measuredIn(WHISTLE, spoiled));
    expect(calibration.fitted).toHaveLength(1);
    expect(calibration.rmsResidualCents).toBeGreaterThan(10);
  });

  it("uses each note's own temperature: a cold workshop is not taken for a wrong mouth", () => {
    const cold = WHISTLE.replace("temperature: 22", "temperature: 15");
    const { calibration } = calibrated(measuredIn(WHISTLE, sounded(cold, 3), 15));
    expect(Math.abs(calibration.fitted[0]?.after ?? Number.NaN)).toBeLessThan(0.05);
  });

  it("finds the register of a fingering that the design does not list", () => {
    const hidden = withExtra(WHISTLE, 1);
    const [, , , , , , g5] = sounded(hidden, 3);
    // The all-closed fingering again, called by another name: its second register.
    const text = `${WHISTLE}measured:\n  - { note: Ab5, hz: ${g5?.hz}, holes: ●●●●●● }\n`;
    expect(calibrated(text).calibration.fitted[0]?.after).toBeCloseTo(1, 1);
  });

  it("writes one value and leaves every other byte, in YAML and JSON; the design then plays as measured and says so", () => {
    const notes = sounded(withExtra(WHISTLE, 2));
    const { after } = calibrated(measuredIn(WHISTLE, notes));
    const added = after.split("\n").filter((line) => !measuredIn(WHISTLE, notes).split("\n").includes(line));
    expect(added).toHaveLength(1);
    expect(added[0]).toMatch(/^ {2}extra: (1\.9\d?|2(\.0\d)?)$/);
    const { instrument } = documentOf(fileOf(after)).resolution;
    expect(instrument.calibrated).toBe(true);
    analyse(instrument).fingerings.forEach(({ predictedHz }, i) => {
      expect(1200 * Math.log2((predictedHz ?? Number.NaN) / (notes[i]?.hz ?? Number.NaN))).toBeCloseTo(0, 0);
    });
    // Calibrated once, there is nothing left to do.
    expect(calibrated(after).after).toBe(after);
  });

  it("writes JSON as JSON", () => {
    const json = JSON.stringify(
      {
        borewright: 1,
        family: "duct",
        key: "G4",
        mouth: { window: { width: 9.82, cutUp: 4.5, labium: 1 } },
        bore: [
          { at: 0, diameter: 16 },
          { at: 394.1, diameter: 16 },
        ],
        wall: 3,
        fingerings: [{ degree: 1, holes: "" }],
        measured: [{ note: "G4", hz: 380 }],
      },
      null,
      2,
    );
    const { after } = calibrated(json, "json");
    expect(JSON.parse(after).mouth.extra).toBeGreaterThan(0);
  });

  it("names the notes it could not use", () => {
    const { calibration } = calibrated(`${measuredIn(WHISTLE, sounded(WHISTLE))}  - { note: C#6, hz: 1100 }\n`);
    expect(calibration.unused).toEqual([["measured", 7]]);
  });

  it("says why it cannot", () => {
    expect(refusal(WHISTLE)).toMatch(/no measured notes/);
    expect(refusal(`${WHISTLE}measured:\n  - { note: C#6, hz: 1100 }\n`)).toMatch(/no fingering for any/);
    expect(refusal(measuredIn(WHISTLE.replace(/mouth:\n.*\n/, "mouth: ideal\n"), sounded(WHISTLE)))).toMatch(
      /textbook/,
    );
    expect(refusal(measuredIn(WHISTLE.replace("bore:", "x-bore:"), sounded(WHISTLE)))).toMatch(/cannot be predicted/);
  });

  it("copes with nonsense measurements", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 5 }), (hz) => {
        const notes = hz.map((value, i) => ({ note: ["G4", "A4", "B4", "C5", "D5"][i] ?? "", hz: value }));
        const refused = refusal(measuredIn(WHISTLE, notes));
        if (refused !== undefined) {
          expect(refused).toMatch(/^no mouth brings this design close to the measured notes/);
          return;
        }
        const { calibration, after } = calibrated(measuredIn(WHISTLE, notes));
        expect(Number.isFinite(calibration.fitted[0]?.after)).toBe(true);
        expect(Number.isFinite(calibration.rmsResidualCents)).toBe(true);
        expect(documentOf(fileOf(after)).findings.map(({ code }) => code)).not.toContain("mouth/extra");
      }),
      { numRuns: 10 },
    );
  });
});

describe("a mouth with more taken away than it has", () => {
  it("is reported at its place, and nothing is predicted", () => {
    const { resolution, findings } = documentOf(fileOf(withExtra(WHISTLE, -40)));
    expect(sharedColumn(resolution.instrument.body)).toBeUndefined();
    expect(findings).toMatchObject([{ code: "mouth/extra", path: ["mouth", "extra"], severity: "error" }]);
  });
});
