/** What a calibration fitted and what it left, in words. */
import { describe, expect, it } from "vitest";
import type { Calibration, FittedValue } from "../../../server/src/design/calibrate/calibrate.js";
import { calibrationEdits } from "../../../server/src/design/calibrate/calibrationEdits.js";
import { mouthUnknown, secondUnknowns } from "../../../server/src/design/calibrate/unknowns.js";
import { calibrationInWords, closingLines, fittedLines } from "../../../server/src/design/calibrate/wording.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import type { Syntax } from "../../../server/src/document/designFile.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { panPipe } from "../../support/families.js";
import { instrumentOf } from "../../support/marked.js";

const whistle = instrumentOf(WHISTLE);
const pipes = instrumentOf(panPipe(""));
const MOUTH: FittedValue = { quantity: "mouth", path: ["mouth", "extra"], before: 0, after: -1.24, decimals: 2 };
const AIR: FittedValue = {
  quantity: "temperature",
  path: ["air", "temperature"],
  before: 22,
  after: 17.5,
  decimals: 1,
};
const SHRINKAGE: FittedValue = {
  quantity: "shrinkage",
  path: ["print", "shrinkage"],
  before: 0,
  after: 0.3,
  decimals: 2,
};
const UNDERSIZE: FittedValue = {
  quantity: "undersize",
  path: ["print", "holeUndersize"],
  before: 0.2,
  after: 0.31,
  decimals: 2,
};
const note = (name: string, residualCents: number) => ({ path: [], name, hz: 440, beforeCents: 0, residualCents });
const calibration = (changes: Partial<Calibration>): Calibration => ({
  fitted: [MOUTH],
  notes: [note("G4", 1.2), note("A4", -3.4), note("B4", 2)],
  unused: [],
  rmsBeforeCents: 17.26,
  rmsResidualCents: 2.14,
  ...changes,
});

describe("a calibration in words", () => {
  it("names what was fitted, with its value and what is left", () => {
    expect(calibrationInWords(calibration({}), whistle)).toBe(
      "the mouth to the measured notes (extra −1.24 mm; residual 2.1 cents)",
    );
    expect(calibrationInWords(calibration({ fitted: [MOUTH, AIR] }), whistle)).toBe(
      "the mouth and the air's temperature to the measured notes (extra −1.24 mm, 17.5 °C; residual 2.1 cents)",
    );
    expect(calibrationInWords(calibration({ fitted: [MOUTH, SHRINKAGE] }), pipes)).toBe(
      "the mouth of all pipes and the shrinkage to the measured notes (extra −1.24 mm, 0.3 %; residual 2.1 cents)",
    );
    expect(calibrationInWords(calibration({ fitted: [MOUTH, UNDERSIZE] }), whistle)).toBe(
      "the mouth and the holes' undersize to the measured notes (extra −1.24 mm, holeUndersize 0.31 mm; residual 2.1 cents)",
    );
  });

  it("has a line for each value that changes, with its unit", () => {
    const all = calibration({ fitted: [MOUTH, AIR, SHRINKAGE, UNDERSIZE, { ...AIR, after: 22 }] });
    const lines = (mouth: string, unit = "mm") => [
      `mouth.extra: 0 → -1.24 ${mouth}`,
      "air.temperature: 22 → 17.5 °C",
      "print.shrinkage: 0 → 0.3 %",
      `print.holeUndersize: 0.2 → 0.31 ${unit}`,
    ];
    expect(fittedLines(all, whistle)).toEqual(lines("mm"));
    expect(fittedLines(all, pipes)).toEqual(lines("mm, alike for all pipes"));
    const inches = instrumentOf(WHISTLE.replace("tolerance", "units: in\ntolerance"));
    expect(fittedLines(all, inches)).toEqual(lines("in", "in"));
  });

  it("closes with what is left, the note farthest off, and what could not be used", () => {
    expect(closingLines(calibration({}), whistle)).toEqual([
      "3 measured notes: 17.3 cents off before (root mean square), 2.1 left; A4 is left at −3.4.",
    ]);
    expect(closingLines(calibration({ notes: [note("G4", 1.2)] }), whistle)).toEqual([
      "1 measured note: 17.3 cents off before (root mean square), 2.1 left; G4 is left at +1.2.",
    ]);
    const unused = [
      ["measured", 1],
      ["measured", 3],
    ];
    expect(closingLines(calibration({ notes: [], unused }), whistle)).toEqual([
      "0 measured notes: 17.3 cents off before (root mean square), 2.1 left.",
      "Not used, because the design has no such fingering: measured note 2, measured note 4.",
    ]);
    expect(closingLines(calibration({ unused }), pipes)[1]).toBe(
      "Not used, because the design has no such pipe: measured note 2, measured note 4.",
    );
  });

  it("asks for the air where another would explain more", () => {
    const withAir = calibration({ fitted: [MOUTH, AIR], rmsResidualCents: 0.86 });
    expect(closingLines(calibration({ withAir }), whistle)[1]).toBe(
      "Was it 17.5 °C rather than 22? That would leave 0.9 cents instead of 2.1. If you did not measure the temperature, `calibrate --fit-air` assumes that.",
    );
  });
});

describe("what was fitted is written", () => {
  const written = (text: string, fitted: readonly FittedValue[], syntax: Syntax = "yaml") =>
    applyEdits(text, calibrationEdits(documentOf(fileOf(text, syntax)), calibration({ fitted })));
  it("beside what is there, in place of it, or as an entry of its own", () => {
    const [head, tail] = ["cutUp: 4.5, labium: 1 }", "\n  extra: "];
    const extra = (value: string) => WHISTLE.replace(head, `${head}${tail}${value}`);
    expect(written(extra("2"), [{ ...MOUTH, before: 2 }])).toBe(extra("-1.24"));
    expect(written(WHISTLE, [MOUTH])).toContain("  extra: -1.24\n");
    expect(written(WHISTLE, [SHRINKAGE])).toContain("\nprint: { shrinkage: 0.3 }\n");
    expect(written(panPipe(""), [{ ...MOUTH, after: 0 }])).toContain("\nmouth: { extra: 0 }\n");
    const json = '{ "borewright": 1, "family": "panpipe" }';
    expect(JSON.parse(written(json, [MOUTH], "json"))).toEqual({
      borewright: 1,
      family: "panpipe",
      mouth: { extra: -1.24 },
    });
  });
  it("only where it changes, or says so for the first time", () => {
    const extra = WHISTLE.replace("labium: 1 }", "labium: 1 }\n  extra: 2.0");
    expect(written(extra, [{ ...MOUTH, before: 2, after: 2 }])).toBe(extra);
    expect(written(WHISTLE, [{ ...MOUTH, after: 0 }])).not.toBe(WHISTLE);
  });
});

it("what may be fitted is written to a hundredth of a millimetre, or as fine in inches", () => {
  const decimals = (text: string) => {
    const analysis = analyse(instrumentOf(`${text}measured: [{ note: G4, hz: 390, temperature: 20 }]\n`));
    return [mouthUnknown(analysis), ...secondUnknowns(analysis, 0)].map(
      (each) => `${each?.quantity} ${each?.decimals}`,
    );
  };
  expect(decimals(WHISTLE)).toEqual(["mouth 2", "shrinkage 2", "undersize 2"]);
  expect(decimals(WHISTLE.replace("tolerance", "units: in\ntolerance"))).toEqual([
    "mouth 4",
    "shrinkage 2",
    "undersize 4",
  ]);
});
