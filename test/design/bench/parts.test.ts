/** What a bench can work: the body with the work done is that of the design that says so, and each limit is where it should be. */
import { describe, expect, it } from "vitest";
import { doneEdits } from "../../../server/src/design/bench/doneEdits.js";
import { deviationsIn, madeOf } from "../../../server/src/design/bench/made.js";
import { mouthToOpen } from "../../../server/src/design/bench/mouthOpening.js";
import type { BenchStep } from "../../../server/src/design/bench/plan.js";
import { mouthTask, tasksOf } from "../../../server/src/design/bench/tasks.js";
import { openable, toShorten, undercuttable, type Workable } from "../../../server/src/design/bench/workable.js";
import { benchConstraintsOf } from "../../../server/src/design/constraints/constraints.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { panPipe, vessel } from "../../support/families.js";
import { numberAt, tube } from "../../support/marked.js";

const read = (text: string) => {
  const document = documentOf(fileOf(text));
  return { document, analysis: analyse(document.resolution.instrument), body: document.resolution.instrument.body };
};
/** Lengths in nanometres, without what the design says of its own numbers. */
const sizes = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (key, each) => (key === "size" || key === "path" ? undefined : each)),
    (_, each) => (typeof each === "number" ? Number(each.toFixed(9)) : each),
  );
/** The design with one part worked. */
const done = (text: string, part: Workable, value: number) => {
  const step = { path: part.path, drawn: value + part.drawnAdd, alsoMoved: part.alsoMoved?.(value) ?? [] };
  return applyEdits(text, doneEdits(fileOf(text), documentOf(fileOf(text)), [step as unknown as BenchStep]));
};
/** In whole hundredths of a millimetre. */
const by = (share: number, part: Workable, text: string) =>
  Math.round(part.valueIn(read(text).body) * share * 1e5) / 1e5;

const TRANSVERSE = (hole: string) =>
  tube(
    `family: transverse\nmouth: { hole: { ${hole} }, stopper: 16 }\nbore: [{ at: -16, diameter: 16 }, { at: 352, diameter: 16 }]\nholes: [{ at: 200, diameter: 7 }]\n`,
  );
const NOTCH = tube(
  "family: rim\nmouth: { cover: 0.6, notch: { width: 9, depth: 4 } }\nholes: [{ at: 200, diameter: 7 }]\n",
);
const UNDERSIZED = "print: { holeUndersize: 0.2 }\n";
const VESSEL = vessel("holes:\n  - { diameter: 6, angle: 60 }\n  - { diameter: 5, angle: -100 }");
const ACROSS = VESSEL.replace("window: { width: 9, cutUp: 5 }", "hole: { length: 12, width: 10 }");

/** Its farthest size, mm, by the shares of common practice that are named in the sources. */
const MOUTHS: readonly (readonly [string, string, string, string, string, number])[] = [
  ["a window", WHISTLE, "cut-up", "the window", "mouth.window.cutUp", 0.6 * 9.82],
  ["a window already high", WHISTLE.replace("cutUp: 4.5", "cutUp: 7"), "cut-up", "the window", "mouth.window.cutUp", 7],
  ["a notch", NOTCH, "widen", "the notch", "mouth.notch.width", 0.65 * 16],
  [
    "an oval embouchure hole",
    TRANSVERSE("length: 8, width: 8.5"),
    "lengthen",
    "the embouchure hole",
    "mouth.hole.length",
    1.15 * 8.5,
  ],
  [
    "a wide embouchure hole",
    TRANSVERSE("length: 8, width: 12"),
    "lengthen",
    "the embouchure hole",
    "mouth.hole.length",
    0.65 * 16,
  ],
  [
    "a round embouchure hole",
    TRANSVERSE("diameter: 9"),
    "lengthen",
    "the embouchure hole",
    "mouth.hole.diameter",
    1.15 * 9,
  ],
  [
    "a hole from a printer that makes it small",
    TRANSVERSE("length: 8, width: 8.5") + UNDERSIZED,
    "lengthen",
    "the embouchure hole",
    "mouth.hole.length",
    1.15 * 8.3,
  ],
  [
    "a window from a printer that makes holes small",
    WHISTLE + UNDERSIZED,
    "cut-up",
    "the window",
    "mouth.window.cutUp",
    0.6 * 9.82,
  ],
  ["a vessel's window", VESSEL, "cut-up", "the window", "mouth.window.cutUp", 0.6 * 9],
  ["a vessel's embouchure hole", ACROSS, "lengthen", "the embouchure hole", "mouth.hole.length", 12],
];

describe("the mouth as a part to open", () => {
  it.each(MOUTHS)("is that of the design that says so: %s", (_, text, kind, name, path, farthest) => {
    const { document, body } = read(text);
    const part = mouthToOpen(document);
    if (part === undefined) throw new Error("no mouth to open");
    expect([part.kind, part.name, part.path.join(".")]).toEqual([kind, name, path]);
    expect(1e3 * part.farthest).toBeCloseTo(farthest, 9);
    const value = by(1.1, part, text);
    const after = read(done(text, part, value)).body;
    expect(sizes(part.bodyWith(body, value))).toEqual(sizes(after));
    expect(part.valueIn(after)).toBeCloseTo(value, 9);
    expect(sizes(part.bodyWith(body, part.valueIn(body)))).toEqual(sizes(body));
  });

  it("is left alone where the design says so, or describes no opening that could be worked", () => {
    const opened = (text: string) => mouthToOpen(read(text).document);
    expect(opened(`${WHISTLE}bench: { mouth: keep }\n`)).toBeUndefined();
    expect(opened(tube(""))).toBeUndefined();
    expect(opened(tube("mouth: { correction: 40 }\n"))).toBeUndefined();
    expect(opened(tube("family: rim\nmouth: { cover: 0.6 }\n"))).toBeUndefined();
    expect(opened(vessel("", "shape: tube, length: 90, diameter: 40"))).toBeUndefined();
  });
});

describe("a hole as a part", () => {
  it.each([
    ["of a whistle", WHISTLE, "R1", 3],
    ["oval", WHISTLE.replace("at: 270.8, diameter: 7", "at: 270.8, diameter: 7, length: 8"), "R1", 3],
    ["from a printer that makes it small", WHISTLE + UNDERSIZED, "R1", 3],
    ["of a vessel", VESSEL, "hole 2", 1],
  ])("to open is that of the design that says so: %s", (_, text, name, hole) => {
    const { document, analysis, body } = read(text);
    const part = openable(analysis, benchConstraintsOf(document), hole);
    expect([part.kind, part.name, part.hole]).toEqual(["open", name, hole]);
    const value = by(1.1, part, text);
    const after = done(text, part, value);
    // An oval is opened by as much along the tube, which the design says in another number.
    const grown = /length: 8 /.test(text) ? after.replace("length: 8", `length: ${8 + 0.7}`) : after;
    expect(sizes(part.bodyWith(body, value))).toEqual(sizes(read(grown).body));
    expect(part.farthest).toBeGreaterThan(value);
  });

  it("is opened as far as a fingertip closes", () => {
    const text = `${WHISTLE}hands: { fingertip: 9.5 }\n`;
    const { document, analysis } = read(text);
    expect(1e3 * openable(analysis, benchConstraintsOf(document), 4).farthest).toBeCloseTo(9.5, 3);
  });

  it("of a vessel is opened as far as the design allows", () => {
    const { document, analysis } = read(VESSEL.replace("angle: 60", "angle: 60, limits: { diameter: [4, 6.4] }"));
    expect(1e3 * openable(analysis, benchConstraintsOf(document), 0).farthest).toBeCloseTo(6.4, 3);
  });

  it("to undercut is that of the design that says so, to a third of its width or the bore's share inside", () => {
    const { analysis, body } = read(WHISTLE);
    const part = undercuttable(analysis, 3);
    if (part === undefined) throw new Error("nothing to undercut");
    expect([part.kind, part.name, part.path.join("."), part.valueIn(body)]).toEqual([
      "undercut",
      "R1",
      "holes.3.undercut",
      0,
    ]);
    expect(1e3 * part.farthest).toBeCloseTo(0.35 * 7, 9);
    const text = WHISTLE.replace("at: 270.8, diameter: 7 ", "at: 270.8, diameter: 7, undercut: 0 ");
    expect(sizes(part.bodyWith(body, 1e-3))).toEqual(sizes(read(done(text, part, 1e-3)).body));
    const wide = read(WHISTLE.replace("at: 270.8, diameter: 7", "at: 270.8, diameter: 12")).analysis;
    // Just inside 0.8 of the bore's width, up to which the prediction was checked.
    expect(1e3 * (undercuttable(wide, 3)?.farthest ?? 0)).toBeCloseTo(0.78 * 16 - 12, 6);
    const deep = read(WHISTLE.replace("at: 270.8, diameter: 7", "at: 270.8, diameter: 7, undercut: 3")).analysis;
    expect(1e3 * (undercuttable(deep, 3)?.farthest ?? 0)).toBeCloseTo(3, 9);
    expect(undercuttable(read(VESSEL).analysis, 0)).toBeUndefined();
  });
});

describe("a length as a part to shorten", () => {
  it("is the tube's, to 2 mm below its last hole or station", () => {
    const { analysis, body } = read(WHISTLE);
    const part = toShorten(analysis, 0);
    if (part === undefined) throw new Error("nothing to shorten");
    expect([part.kind, part.name, part.path.join(".")]).toEqual(["shorten", "the tube", "bore.1.at"]);
    expect(1e3 * part.farthest).toBeCloseTo(321.4 + 3.25 + 2, 9);
    const value = by(0.98, part, WHISTLE);
    expect(sizes(part.bodyWith(body, value))).toEqual(sizes(read(done(WHISTLE, part, value)).body));
    const stepped = WHISTLE.replace("  - { at: 394.1", "  - { at: 380, diameter: 15 }\n  - { at: 394.1");
    expect(1e3 * (toShorten(read(stepped).analysis, 0)?.farthest ?? 0)).toBeCloseTo(382, 9);
    // What is left of a taper has the width it had there.
    const cone = WHISTLE.replace("{ at: 394.1, diameter: =tube }", "{ at: 394.1, diameter: 12 }");
    const made = read(cone);
    const cut = toShorten(made.analysis, 0)?.bodyWith(made.body, 0.38);
    const bore = cut && sharedColumn(cut)?.bore;
    expect(sizes(bore?.at(-1))).toEqual(sizes({ x: 0.38, radius: 8e-3 - (2e-3 * 380) / 394.1 }));
  });

  it("is each pipe's, to four fifths of it, and no vessel's", () => {
    const text = panPipe("");
    const { analysis, body } = read(text);
    const part = toShorten(analysis, 1);
    if (part === undefined) throw new Error("nothing to shorten");
    expect([part.kind, part.name, part.pipe, part.path.join(".")]).toEqual(["shorten", "pipe 2", 1, "pipes.1.length"]);
    expect(1e3 * part.farthest).toBeCloseTo(0.8 * 140, 9);
    expect(sizes(part.bodyWith(body, 0.13))).toEqual(sizes(read(done(text, part, 0.13)).body));
    expect(toShorten(analysis, 5)).toBeUndefined();
    expect(toShorten(read(VESSEL).analysis, 0)).toBeUndefined();
  });
});

describe("the order of work", () => {
  const order = (text: string) => {
    const { document, analysis } = read(text);
    const made = madeOf(analysis);
    const tasks = tasksOf(document, made);
    return [...mouthTask(document, made, tasks), ...tasks].map(
      ({ part, notes }) => `${part?.name ?? "nothing"}: ${notes.map(({ name }) => name).join(" ")}`,
    );
  };
  it("goes from the mouth to the foot and up the holes of a tube", () => {
    expect(order(WHISTLE)).toEqual([
      "the window: G4 A4 B4 C5 D5 E5 G5",
      "the tube: G4 G5",
      "R3: A4",
      "R2: B4",
      "R1: C5",
      "L3: D5",
      "L2: E5",
    ]);
  });
  it("goes from the hole of a vessel that is opened first, and through each pipe by itself", () => {
    const scale = vessel(
      "holes:\n  - { diameter: 6, angle: 60 }\n  - { diameter: 6, angle: -60 }\n  - { diameter: 6, angle: 120 }\nfingerings: [{ note: C5, holes: ●●● }, { note: D5, holes: ●○● }, { note: E5, holes: ○○● }, { note: F5, holes: ○○○ }]",
    );
    expect(order(scale)).toEqual(["the window: C5 D5 E5 F5", "nothing: C5", "hole 2: D5", "hole 1: E5", "hole 3: F5"]);
    expect(order(panPipe("fingerings: [{ note: C5 }]"))).toEqual(["pipe 1: C5", "pipe 2: D5", "pipe 3: E5"]);
  });
});

it("a part's notes are as far off as their middle, which nobody knows where one of them does not sound", () => {
  const long = (mm: number) =>
    tube(
      `mouth: { window: { width: 9, cutUp: 4.5 } }\nbore: [{ at: 0, diameter: 16 }, { at: ${mm}, diameter: 16 }]\nfingerings: [{ degree: 1 }, { degree: 8, register: 2 }]\n`,
    );
  const { document, analysis } = read(long(352));
  const made = madeOf(analysis);
  const tasks = tasksOf(document, made);
  const all = [...tasks, ...mouthTask(document, made, tasks)];
  const offs = (mm: number) => {
    const { body } = read(long(mm));
    const [low = Number.NaN, high = Number.NaN] = deviationsIn(made, body, made.notes);
    return { middle: (low + high) / 2, found: all.map(({ off }) => off(body)) };
  };
  const { middle, found } = offs(340);
  expect(found).toEqual([middle, middle]);
  // So short a tube has its second resonance beyond what is sought.
  expect(offs(50).found).toEqual([undefined, undefined]);
  expect(deviationsIn(made, read(long(50)).body, made.notes)[0]).toBeGreaterThan(0);
  // The mouth's decision needs every part's.
  const holed = (mm: number) =>
    `${long(mm).replace(", register: 2 }", " , register: 2, holes: o }").replace("degree: 1 }", "degree: 1, holes: x }")}holes: [{ at: ${mm - 12}, diameter: 6 }]\n`;
  const whole = read(holed(352));
  const both = madeOf(whole.analysis);
  const own = tasksOf(whole.document, both);
  const [mouth] = mouthTask(whole.document, both, own);
  const short = read(holed(50)).body;
  expect(own.map(({ off }) => typeof off(short))).toEqual(["number", "undefined"]);
  expect(mouth?.off(short)).toBeUndefined();
  expect(mouth?.off(whole.body)).toBe(Math.max(...own.map(({ off }) => off(whole.body) ?? Number.NaN)));
});

it("sizes as worked are written to a thousandth of a millimetre, or as fine in inches", () => {
  const worked = (text: string, drawn: number) => {
    const step = { path: ["holes", 3, "diameter"], drawn, alsoMoved: [] } as unknown as BenchStep;
    return numberAt(applyEdits(text, doneEdits(fileOf(text), documentOf(fileOf(text)), [step])), "holes.3.diameter");
  };
  expect(worked(WHISTLE, 7.12345e-3)).toBe(7.123);
  // An inch is 25.4 mm: international yard and pound agreement of 1959.
  expect(worked(WHISTLE.replace("tolerance", "units: in\ntolerance"), 7.12345e-3)).toBe(
    Number((7.12345 / 25.4).toFixed(5)),
  );
});
