/** Calibration of pan pipes and vessels: what their mouths were made to hide must be found again from the notes alone. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type CalibrateOptions,
  type Calibration,
  CannotCalibrate,
  calibrate,
} from "../../../server/src/design/calibrate/calibrate.js";
import { calibrationEdits } from "../../../server/src/design/calibrate/calibrationEdits.js";
import { closingLines, fittedLines } from "../../../server/src/design/calibrate/wording.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { bandsOf } from "../../../server/src/design/predict/band.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import type { Syntax } from "../../../server/src/document/designFile.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { parseNote } from "../../../server/src/music/note.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { panPipe, vessel } from "../../support/families.js";
import { expectFinding } from "../../support/marked.js";
import { type Played, played } from "../../support/played.js";

const withMeasured = (text: string, notes: readonly Played[], more = "") =>
  `${text}measured:   # by the quay\n${notes.map(({ note, hz }) => `  - { note: ${note}, hz: ${hz}${more} }\n`).join("")}`;

function calibrated(
  text: string,
  syntax: Syntax = "yaml",
  options: CalibrateOptions = {},
): { calibration: Calibration; after: string } {
  const document = documentOf(fileOf(text, syntax));
  const calibration = calibrate(document.resolution, analyse(document.resolution.instrument), options);
  return { calibration, after: applyEdits(text, calibrationEdits(document, calibration)) };
}

function refusal(text: string): string | undefined {
  try {
    calibrated(text);
    return undefined;
  } catch (error) {
    return error instanceof CannotCalibrate ? error.message : String(error);
  }
}

const between = (min: number, max: number, digits = 2) =>
  fc.double({ min, max, noNaN: true }).map((value) => Number(value.toFixed(digits)));

const NOTES = ["C5", "D5", "E5", "F5", "G5", "A5"];

/** A pan pipe as text, its `mouth` open to be written. */
const pipes = fc
  .record({
    cover: between(0, 0.7),
    wall: between(1, 3),
    tubes: fc.array(fc.record({ length: between(60, 250), diameter: between(9, 20) }), {
      minLength: 1,
      maxLength: NOTES.length,
    }),
    shrinkage: between(0, 1),
  })
  .map(({ cover, wall, tubes, shrinkage }) => {
    const list = tubes.map(
      ({ length, diameter }, i) => `  - { note: ${NOTES[i]}, length: ${length}, diameter: ${diameter} }\n`,
    );
    const rest = `wall: ${wall}   # outer\npipes:\n${list.join("")}print: { shrinkage: ${shrinkage} % }\n`;
    return (extra: string) =>
      `borewright: 1\nfamily: panpipe\nair: { temperature: 21 }\nmouth: { cover: ${cover}${extra} }  # lips\n${rest}`;
  });

/** A vessel as text: every shape, mouth at its end or side, blown by a windway or across. */
const vessels = fc
  .record({
    shape: fc.constantFrom(
      "shape: sphere, diameter: 55",
      "shape: ellipsoid, length: 80, width: 55, height: 50",
      "shape: ellipsoid, length: 80, width: 55, mouthAt: side",
      "volume: 90",
      "shape: tube, length: 100, diameter: 40",
      "shape: tube, length: 100, diameter: 40, mouthAt: side",
    ),
    mouth: fc.constantFrom("window: { width: 10, cutUp: 5 }", "hole: { length: 12, width: 10 }, cover: 0.3"),
    wall: between(2, 5),
    holes: fc.array(between(3, 8), { maxLength: 4 }),
  })
  .map(({ shape, mouth, wall, holes }) => {
    const list = holes.map((diameter) => `  - { diameter: ${diameter} }\n`).join("");
    const signs = Array.from(
      { length: holes.length + 1 },
      (_, open) => `  - { note: ${NOTES[open]}, holes: "${"○".repeat(open)}${"●".repeat(holes.length - open)}" }\n`,
    );
    const rest = `vessel: { ${shape} }\nwall: ${wall}   # clay\n${list && `holes:\n${list}`}fingerings:\n${signs.join("")}`;
    return (extra: string) =>
      `borewright: 1\nfamily: vessel\nkey: C5\nair: { temperature: 21 }\nmouth: { ${mouth}${extra} }  # lips\n${rest}`;
  });

describe.each([
  ["pan pipe", pipes, between(-1, 15)],
  ["vessel", vessels, between(-1, 12)],
] as const)("a %s", (_, designs, hidden) => {
  it("recovers the mouth it was played with, from all its notes or some, and every other byte stays", () => {
    const chosen = fc.subarray(NOTES, { minLength: 1 });
    fc.assert(
      fc.property(designs, hidden, fc.boolean(), chosen, (design, extra, begun, some) => {
        const notes = played(design(`, extra: ${extra}`));
        const wanted = notes.filter(({ note }) => some.includes(note));
        const measured = wanted.length > 0 ? wanted : notes;
        const { calibration, after } = calibrated(withMeasured(design(begun ? ", extra: 1" : ""), measured));
        expect(calibration.fitted).toMatchObject([
          { quantity: "mouth", path: ["mouth", "extra"], before: begun ? 1 : 0 },
        ]);
        const found = calibration.fitted[0]?.after ?? Number.NaN;
        // It is written to a hundredth of a millimetre; the notes are known to 1e-4 Hz.
        expect(Math.abs(found - extra)).toBeLessThan(0.011);
        for (const { residualCents } of calibration.notes) expect(Math.abs(residualCents)).toBeLessThan(0.5);
        expect(after).toBe(withMeasured(design(`, extra: ${found}`), measured));
        // It now plays what was measured, the notes left out as well.
        played(after).forEach(({ hz }, i) => {
          expect(1200 * Math.log2(hz / (notes[i]?.hz ?? Number.NaN))).toBeCloseTo(0, 0);
        });
      }),
      { numRuns: 25 },
    );
  });
});

const PIPES = panPipe("key: C5\nwall: 2\nair: { temperature: 22 }").replace(
  "length: 124, diameter: 13 }",
  "length: 124, diameter: 13 }\n  - { note: C6, length: 72, diameter: 10 }\n  - { note: E6, length: 55, diameter: 9 }",
);
const VESSEL = vessel(
  "air: { temperature: 22 }\nholes: [{ diameter: 6 }, { diameter: 5 }]\nfingerings: [{ note: C5, holes: ●● }, { note: E5, holes: ○● }, { note: G5, holes: ○○ }]",
);
const hiding = (text: string, extra: number) =>
  text.includes("mouth:\n")
    ? text.replace("mouth:\n", `mouth:\n  extra: ${extra}\n`)
    : text.includes("mouth:")
      ? text.replace(/^(mouth: .*) \}$/m, `$1, extra: ${extra} }`)
      : `${text}mouth: { extra: ${extra} }\n`;

it.each([
  ["vessel", VESSEL],
  ["whistle", WHISTLE],
])("of a %s finds how much smaller its holes came out, which no mouth explains", (_, text) => {
  const small = `${hiding(text, 1)}print: { holeUndersize: 0.62 }\n`;
  const { calibration, after } = calibrated(withMeasured(text, played(small), ", temperature: 22"));
  expect(calibration.fitted.map(({ quantity }) => quantity)).toEqual(["mouth", "undersize"]);
  expect(calibration.fitted.map((value) => value.after)).toEqual([1, 0.62]);
  expect(after).toMatch(/^print: \{ holeUndersize: 0\.62 \}$/m);
});

describe.each([
  ["pan pipe", PIPES],
  ["vessel", VESSEL],
])("a %s, as every instrument,", (_, text) => {
  it("asks for the air only when the mouth alone cannot explain the notes", () => {
    const warm = hiding(text, 3).replace("temperature: 22", "temperature: 31.5");
    const given = withMeasured(text, played(warm));
    expect(calibrated(given).calibration.fitted.map(({ quantity }) => quantity)).toEqual(["mouth"]);
    const { calibration, after } = calibrated(given, "yaml", { fitAir: true });
    expect(calibration.fitted.map(({ quantity }) => quantity)).toEqual(["mouth", "temperature"]);
    expect(calibration.fitted[0]?.after).toBeCloseTo(3, 0);
    expect(calibration.fitted[1]?.after).toBeCloseTo(31.5, 0);
    expect(after).toMatch(/air: \{ temperature: 31\.\d \}/);
  });

  it("and for the shrinkage where the temperature was measured", () => {
    const shrunk = `${hiding(text, 3)}print: { shrinkage: 1.9 % }\n`;
    const { calibration, after } = calibrated(withMeasured(text, played(shrunk), ", temperature: 22"));
    expect(calibration.fitted.map(({ quantity }) => quantity)).toEqual(["mouth", "shrinkage"]);
    expect(calibration.fitted[1]?.after).toBeCloseTo(1.9, 0);
    played(after).forEach(({ hz }, i) => {
      expect(1200 * Math.log2(hz / (played(shrunk)[i]?.hz ?? Number.NaN))).toBeCloseTo(0, 0);
    });
  });

  it("takes each note's own temperature", () => {
    const cold = text.replace("temperature: 22", "temperature: 15");
    const { calibration } = calibrated(withMeasured(text, played(cold), ", temperature: 15"));
    expect(Math.abs(calibration.fitted[0]?.after ?? Number.NaN)).toBeLessThan(0.02);
  });

  it("fits no second parameter to two notes that contradict each other, and gives the residual of each", () => {
    const spoiled = played(text)
      .slice(0, 2)
      .map(({ note, hz }, i) => ({ note, hz: hz * (i === 0 ? 1.02 : 0.98) }));
    const document = documentOf(fileOf(withMeasured(text, spoiled)));
    const { calibration } = calibrated(withMeasured(text, spoiled));
    expect(calibration.fitted).toHaveLength(1);
    expect(calibration.rmsResidualCents).toBeGreaterThan(10);
    expect(calibration.notes.map(({ residualCents }) => Math.sign(residualCents))).toEqual([1, -1]);
    expect(closingLines(calibration, document.resolution.instrument)[0]).toMatch(
      /^2 measured notes: .* is left at [+−]\d/,
    );
  });

  it("copes with nonsense measurements", () => {
    const hz = fc.array(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 3 });
    fc.assert(
      fc.property(hz, (values) => {
        const notes = played(text).slice(0, values.length);
        const measured = notes.map(({ note }, i) => ({ note, hz: values[i] ?? 0 }));
        const refused = refusal(withMeasured(text, measured));
        if (refused !== undefined) {
          expect(refused).toMatch(/^no mouth brings this design close to the measured notes/);
          return;
        }
        const { calibration, after } = calibrated(withMeasured(text, measured));
        expect(Number.isFinite(calibration.fitted[0]?.after)).toBe(true);
        expect(Number.isFinite(calibration.rmsResidualCents)).toBe(true);
        // What it writes is an instrument still.
        for (const played of analyse(documentOf(fileOf(after)).resolution.instrument).fingerings)
          expect(played.predictedHz).toBeGreaterThan(0);
      }),
      { numRuns: 10 },
    );
  });

  it("marks the instrument as calibrated and narrows the band", () => {
    const { after } = calibrated(withMeasured(text, played(hiding(text, 2))));
    const [before, now] = [text, after].map((design) => {
      const { resolution } = documentOf(fileOf(design));
      return { resolution, bands: bandsOf(resolution, analyse(resolution.instrument)) };
    });
    expect(before?.resolution.instrument.calibrated).toBe(false);
    expect(now?.resolution.instrument.calibrated).toBe(true);
    now?.bands.forEach((band, i) => {
      expect(band?.cents).toBeLessThan((before?.bands[i]?.cents ?? 0) - 3);
    });
    // Nothing is left to do.
    expect(calibrated(after).after).toBe(after);
  });

  it("takes its mouth along when it is redrawn in another key", () => {
    const to = parseNote("A4");
    if (to === undefined) throw new Error("A4");
    const before = hiding(text, 2.5);
    const { text: after } = rekey(fileOf(before), 0, to, "redraw");
    const grown = (name: string) => {
      const [now, then] = [after, before].map((design) => Number(new RegExp(`${name}: ([\\d.]+)`).exec(design)?.[1]));
      return (now ?? Number.NaN) / (then ?? Number.NaN);
    };
    expect(Math.abs(grown("extra") - 1)).toBeGreaterThan(0.1);
    // Both are written to a hundredth of a millimetre.
    expect(grown("extra")).toBeCloseTo(grown("wall"), 1);
  });
});

describe("the pipes of a pan pipe", () => {
  it("need no `mouth` in the design: it is written", () => {
    const bare = PIPES.replace(/^mouth.*\n/m, "");
    const text = withMeasured(bare, played(hiding(bare, 2)));
    const { after, calibration } = calibrated(text);
    const added = after.split("\n").filter((line) => !text.split("\n").includes(line));
    expect(added).toEqual([`mouth: { extra: ${calibration.fitted[0]?.after} }`]);
    expect(calibration.fitted[0]?.after).toBeCloseTo(2, 1);
    expect(documentOf(fileOf(after)).resolution.instrument.calibrated).toBe(true);
  });

  it("have one mouth, and the words say so", () => {
    const text = withMeasured(PIPES, played(hiding(PIPES, 2)).slice(0, 2));
    const { calibration } = calibrated(text);
    const { instrument } = documentOf(fileOf(text)).resolution;
    expect(fittedLines(calibration, instrument)).toEqual([
      `mouth.extra: 0 → ${calibration.fitted[0]?.after} mm, alike for all pipes`,
    ]);
    expect(calibration.notes.map(({ name }) => name)).toEqual(["C5", "D5"]);
  });

  it("may have a `correction` for a mouth, which is fitted instead", () => {
    const correction = (length: number) => `${PIPES}mouth: { correction: ${length} }\n`;
    const { calibration } = calibrated(withMeasured(correction(9), played(correction(6.5))));
    expect(calibration.fitted).toMatchObject([{ path: ["mouth", "correction"], before: 9 }]);
    expect(calibration.fitted[0]?.after).toBeCloseTo(6.5, 1);
  });

  it("do not all have to be known: those without a length are left out", () => {
    const text = withMeasured(PIPES, played(hiding(PIPES, 2))).replace("length: 140, ", "");
    const { calibration } = calibrated(text);
    expect(calibration.unused).toEqual([["measured", 1]]);
    expect(calibration.notes).toHaveLength(4);
    expect(calibration.fitted[0]?.after).toBeCloseTo(2, 1);
  });

  it("are not asked for notes that none of them is for", () => {
    const strange = [{ note: "A6", hz: 1700 }];
    const { calibration } = calibrated(withMeasured(PIPES, [...played(PIPES), ...strange]));
    const { instrument } = documentOf(fileOf(PIPES)).resolution;
    expect(closingLines(calibration, instrument)).toContain(
      "Not used, because the design has no such pipe: measured note 6.",
    );
    expect(refusal(withMeasured(PIPES, strange))).toMatch(/no pipe for any of the measured notes/);
    expectFinding(
      `${PIPES}measured: [{ note: [[A6]], hz: 1700, holes: "" }]\n`,
      "measured/no-fingering",
      "no pipe for A6",
    );
  });

  it("narrow and wide, have one finding about an extra that the narrow ones cannot spare", () => {
    const design = "borewright: 1\nfamily: panpipe\nmouth: { cover: 0, extra: [[-6]] }\npipes:\n";
    const tubes = "  - { note: C5, length: 153, diameter: 25 }\n  - { note: D5, length: 138, diameter: 8 }\n";
    expectFinding(`${design}${tubes}`, "mouth/extra", "nothing would be left");
  });
});

describe("a vessel", () => {
  it("is fitted to a fingering that the design does not list, where it is drawn with the note", () => {
    const [unlisted] = played(hiding(VESSEL, 2).replace("holes: ●● }", "holes: ●○ }"));
    const text = `${VESSEL}measured: [{ note: F5, hz: ${unlisted?.hz}, holes: ●○ }]\n`;
    expect(calibrated(text).calibration.fitted[0]?.after).toBeCloseTo(2, 1);
  });

  it("is not fitted to a second register, which it does not have", () => {
    const text = VESSEL.replace("{ note: G5, holes: ○○ }", "{ note: G5, holes: ○○, register: 2 }");
    expect(
      calibrated(
        withMeasured(text, [
          { note: "C5", hz: 500 },
          { note: "G5", hz: 900 },
        ]),
      ).calibration.unused,
    ).toEqual([["measured", 1]]);
  });
});

it("says why it cannot, in every family", () => {
  for (const text of [PIPES, VESSEL]) expect(refusal(text)).toMatch(/no measured notes/);
  const notes = [{ note: "C5", hz: 520 }];
  expect(refusal(withMeasured(`${PIPES}mouth: ideal\n`, notes))).toMatch(/textbook/);
  expect(refusal(withMeasured(VESSEL.replace("vessel: {", "x-vessel: {"), notes))).toMatch(/cannot be predicted yet/);
  expect(refusal(withMeasured(VESSEL, [{ note: "A6", hz: 1700 }]))).toMatch(/no fingering for any/);
});

it("writes JSON as JSON", () => {
  const pipe = { borewright: 1, family: "panpipe", pipes: [{ note: "C5", length: 150, diameter: 14 }] };
  const json = JSON.stringify({ ...pipe, measured: [{ note: "C5", hz: 525 }] }, null, 2);
  const { after, calibration } = calibrated(json, "json");
  expect(JSON.parse(after)).toEqual({ ...JSON.parse(json), mouth: { extra: calibration.fitted[0]?.after } });
});
