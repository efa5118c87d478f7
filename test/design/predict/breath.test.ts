/**
 * The breath of each note, told of whole designs. Against a reference in Python made for this project before (docs/breath.md), which takes the whole
 * impedance curve instead of two resonances: its thresholds ±8 %, jumps and falls ±6 %, slopes ±16 % (8 in the
 * first register: far from its resonance the reactance is no straight line).
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { drained } from "../../../server/src/acoustics/steps.js";
import { type Breath, breathOf, type NoteBreath } from "../../../server/src/design/predict/breath.js";
import { breathCaveat } from "../../../server/src/design/predict/breathWording.js";
import { voicingEffectSteps } from "../../../server/src/design/predict/voicingEffect.js";
import { checked, WHISTLE } from "../../support/designs.js";

const example = (file: string) => readFileSync(new URL(`../../../examples/${file}`, import.meta.url), "utf8");
const analysisOf = (text: string) => checked(text).analysis;
const breath = (text: string) => breathOf(analysisOf(text));
/** With the window that the reference was given. */
const QUAY = example("quay-whistle.bore.yaml").replace(
  "window: { width: 8.9, cutUp: 4.3 }",
  "window: { width: 10, cutUp: 4.5, labium: 1 }",
);
/** The windway the reference was given. */
const withHeight = (text: string, height: number) =>
  text.replace("cutUp: 4.5, labium: 1 }", `cutUp: 4.5, labium: 1 }\n  windway: { height: ${height} }`);

/** Within so many percent of the reference. */
function near(found: number | undefined, reference: number, percent: number) {
  expect(Math.abs((found ?? Number.NaN) / reference - 1)).toBeLessThan(percent / 100);
}

describe("the breath of a whistle", () => {
  const notes = breath(withHeight(QUAY, 1))?.notes as NoteBreath[];

  // Note, speaks from (register 2: falls below), ordinary, cents for a quarter more.
  it.each([
    ["G4", 0, 49, 149, 6.8],
    ["D5", 4, 102, 277, 9.0],
    ["F#5", 6, 154, 390, 10.5],
    ["G5", 7, 242, 427, 6.6],
    ["C6", 10, 430, 656, 7.9],
    ["E6", 12, 737, 924, 9.5],
  ])("of %s is the reference's", (_, index, from, ordinary, quarter) => {
    near(notes[index]?.from, from, 8);
    near(notes[index]?.ordinary, ordinary, 2);
    near(notes[index]?.centsPerTenth, (quarter * Math.log(1.1)) / Math.log(1.25), index < 7 ? 8 : 16);
  });

  it("says which note needs more than its neighbours, and where the lowest leaves", () => {
    expect(notes.map(({ needsMore }) => needsMore).indexOf(true)).toBe(12);
    expect(notes.filter(({ needsMore }) => needsMore)).toHaveLength(1);
    near(notes[0]?.leavesAt, 536, 6);
    // Beyond five times the ordinary breath the reference calls it worthless: F#5, and whole registers above.
    expect(notes.slice(6).map(({ leavesAt }) => leavesAt)).toEqual(Array(7).fill(undefined));
  });

  it("is in tune with the lowest where its pull makes up for what the design leaves", () => {
    // A hole moved toward the mouth makes its note sharp: less breath brings it into tune.
    const moved = breath(withHeight(QUAY, 1).replace("lower: 270.8", "lower: 270.4"))?.notes;
    expect(moved?.[3]?.inTuneAt).toBeLessThan(notes[3]?.inTuneAt ?? 0);
    expect(notes[0]?.inTuneAt).toBeCloseTo(notes[0]?.ordinary ?? 0, 3);
    // Far off, no breath does.
    expect(breath(withHeight(QUAY, 1).replace("lower: 270.8", "lower: 282"))?.notes[3]?.inTuneAt).toBeUndefined();
  });

  it("asks for more air through a higher windway, for more pressure over a longer cut-up", () => {
    const [height, cutUp] = drained(voicingEffectSteps(analysisOf(withHeight(QUAY, 1))));
    near(height?.after.air, ((height?.before.air ?? 0) * 1.1) / 1.0, 1);
    near(height?.after.ordinary, height?.before.ordinary ?? 0, 1);
    // The reference: 51 → 65 Pa at 5 mm; the line goes with the square.
    near((cutUp?.after.from ?? 0) / (cutUp?.before.from ?? 1), 65 / 51, 7);
    near((cutUp?.after.ordinary ?? 0) / (cutUp?.before.ordinary ?? 1), (5 / 4.5) ** 2, 3);
  });

  it("grows by the friction of a long windway", () => {
    const long = QUAY.replace(
      "cutUp: 4.5, labium: 1 }",
      "cutUp: 4.5, labium: 1 }\n  windway: { height: 1, entry: 1, length: 65 }",
    );
    // Plane Poiseuille flow beyond an inlet of 0.04 h²U/ν: 0.3 to 0.5 of the jet's pressure, less where the jet is faster.
    const shares = breath(long)?.notes.map((note, i) => (note?.ordinary ?? 0) / (notes[i]?.ordinary ?? 1) - 1);
    expect(shares?.[0]).toBeGreaterThan(0.3);
    expect(shares?.[0]).toBeLessThan(0.5);
    expect(shares?.[12]).toBeLessThan(shares?.[0] ?? 0);
  });

  it("at another print scale is like another instrument, its windway scaled too", () => {
    const printed = breath(`${withHeight(QUAY, 1).replace(/^print:.*$/m, "")}\nprint: { scale: 110 % }\n`)?.notes[0];
    // Frequencies fall as the size grows: the jet's speed and the pressures hold.
    near(printed?.ordinary, 149, 3);
    near(printed?.air, (notes[0]?.air ?? 0) * 1.1 ** 2, 3);
  });
});

describe("the breath that a design states", () => {
  const stated = (more: string, windway = "height: 1") =>
    breath(
      `${QUAY.replace("cutUp: 4.5, labium: 1 }", `cutUp: 4.5, labium: 1 }\n  windway: { ${windway} }`)}\n${more}\n`,
    );
  const usual = stated("")?.notes as NoteBreath[];

  it("is that of the lowest note, from which the others' go by the stated power of the frequency", () => {
    const notes = stated("breath: { ordinary: 200, exponent: 1 }")?.notes as NoteBreath[];
    expect(notes[0]?.ordinary).toBeCloseTo(200, 2);
    // Friction in the windway is a smaller share at more breath: a few percent under the law of the jet alone.
    near(notes[7]?.ordinary, 400, 6);
    near(stated("breath: { ordinary: 200 }")?.notes[7]?.ordinary, 200 * 2 ** 1.5, 6);
    // What it speaks from is the jet's, whoever plays.
    expect(notes[0]?.from).toBe(usual[0]?.from);
  });

  it("is that in the mouth: the friction of a long windway leaves the jet less of it", () => {
    const [short, long] = ["height: 1", "height: 1, entry: 1, length: 65"].map(
      (windway) => stated("breath: { ordinary: 200 }", windway)?.notes[0],
    );
    expect(long?.ordinary).toBeCloseTo(200, 2);
    expect(long?.air).toBeLessThan(0.95 * (short?.air ?? 0));
    // An ideal jet's flow goes with the root of the pressure that it has.
    const share = ((long?.air ?? 0) / (short?.air ?? 1)) ** 2;
    expect(share).toBeGreaterThan(1 / 1.5);
  });

  it("costs more where the edge lies off the jet's middle", () => {
    const off = stated("", "height: 1, labium: 0.4")?.notes[0];
    near(stated("", "height: 1, labium: 0.1")?.notes[0]?.from, usual[0]?.from ?? 0, 0.1);
    expect(stated("", "height: 1, labium: -0.4")?.notes[0]).toEqual(off);
    expect(off?.from).toBeGreaterThan(1.1 * (usual[0]?.from ?? 0));
  });

  it("comes from the lips as they are said to be", () => {
    const ferry = (lips: string) =>
      breath(example("ferry-flute.bore.yaml").replace("  stopper: 18", `  stopper: 18\n  lips: { ${lips} }`));
    const free = 0.55 * 11.5;
    const [before, after] = [ferry(`distance: ${free}`), ferry(`gap: 0.8, width: 12, distance: ${free * 1.2}`)];
    expect(after?.assumed).toEqual([]);
    expect(ferry("gap: 0.8")?.assumed).toEqual(["lips 10 mm wide"]);
    // By the rule of nine cut-ups a period pressures go with the way's square, speed with the way, and air with the gap's area besides.
    near(after?.notes[0]?.ordinary, 1.2 ** 2 * (before?.notes[0]?.ordinary ?? 0), 1);
    near(after?.notes[0]?.air, 1.2 * 0.8 * 1.2 * (before?.notes[0]?.air ?? 0), 1);
    // No pitch hears them.
    const pitch = (text: string) => analysisOf(text).fingerings[0]?.predictedHz;
    const text = example("ferry-flute.bore.yaml");
    expect(pitch(text.replace("  stopper: 18", "  stopper: 18\n  lips: { gap: 2 }"))).toBe(pitch(text));
  });

  it("rises as one note measured at two breaths rose", () => {
    const measured = (cents: number) => `measured:
  - { note: G4, hz: 390, pressure: 100 }
  - { note: G4, hz: ${390 * 2 ** (cents / 1200)}, pressure: 200 }`;
    const [steep, flat] = [stated(measured(30)), stated(measured(18))];
    // Between 100 and 200 Pa the curve is nearly straight in the logarithm of the breath; its middle is near the ordinary breath.
    near(steep?.notes[0]?.centsPerTenth, (30 * Math.log(1.1)) / Math.log(2), 15);
    near(flat?.notes[0]?.centsPerTenth, (18 * Math.log(1.1)) / Math.log(2), 15);
    expect(steep?.notes[7]?.centsPerTenth).toBeGreaterThan(usual[7]?.centsPerTenth ?? Number.NaN);
    expect(steep && breathCaveat(steep)).toContain("How the notes rise with the breath is taken from G4, as measured.");
    // No jet does this, and one breath tells no rise.
    expect(stated(measured(-5))?.rise).toBeUndefined();
    expect(stated(measured(30).replace("pressure: 200", "pressure: 110"))?.rise).toBeUndefined();
  });

  it.each([
    ["height: 1", [], false],
    ["length: 20", ["windway 1.2 mm high"], false],
    // Higher than half the way to the edge; and an edge past the jet.
    ["height: 3", ["windway 1.2 mm high"], true],
    ["height: 1, labium: 0.9", [], false],
    ["height: 1, labium: 1.1", ["labium 0.1 mm off the jet's middle"], true],
    ["labium: -1.3", ["windway 1.2 mm high", "labium 0.1 mm off the jet's middle"], true],
  ])("%s: what is taken beside it, and whether what is stated makes no jet", (windway, assumed, isNoJet) => {
    expect(stated("", windway)).toMatchObject({ assumed, isNoJet });
  });

  it("rises by two breaths of one fingering in one air, the farthest apart", () => {
    const notes = (...lines: readonly string[]) =>
      stated(`measured:\n${lines.map((line) => `  - { ${line} }`).join("\n")}`);
    const at = (pressure: number, cents: number, more = "", note = "G4") =>
      `note: ${note}, hz: ${390 * 2 ** (cents / 1200)}, pressure: ${pressure}${more}`;
    const [soft, loud] = [at(100, 0), at(200, 30)];
    const pair = notes(soft, loud)?.rise;
    expect(pair?.note).toBe("G4");
    expect(notes(loud, at(120, 12), soft)?.rise).toEqual(pair);
    expect(notes(soft, at(120.1, 6))?.rise).toBeDefined();
    expect(notes(soft, at(119.9, 6))?.rise).toBeUndefined();
    // Other notes, fingerings or temperatures are no pair, nor is a breath that nobody measured.
    expect(notes(soft, at(200, 30, "", "A4"))?.rise).toBeUndefined();
    expect(notes(soft, at(200, 30, ", holes: ●●●●●○"))?.rise).toBeUndefined();
    expect(notes(soft, at(200, 30, ", temperature: 15"))?.rise).toBeUndefined();
    expect(notes(soft, "note: G4, hz: 396")?.rise).toBeUndefined();
    // A fingering that the design does not have for the note tells nothing of its jet; another note's is its own.
    const drawn = (holes: string) => notes(at(100, 0, `, holes: ${holes}`), at(200, 30, `, holes: ${holes}`))?.rise;
    expect(drawn("●●●●●●")).toEqual(pair);
    expect(drawn("●○●●●●")).toBeUndefined();
    const other = notes(at(100, 202, "", "A4"), at(200, 232, "", "A4"))?.rise;
    expect(other?.note).toBe("A4");
    expect(other?.contraction).not.toBe(pair?.contraction);
  });
});

describe("the breath of others", () => {
  it("comes from still lips, and gives no tuning by them", () => {
    const ferry = breath(example("ferry-flute.bore.yaml"));
    expect(ferry?.lips).toBe(true);
    near(ferry?.notes[0]?.from, 50, 8);
    near(ferry?.notes[0]?.ordinary, 163, 3);
    expect(ferry?.notes.every((note) => note?.inTuneAt === undefined && note?.leavesAt === undefined)).toBe(true);
    expect(breath(example("breakwater-pipes.bore.yaml"))?.notes).toHaveLength(8);
    // The reference had the notch as a rim with 5.4 mm left open: its line goes with the square of the way
    // from lip to edge, which is 5 mm where the design does not say the gap.
    const pier = breath(
      example("pier-notch-flute.bore.json").replace(
        /"mouth": .*/,
        '"mouth": { "notch": { "width": 9, "depth": 4.5 } },',
      ),
    );
    near(pier?.notes[0]?.ordinary, 215 * (5 / 5.4) ** 2, 15);
  });

  it("says what it took where the design is silent", () => {
    expect(breath(QUAY)?.assumed).toEqual(["windway 1.2 mm high"]);
    expect(breath(withHeight(QUAY, 1))?.assumed).toEqual([]);
  });

  it.each([
    ["higher than half its way to the edge", "{ height: 2.4 }", "windway 1.2 mm high"],
    ["a thirtieth of it", "{ height: 0.14 }", "windway 1.2 mm high"],
    ["beside the edge", "{ height: 1, labium: 1.2 }", "labium 0.1 mm off the jet's middle"],
  ])("takes what is usual for a jet %s, and says so", (_, windway, taken) => {
    const stated = QUAY.replace("cutUp: 4.5, labium: 1 }", `cutUp: 4.5, labium: 1 }\n  windway: ${windway}`);
    const usual = withHeight(QUAY, windway.includes("labium") ? 1 : 1.2);
    const found = breath(stated);
    expect(found?.assumed).toEqual([taken]);
    expect(breathCaveat(found as Breath)).toContain("or states sizes that cannot form a jet: ");
    // What is usual is as printed, what is stated as drawn: 0.2 % of shrinkage lies between.
    near(found?.notes[0]?.from, breath(usual)?.notes[0]?.from ?? 0, 0.1);
  });

  it("tells what is usual in inches where the design is in inches", () => {
    const tube = "units: in\nbore: [{ at: 0, diameter: 0.63 }, { at: 15, diameter: 0.63 }]\nwall: 0.12\nholes: []";
    const assumed = (head: string) =>
      breath(`borewright: 1\nkey: G4\n${head}\n${tube}\nfingerings: [{ degree: 1, holes: "" }]\n`)?.assumed;
    expect(assumed("family: duct\nmouth: { window: { width: 0.35, cutUp: 0.17 } }")).toEqual(["windway 0.047 in high"]);
    expect(assumed("family: rim\nmouth: { cover: 0.6 }")).toEqual([
      expect.stringMatching(/^lips 0\.0\d+ in apart and 0\.\d+ in wide$/),
    ]);
  });

  it("takes usual lips where those stated are farther apart than half the way to the edge", () => {
    const pier = example("ferry-flute.bore.yaml");
    const stated = pier.replace(/^mouth:\n/m, "mouth:\n  lips: { gap: 9 }\n");
    expect(stated).not.toBe(pier);
    expect(breath(stated)?.assumed).toEqual(breath(pier)?.assumed);
    expect(breath(stated)?.isNoJet).toBe(true);
    expect(breath(pier)?.isNoJet).toBe(false);
  });

  it("is not estimated for vessels, ideal and measured mouths; air without losses leaves radiation", () => {
    expect(breath(example("lantern-vessel.bore.yaml"))).toBeUndefined();
    expect(breath(WHISTLE.replace(/mouth:\n.*\n/, "mouth: ideal\n"))).toBeUndefined();
    expect(breath(WHISTLE.replace(/mouth:\n.*\n/, "mouth: { correction: 40 }\n"))).toBeUndefined();
    expect(breath(WHISTLE.replace("air: {", "air: { losses: false,"))?.notes[0]?.from).toBeGreaterThan(0);
  });
});
