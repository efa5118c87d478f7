/** The design that a survey is written as, word for word: it is all that a maker has to judge the survey by. */
import { describe, expect, it } from "vitest";
import { surveyedDesign } from "../../../server/src/design/survey/surveyedDesign.js";
import { type DesignUnit, surveyText } from "../../../server/src/design/survey/surveyText.js";
import type {
  Survey,
  SurveyedHole,
  SurveyedMouth,
  SurveyedPipes,
  SurveyedTube,
  SurveyedVessel,
} from "../../../server/src/survey/surveyed.js";
import { codesOf, numberAt } from "../../support/marked.js";

const mm = (value: number, plusMinus = 0.01) => ({ mm: value, plusMinus });
const PLAIN = { length: undefined, undercut: undefined, raised: undefined, chimney: undefined, remark: undefined };
const hole = (at: number | undefined, diameter: number, more: Partial<SurveyedHole> = {}): SurveyedHole => ({
  ...PLAIN,
  at: at === undefined ? undefined : mm(at),
  diameter: mm(diameter, 0.02),
  angle: { degrees: 0, plusMinus: 0.1 },
  ...more,
});
const WINDOW: SurveyedMouth = {
  kind: "window",
  window: { width: mm(9), cutUp: mm(4.5, 0.05), chimney: undefined, stopper: undefined },
  isTwoChamber: false,
  windway: undefined,
  chamber: undefined,
};
const tubeOf = (more: Partial<SurveyedTube> = {}): SurveyedTube => ({
  kind: "tube",
  mouth: WINDOW,
  bore: [
    { at: mm(0), diameter: mm(16), joint: false },
    { at: mm(352, 0.034), diameter: mm(16.004, 0.034), joint: false },
  ],
  wall: mm(3, 0.1),
  foot: "open",
  holes: [],
  ...more,
});
const surveyOf = (body: Survey["body"], more: Partial<Survey> = {}): Survey => ({
  body,
  unit: { name: "mm", isStated: true },
  triangles: 1234,
  notes: [],
  questions: [],
  ...more,
});
const PROPOSAL = { key: "G4", fingerings: [], pipeNotes: [] };
const textOf = (body: Survey["body"], unit: DesignUnit = "mm", proposal: Parameters<typeof surveyText>[3] = PROPOSAL) =>
  surveyText(surveyOf(body), "Mole", unit, proposal);
/** Between two lines that begin so, both left out. */
const between = (text: string, first: string, last: string) => {
  const lines = text.split("\n");
  return lines.slice(
    lines.findIndex((line) => line.startsWith(first)) + 1,
    lines.findIndex((line) => line.startsWith(last)),
  );
};
const mouthOf = (mouth: SurveyedMouth) => between(textOf(tubeOf({ mouth })), "mouth:", "bore:");

it("a tube, whole", () => {
  const found = surveyOf(tubeOf({ holes: [hole(200, 7)] }), { notes: ["It was mended."], questions: ["Is it yours?"] });
  const fingerings = [
    { degree: "1", holes: "●", register: 1 },
    { degree: "b3", holes: "○", register: 2 },
    { degree: "#4", holes: "○", register: 1 },
  ];
  expect(surveyText(found, "Mole", "mm", { ...PROPOSAL, fingerings }).split("\n")).toEqual([
    "# Surveyed from a mesh of 1234 triangles. The ± is how surely the line's values could be read, in mm.",
    "# The model belongs to its maker: respect its licence before you print, change, share or sell it or anything made from it, and credit them.",
    "# It touches the mouth: plain filament sold for food contact, the lip area",
    "# smoothed and sealed, washed warm before another person plays.",
    "borewright: 1",
    "name: Mole",
    "family: duct",
    "key: G4   # the note nearest to the prediction with every hole closed; cannot be seen",
    "tolerance: 10",
    "air: { temperature: 22, humidity: 60 }   # cannot be seen",
    "",
    "mouth:",
    "  window: { width: 9, cutUp: 4.5 }   # width ± 0.01; cutUp ± 0.05",
    "bore:   # stations along the axis, 0 at the mouth opening's middle",
    "  - { at: 0, diameter: 16 }   # ± 0.01",
    "  - { at: 352, diameter: 16 }   # ± 0.034",
    "wall: 3   # ± 0.1",
    "foot: open",
    "holes:   # from the mouth to the foot",
    "  - { name: H1, at: 200, diameter: 7 }   # at ± 0.01; diameter ± 0.02",
    "",
    "fingerings:   # proposed: opened one after the other, each with the degree nearest to the prediction; they cannot be seen",
    "  - { degree: 1, holes: ● }",
    "  - { degree: b3, holes: ○, register: 2 }",
    '  - { degree: "#4", holes: ○ }',
    "",
    "# print: { shrinkage: 0.2 %, holeUndersize: 0.15 }   # your printer's, which cannot be seen: print a test piece and measure",
    "# It was mended.",
    "# ? Is it yours?",
    "# ? Are these the fingerings you play, and is this the key?",
    "",
  ]);
});

describe("a mouth", () => {
  it("with its windway, stopper and slow chamber", () => {
    expect(
      mouthOf({
        ...WINDOW,
        window: { ...WINDOW.window, chimney: mm(2), stopper: mm(3, 0.05) },
        windway: { length: mm(22), height: mm(1.1) },
        chamber: { length: mm(75), diameter: mm(16, 0.05) },
      }),
    ).toEqual([
      "  window: { width: 9, cutUp: 4.5, chimney: 2, stopper: 3 }   # width, chimney ± 0.01; cutUp, stopper ± 0.05",
      "  windway: { length: 22, width: 9, height: 1.1 }   # ± 0.01",
      "  chamber: { length: 75, diameter: 16 }   # length ± 0.01; diameter ± 0.05",
    ]);
  });
  it("that is a hole, with its stopper and the lip's share", () => {
    const plain = { kind: "hole", length: mm(12), width: mm(10), chimney: undefined, undercut: undefined } as const;
    expect(mouthOf({ ...plain, stopper: undefined })).toEqual([
      "  hole: { length: 12, width: 10 }   # ± 0.01",
      expect.stringMatching(/^ {2}cover: 0\.\d+ {3}# by the lip; cannot be seen$/),
    ]);
    const whole = mouthOf({ ...plain, chimney: mm(5), undercut: mm(1, 0.05), stopper: mm(17) });
    expect(whole[0]).toBe(
      "  hole: { length: 12, width: 10, chimney: 5, undercut: 1 }   # length, width, chimney ± 0.01; undercut ± 0.05",
    );
    expect(whole[2]).toBe("  stopper: 17   # ± 0.01");
  });
  it("that is the tube's rim, with a notch or without", () => {
    expect(mouthOf({ kind: "rim", notch: undefined })).toEqual([
      expect.stringMatching(/^ {2}cover: 0\.\d+ {3}# by the lip; cannot be seen$/),
    ]);
    expect(mouthOf({ kind: "rim", notch: { depth: mm(4.5), width: mm(9, 0.02) } })).toEqual([
      "  notch: { width: 9, depth: 4.5 }   # width ± 0.02; depth ± 0.01",
    ]);
  });
  it("names the family, and asks about the lip where one covers it", () => {
    const asked = "# ? How much of the mouth does the lip cover? Listen to a print and calibrate.";
    const rim = textOf(tubeOf({ mouth: { kind: "rim", notch: undefined } }));
    expect(rim).toContain("family: rim\n");
    expect(rim).toContain(asked);
    const side = {
      kind: "hole",
      length: mm(12),
      width: mm(10),
      chimney: undefined,
      undercut: undefined,
      stopper: undefined,
    } as const;
    expect(textOf(tubeOf({ mouth: side }))).toContain("family: transverse\n");
    expect(textOf(tubeOf())).not.toContain(asked);
  });
});

it("a tube without holes has no list of them, and a name is written as it is", () => {
  expect(between(textOf(tubeOf()), "foot:", "# print")).toEqual([""]);
  expect(surveyText(surveyOf(tubeOf()), "Mole, the [first]", "mm", PROPOSAL)).toContain("\nname: Mole, the [first]\n");
});

it("bore and holes with all that a mesh shows of them", () => {
  const text = textOf(
    tubeOf({
      foot: "stopped",
      bore: [
        { at: mm(-0.001), diameter: mm(16), joint: false },
        { at: mm(120.5), diameter: mm(15.25), joint: true },
        { at: mm(352), diameter: mm(14), joint: false },
      ],
      holes: [
        hole(150, 6, { angle: { degrees: 180, plusMinus: 0.25 } }),
        hole(200, 7, { length: mm(9, 0.02), undercut: mm(0.5), raised: mm(2), chimney: mm(4), remark: "not round" }),
        hole(250, 8, { angle: { degrees: -12.34, plusMinus: 1 } }),
      ],
    }),
  );
  expect(between(text, "bore:", "wall:")).toEqual([
    "  - { at: 0, diameter: 16 }   # ± 0.01",
    "  - { at: 120.5, diameter: 15.25, joint: true }   # ± 0.01",
    "  - { at: 352, diameter: 14 }   # ± 0.01",
  ]);
  expect(text).toContain("\nfoot: stopped\n");
  expect(between(text, "holes:", "# print").slice(0, 3)).toEqual([
    "  - { name: H1, at: 150, diameter: 6, angle: 180 }   # at ± 0.01; diameter ± 0.02; angle ± 0.25°",
    "  - { name: H2, at: 200, diameter: 7, length: 9, undercut: 0.5, raised: 2, chimney: 4 }   # at, undercut, raised, chimney ± 0.01; diameter, length ± 0.02; not round",
    "  - { name: H3, at: 250, diameter: 8, angle: -12.3 }   # at ± 0.01; diameter ± 0.02; angle ± 1°",
  ]);
});

it("inches, to a ten-thousandth", () => {
  const text = textOf(
    tubeOf({
      bore: [
        { at: mm(0), diameter: mm(16), joint: false },
        { at: mm(254), diameter: mm(12.7), joint: false },
      ],
    }),
    "in",
  );
  expect(text).toContain("could be read, in in.");
  expect(text).toContain("\nunits: in\n");
  expect(between(text, "bore:", "wall:")).toEqual([
    "  - { at: 0, diameter: 0.6299 }   # ± 0.00039",
    "  - { at: 10, diameter: 0.5 }   # ± 0.00039",
  ]);
  expect(text).toContain("holeUndersize: 0.006 }");
  expect(numberAt(text, "bore.1.at")).toBe(10);
});

describe("pipes", () => {
  const PIPES: SurveyedPipes = {
    kind: "pipes",
    wall: mm(2),
    pipes: [
      { length: mm(158), diameter: mm(15, 0.02), closed: true },
      { length: mm(140), diameter: mm(14), closed: true },
      { length: mm(130), diameter: mm(14), closed: true },
    ],
  };

  it("each with the note proposed", () => {
    const text = textOf(PIPES, "mm", { ...PROPOSAL, pipeNotes: ["C5", "F#5"] });
    expect(between(text, "air:", "# print")).toEqual([
      "",
      expect.stringMatching(/^mouth: \{ cover: 0\.\d+ \} {3}# by the lip; cannot be seen$/),
      "wall: 2   # ± 0.01",
      "pipes:   # notes proposed, the nearest to the prediction; they cannot be seen",
      "  - { note: C5, length: 158, diameter: 15 }   # length ± 0.01; diameter ± 0.02",
      '  - { note: "F#5", length: 140, diameter: 14 }   # ± 0.01',
      "  - { note: C5, length: 130, diameter: 14 }   # ± 0.01",
      "",
    ]);
    expect(text).toContain("family: panpipe\n");
    expect(text).toContain("# ? Are these the notes it plays?\n");
    expect(text).not.toContain("fingerings");
  });
  it("are proposed the notes that they play", () => {
    const { text, analysis } = surveyedDesign(surveyOf(PIPES), "Mole", "mm");
    expect(analysis.fingerings).toHaveLength(3);
    for (const { cents = 99 } of analysis.fingerings) expect(Math.abs(cents)).toBeLessThanOrEqual(50);
    expect(codesOf(text).filter((code) => /^(file|schema)\//.test(code))).toEqual([]);
    const lowest = analysis.fingerings.map(({ fingering }) => fingering.target?.midi ?? 999);
    expect(analysis.instrument.key?.midi).toBe(Math.min(...lowest));
    // In whatever order they stand.
    const turned = surveyedDesign(surveyOf({ ...PIPES, pipes: [...PIPES.pipes].reverse() }), "Mole", "mm").analysis;
    expect(turned.instrument.key).toEqual(analysis.instrument.key);
  });
});

describe("a vessel", () => {
  const VESSEL: SurveyedVessel = {
    kind: "vessel",
    window: WINDOW.window,
    hole: undefined,
    axes: [mm(90), mm(60), mm(45, 0.05)],
    volume: { cm3: 127.2345, plusMinus: 0.123 },
    wall: mm(4),
    holes: [hole(undefined, 7, { angle: { degrees: 90, plusMinus: 0.5 } })],
  };

  it("by the axes of its chamber, its holes without a place along it", () => {
    expect(between(textOf(VESSEL), "air:", "# print")).toEqual([
      "",
      "mouth:",
      "  window: { width: 9, cutUp: 4.5 }   # width ± 0.01; cutUp ± 0.05",
      "vessel: { shape: ellipsoid, length: 90, width: 60, height: 45 }   # length, width ± 0.01; height ± 0.05; inner sizes",
      "wall: 4   # ± 0.01",
      "holes:   # the smaller ones first",
      "  - { name: H1, diameter: 7, angle: 90 }   # diameter ± 0.02; angle ± 0.5°",
      "",
    ]);
    expect(textOf(VESSEL)).toContain("family: vessel\n");
  });
  it("by its volume where it is no ellipsoid, blown across a hole", () => {
    const text = textOf({
      ...VESSEL,
      window: undefined,
      axes: undefined,
      hole: { length: mm(12), width: mm(10), chimney: mm(3) },
    });
    expect(between(text, "air:", "wall:")).toEqual([
      "",
      "mouth:",
      "  hole: { length: 12, width: 10, chimney: 3 }   # ± 0.01",
      expect.stringMatching(/^ {2}cover: 0\.\d+ {3}# by the lip; cannot be seen$/),
      "vessel: { volume: 127.23 }   # ± 0.12 cm³",
    ]);
  });
});

describe("the fingerings proposed", () => {
  const rows = (body: Survey["body"]) =>
    surveyedDesign(surveyOf(body), "Mole", "mm").analysis.fingerings.map(({ fingering, cents = 99 }) => {
      // Each is the degree nearest to what it plays.
      expect(Math.abs(cents)).toBeLessThanOrEqual(50);
      return `${(fingering.covers ?? []).map((cover) => (cover === 1 ? "x" : "o")).join("")} ${fingering.register}`;
    });
  const TWO = [hole(200, 8), hole(260, 8)];

  it("open one hole after the other from the foot, and again overblown", () => {
    expect(rows(tubeOf({ holes: TWO }))).toEqual(["xx 1", "xo 1", "oo 1", "xx 2", "xo 2"]);
  });
  it("open one hole after the other of a vessel, the smaller ones first, in its only register", () => {
    const own = [hole(undefined, 5), hole(undefined, 7)];
    const vessel: Survey["body"] = {
      kind: "vessel",
      window: WINDOW.window,
      hole: undefined,
      wall: mm(4),
      holes: own,
      axes: [mm(90), mm(60), mm(45)],
      volume: { cm3: 127, plusMinus: 1 },
    };
    expect(rows(vessel)).toEqual(["xx 1", "ox 1", "oo 1"]);
  });
  it("stay in the first register where the foot is stopped, or two chambers feed it", () => {
    const low = ["xx 1", "xo 1", "oo 1"];
    expect(rows(tubeOf({ holes: TWO, foot: "stopped" }))).toEqual(low);
    expect(rows(tubeOf({ holes: TWO, mouth: { ...WINDOW, isTwoChamber: true } }))).toEqual(low);
  });
  it("are none for more holes than anybody fingers so", () => {
    const many = (count: number) =>
      tubeOf({ foot: "stopped", holes: Array.from({ length: count }, (_, i) => hole(100 + 9 * i, 3)) });
    const written = (count: number) => surveyedDesign(surveyOf(many(count)), "Mole", "mm").text;
    expect(written(25)).not.toContain("fingerings:");
    expect(written(24)).toContain("fingerings:");
  });
  it("are those alone that sound: a short tube has no second register to be sought", () => {
    const bore = [0, 50].map((at) => ({ at: mm(at), diameter: mm(16), joint: false }));
    expect(rows(tubeOf({ bore, holes: [hole(40, 8)] }))).toEqual(["x 1", "o 1"]);
  });
  it("name every step of the octave as a maker does, sharp or flat", () => {
    // Wide holes where equal semitones cut the tube: 352 mm and some 65 of mouth and foot.
    const holes = Array.from({ length: 12 }, (_, i) => hole(417 * 2 ** (-(12 - i) / 12) - 50, 11.9));
    const { text, analysis } = surveyedDesign(surveyOf(tubeOf({ holes })), "Mole", "mm");
    for (const { cents = 99 } of analysis.fingerings) expect(Math.abs(cents)).toBeLessThanOrEqual(50);
    const degrees = [...text.matchAll(/degree: "?([^",]+)"?,/g)].map(([, degree]) => degree);
    expect(degrees.slice(0, 13)).toEqual(["1", "b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7", "8"]);
  });
  it("are none where nothing can be predicted, and the key stays one in the middle", () => {
    const { text } = surveyedDesign(surveyOf(tubeOf({ holes: [hole(200, 8), hole(201, 8)] })), "Mole", "mm");
    expect(text).toContain("key: C5 ");
    expect(text).not.toContain("fingerings:");
  });
  it("name degrees by their steps from the key, octaves on", () => {
    const { text, analysis } = surveyedDesign(surveyOf(tubeOf({ holes: TWO })), "Mole", "mm");
    const key = analysis.instrument.key?.midi ?? Number.NaN;
    const degrees = [...text.matchAll(/degree: "?([^",]+)"?,/g)].map(([, degree]) => degree);
    const steps = analysis.fingerings.map(({ fingering }) => (fingering.target?.midi ?? Number.NaN) - key);
    expect(steps[0]).toBe(0);
    expect(degrees[0]).toBe("1");
    expect(degrees[3]).toBe("8");
    expect(steps[3]).toBe(12);
  });
});
