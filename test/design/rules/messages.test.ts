/** What each rule says, where, and what it offers: whole sentences. Numbers that the physics decides are compared with the prediction. */
import { describe, expect, it } from "vitest";
import { drained } from "../../../server/src/acoustics/steps.js";
import { checkDocument } from "../../../server/src/design/check.js";
import { findingFixes } from "../../../server/src/design/fix/findingFixes.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { responsesOf } from "../../../server/src/design/predict/response.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { panPipe, vessel } from "../../support/families.js";
import { numberAt, tube } from "../../support/marked.js";
import { note } from "../../support/vessel.js";

const said = (text: string, code: RegExp) =>
  checkDocument(documentOf(fileOf(text)))
    .findings.filter((finding) => code.test(finding.code))
    .map(({ severity, path, message }) => `${severity} ${path.join(".")}: ${message}`);
/** Titles of a design's fixes, each with the text that it leads to. */
function fixesOf(text: string) {
  const file = fileOf(text);
  const document = documentOf(file);
  const { findings, analysis } = checkDocument(document);
  return findings
    .filter(({ code }) => code.startsWith("pitch/"))
    .flatMap((finding) => drained(findingFixes(file, document, analysis, finding)))
    .map(({ title, edits }) => ({ title, after: applyEdits(text, edits) }));
}
const centsOf = (text: string) =>
  analyse(documentOf(fileOf(text)).resolution.instrument).fingerings.map(({ cents }) => cents ?? Number.NaN);
const hertzOf = (text: string, index: number) =>
  (analyse(documentOf(fileOf(text)).resolution.instrument).fingerings[index]?.predictedHz ?? 0).toFixed(1);
const whole = (cents: number) => Math.abs(cents).toFixed(0);
const R3 = (written: string) => WHISTLE.replace("at: 321.4, diameter: 6.5", `at: 321.4, ${written}`);

describe("a note out of tune", () => {
  it("is told by how far, with both changes of its hole, which the fixes make", () => {
    const fixes = fixesOf(WHISTLE);
    const [opened, moved] = fixes.map(({ after }) => after);
    const to = numberAt(opened ?? "", "holes.1.diameter");
    const by = Number((210.3 - (numberAt(moved ?? "", "holes.1.at") ?? 0)).toFixed(1));
    const off = whole(centsOf(WHISTLE)[5] ?? 0);
    expect(said(WHISTLE, /pitch/)).toEqual([
      `warning holes.1.at: E5 sounds ${off} cents flat. Move L2 ${by} mm toward the mouth, or open L2 to ${to} mm.`,
    ]);
    const cost = centsOf(opened ?? "");
    expect(fixes.map(({ title }) => title)).toEqual([
      `Open L2 to ${to} mm, so that E5 is in tune, but G4 gets ${whole(cost[0] ?? 0)} cents flat`,
      `Move L2 ${by} mm toward the mouth, so that E5 is in tune`,
    ]);
    const [related] = checkDocument(documentOf(fileOf(WHISTLE))).findings.flatMap((finding) => finding.related ?? []);
    // E5 is 659.3 Hz by ISO 16's A4 and equal temperament.
    expect(related?.message).toBe(`E5 should be 659.3 Hz, sounds ${hertzOf(WHISTLE, 5)} Hz: ${off} cents flat`);
  });

  it("is told to move and narrow the other way where it is sharp", () => {
    const sharp = WHISTLE.replace("at: 289.6", "at: 285.6");
    const [, text = ""] = said(sharp, /out-of-tune/);
    expect(text).toMatch(
      /^warning holes\.4\.at: B4 sounds \d+ cents sharp\. Move R2 [\d.]+ mm toward the foot, or narrow R2 to [\d.]+ mm\.$/,
    );
    expect(fixesOf(sharp).map(({ title }) => title.replace(/[\d.]+/g, "#"))).toContain(
      "Narrow R# to # mm, so that B# is in tune",
    );
  });

  it("is told with the note that it comes closer to, and what forbids a change", () => {
    const [first = ""] = said(R3("diameter: 1.2"), /out-of-tune/).filter((text) => text.startsWith("error"));
    expect(first).toMatch(/^error holes\.5\.at: A4 sounds 1\d\d cents flat, closer to G4\. Open R3 to [\d.]+ mm\.$/);
    const [oval = ""] = said(R3("diameter: 4, length: 15"), /out-of-tune/).filter((text) => text.includes("A4"));
    expect(oval).toMatch(
      /A4 sounds \d+ cents sharp\. No single change is allowed: R2 to R3 would need [\d.]+ mm of reach, but the reach is 38 mm as a rule; R3 would have to be only [\d.]+ mm wide, too little for the bore at its place\.$/,
    );
    expect(said(WHISTLE.replace("note: D5", "note: E5"), /out-of-tune/).at(-1)).toMatch(
      /closer to D5\. No place or size of L3 alone puts it right: look at the holes beside it\.$/,
    );
  });

  it("is told with the note that is heard: what the breath adds counts in both", () => {
    const holes = "holes: [{ diameter: 6, angle: 90 }, { diameter: 40, angle: -90 }]\n";
    const notes = "fingerings: [{ note: C5, holes: ●● }, { note: D5, holes: ○● }, { note: E5, holes: ○○ }]\n";
    const told = said(vessel(`${holes}${notes}breath: { lowest: -90, highest: 90 }\n`), /out-of-tune/).join("\n");
    const closer = [...told.matchAll(/(\S+) sounds (\d+) cents (sharp|flat), closer to ([^. ]+)\./g)];
    expect(closer.length).toBeGreaterThan(1);
    for (const [, name = "", cents, way, nearest = ""] of closer) {
      const semitones = ((way === "flat" ? -1 : 1) * Number(cents)) / 100;
      expect(note(nearest).midi - note(name).midi).toBe(Math.round(semitones));
    }
  });

  it("with every hole closed is told at the bore, with what a change costs its other register", () => {
    const short = WHISTLE.replace("394.1", "380");
    const cents = centsOf(short);
    const [g4 = 0, g5 = 0] = [cents[0], cents[6]];
    const [{ title = "", after = "" } = {}] = fixesOf(short).filter((fix) => fix.title.includes("bore"));
    const by = Number(((numberAt(after, "bore.1.at") ?? 0) - 380).toFixed(1));
    expect(title).toBe(`Lengthen the bore by ${by} mm, so that G5 is in tune`);
    const mid = Math.abs(g5 - g4) / 2;
    expect(said(short, /out-of-tune/).at(-1)).toBe(
      `error bore.1.at: G5 sounds ${whole(g5)} cents sharp, closer to Ab5. A bore ${by} mm longer puts it right. ` +
        `That leaves G4 about ${whole(g5 - g4)} cents flat; midway both are about ${mid.toFixed(mid < 10 ? 1 : 0)} cents off.`,
    );
    const long = WHISTLE.replace("394.1", "410");
    expect(said(long, /out-of-tune/).at(-1)).toMatch(/A bore [\d.]+ mm shorter puts it right\./);
    expect(fixesOf(long).map(({ title }) => title.replace(/[\d.]+ mm/, "# mm"))).toContainEqual(
      expect.stringMatching(/^Shorten the bore by # mm, so that G\d is in tune/),
    );
  });

  it("of a pan pipe is told at its pipe, and of a vessel at its hole or its size", () => {
    const pipes = panPipe("").replace("length: 158", "length: 150");
    const sharp = whole(centsOf(pipes)[0] ?? 0);
    const [first, second] = fixesOf(pipes);
    const [away, toward] = [
      Number(((numberAt(first?.after ?? "", "pipes.0.length") ?? 0) - 150).toFixed(1)),
      Number((140 - (numberAt(second?.after ?? "", "pipes.1.length") ?? 0)).toFixed(1)),
    ];
    expect(said(pipes, /out-of-tune/).slice(0, 2)).toEqual([
      `warning pipes.0.length: C5 sounds ${sharp} cents sharp. Move the stopper ${away} mm away from the mouth.`,
      `warning pipes.1.length: D5 sounds ${whole(centsOf(pipes)[1] ?? 0)} cents flat. Move the stopper ${toward} mm toward the mouth.`,
    ]);
    expect(first?.title).toBe(`Move the stopper ${away} mm away from the mouth, so that C5 is in tune`);
    const bodies = vessel(
      "holes:\n  - { diameter: 6, angle: 90 }\n  - { diameter: 40, angle: -90 }\nfingerings: [{ note: C5, holes: ●● }, { note: D5, holes: ○● }, { note: E5, holes: ○○ }]",
    );
    expect(said(bodies, /out-of-tune/).map((text) => text.replace(/ [\d.]+ (?=cents|mm)/g, " # "))).toEqual([
      "error holes.0.diameter: D5 sounds # cents flat, closer to A4. No single change is allowed: hole 1 would have to be wider than # mm, the most that a fingertip covers or its limits allow.",
      "error holes.1.diameter: E5 sounds # cents sharp, closer to C#6. Narrow hole 2 to # mm.",
      "error vessel.length: C5 sounds # cents flat, closer to E4. Make the chamber # mm long.",
    ]);
  });
});

describe("a note that does not sound as it should", () => {
  it("is told where its register does not exist", () => {
    expect(said(WHISTLE.replace("register: 2 }", "register: 16 }"), /no-resonance/)).toEqual([
      "warning fingerings.6.register: G5: the air column has no register 16 with this fingering. Try a lower register or another fingering.",
    ]);
    const higher = vessel("holes: [{ diameter: 6, angle: 90 }]\nfingerings: [{ note: C6, holes: ●, register: 2 }]");
    expect(said(higher, /no-resonance/)).toEqual([
      "warning fingerings.0.register: C6: a vessel sounds in one register only. Remove `register` and open more holes.",
    ]);
  });

  it("is not told where nobody could look: without holes that can be read, without a pipe's length, without a bore", () => {
    const broken = WHISTLE.replace("{ degree: 6, holes: ●○○○○○ }", "{ degree: 6, holes: ●○○○○z }");
    expect(said(broken, /no-resonance/)).toEqual([]);
    expect(said(panPipe("").replace("length: 158, ", ""), /no-resonance/)).toEqual([]);
    expect(said(WHISTLE.replace("bore:", "x-bore:"), /no-resonance/)).toEqual([]);
  });

  it("is told once of a whole instrument that no number can be made of", () => {
    // A millimetre becomes a billionth of one.
    const tiny = "print: { scale: 0.0000001 % }\n";
    expect(said(`${WHISTLE}${tiny}`, /no-resonance/)).toEqual([
      "error : This instrument cannot be calculated: a dimension is too large or too small to calculate with. Look for a missing or misplaced decimal point.",
    ]);
    // A vessel is solved by itself, and finds nothing there.
    const vessels = vessel("holes: []\nfingerings: [{ note: C5, holes: '' }]").concat("print: { scale: 0.0001 % }\n");
    expect(said(vessels, /no-resonance/)).toEqual([
      "warning fingerings.0.register: C5: the air column has no register 1 with this fingering. Try a lower register or another fingering.",
    ]);
  });

  it("is told to be weak, or not to hold its pitch, with a remedy for its kind of body", () => {
    const wide = tube(
      "bore: [{ at: 0, diameter: 60 }, { at: 300, diameter: 60 }]\nfingerings: [{ note: C7, holes: '', register: 4 }, { note: C6, holes: '', register: 2 }]\n",
    );
    expect(said(wide, /weak-note/)).toEqual([
      "information fingerings.0: C7 will be weak: its resonance is only 11 dB deep, where 12 are needed. Try another fingering or register, or open the holes below it wider.",
    ]);
    const high = WHISTLE.replace("degree: 6, holes: ●○○○○○", "note: B6, holes: ●○○○○○, register: 3");
    const { strength = 0, cutOffs = [] } =
      responsesOf(analyse(documentOf(fileOf(high)).resolution.instrument))[5] ?? {};
    const lowest = Math.min(...cutOffs.map(({ frequency }) => frequency)).toFixed(0);
    expect(said(high, /weak-note/)).toEqual([
      `information fingerings.5: B6 will be weak: its resonance is only ${strength.toFixed(0)} dB deep, where 12 are needed. It lies above the cut-off of its open holes, ${lowest} Hz. Try another fingering or register, or open the holes below it wider.`,
    ]);
    const narrow = tube(
      "foot: stopped\nmouth: { correction: 12 }\nbore: [{ at: 0, diameter: 1.5 }, { at: 300, diameter: 1.5 }]\nfingerings: [{ note: C4, holes: '' }]\n",
    );
    expect(said(narrow, /weak-note/).map((text) => text.replace(/\d\d+ cents/, "# cents"))).toEqual([
      "information fingerings.0: C4 will not hold its pitch: its resonance is so broad that breath bends it by some # cents. Try another fingering or register, or open the holes below it wider.",
    ]);
    const pipe = panPipe("").replace("diameter: 15", "diameter: 1.5");
    expect(said(pipe, /weak-note/)).toEqual([
      expect.stringMatching(
        /^information pipes\.0: C5 will not hold .* by some \d+ cents\. Use a tube of another width\.$/,
      ),
    ]);
    const open = vessel("holes: [{ diameter: 40, angle: -90 }]\nfingerings: [{ note: E5, holes: ○ }]");
    expect(said(open, /weak-note/)[0]).toMatch(
      /Narrow the open holes, and make the vessel smaller to keep the pitch\.$/,
    );
  });
});

describe("what the prediction was not checked for", () => {
  it.each([
    [
      "diameter: 15",
      "holes.5.diameter: R3 is 0.94 of the bore's width; the prediction was checked up to 0.8. How far off its notes are is not known.",
    ],
    [
      "diameter: 4, length: 15",
      "holes.5.length: R3 is 3.75 times as long as wide; the prediction was checked for 0.5 to 2. How far off its notes are is not known.",
    ],
    [
      "diameter: 5, undercut: 4",
      "holes.5.undercut: R3 is 0.67 of the chimney's length undercut on each side; the prediction was checked up to 0.35. How far off its notes are is not known.",
    ],
  ])("is told of a hole: %s", (written, message) => {
    expect(said(R3(written), /out-of-range/)).toEqual([`information ${message}`]);
  });

  it("is told of a window, of a vessel and of high notes", () => {
    expect(said(WHISTLE.replace("cutUp: 4.5, labium: 1 }", "cutUp: 4.5, stopper: 60 }"), /out-of-range/)).toEqual([
      "information mouth.window.stopper: The closed space behind the window is 7.5 bore radii long; the prediction was checked up to 4. How far off the notes are is not known.",
    ]);
    const wide = tube(
      "bore: [{ at: 0, diameter: 60 }, { at: 300, diameter: 60 }]\nfingerings: [{ note: C7, holes: '', register: 4 }, { note: C6, holes: '', register: 2 }]\n",
    );
    expect(said(wide, /out-of-range/)).toEqual([
      "information fingerings.1: C6 is high for so wide a bore: the prediction was never checked that high. How far off this and higher notes are is not known.",
    ]);
    // The lowest of the pipes that are too wide for their notes, wherever it stands.
    const pipes = panPipe("")
      .replace(/pipes:[\s\S]*/, "pipes:\n")
      .concat([40, 14, 12].map((length) => `  - { note: C8, length: ${length}, diameter: 18 }\n`).join(""));
    expect(said(pipes, /out-of-range/)).toEqual([
      expect.stringMatching(/^information pipes\.1: C8 is high for so wide a bore: /),
    ]);
    expect(said(panPipe(""), /out-of-range/)).toEqual([]);
    const open = vessel(
      "holes:\n  - { diameter: 40, angle: -90 }\nfingerings: [{ note: C5, holes: ● }, { note: E5, holes: ○ }]",
    );
    expect(said(open, /out-of-range/)).toEqual([
      "information holes.0.diameter: Hole 1 is 0.89 of the chamber's narrowest half; the prediction was checked up to 0.25. Its notes are less sure.",
      "information fingerings.1: E5 is high for so long a vessel: it and higher notes are less sure.",
    ]);
    const mouth = vessel("").replace("width: 9, cutUp: 5", "width: 30, cutUp: 12");
    expect(said(mouth, /out-of-range/)).toEqual([
      expect.stringMatching(/^information mouth: The mouth is [\d.]+ of the chamber's narrowest half; /),
    ]);
  });
});

describe("what is left without a prediction", () => {
  const left = (text: string, prediction: number) =>
    checkDocument(documentOf(fileOf(text)), undefined, { allowance: { prediction, remedies: 0 } })
      .findings.filter(({ code }) => code === "model/not-predicted")
      .map(({ severity, path, message }) => `${severity} ${path.join(".")}: ${message}`);
  const ADVICE =
    "it would take too long. Describe fewer fingerings or holes in one file; `borewright pitch` predicts them all.";

  it("is told at the first of it, with what makes it much", () => {
    expect(left(WHISTLE, 0)).toEqual([
      `warning fingerings.0: None of the 7 fingerings is predicted here: with 6 holes ${ADVICE}`,
    ]);
    // Of as many stations as holes the holes are named, of more both.
    const stations = (count: number) =>
      tube(
        `bore: [${Array.from({ length: count }, (_, i) => `{ at: ${100 * i}, diameter: 16 }`).join()}]\nholes: [{ at: 40, diameter: 6 }, { at: 60, diameter: 6 }]\nfingerings: [{ note: G4, holes: ●● }]\n`,
      );
    expect(left(stations(2), 0)).toEqual([expect.stringContaining(`: with 2 holes ${ADVICE}`)]);
    expect(left(stations(3), 0)).toEqual([expect.stringContaining(`: with 2 holes and 3 stations ${ADVICE}`)]);
    expect(left(panPipe(""), 0)).toEqual([expect.stringContaining(`: with 3 pipes ${ADVICE}`)]);
    const some = left(WHISTLE, 400);
    expect(some).toEqual([
      expect.stringMatching(
        /^warning fingerings\.[1-6]: [1-6] of 7 fingerings, from [A-G][45] on, are not predicted here: with 6 holes it /,
      ),
    ]);
    expect(left(WHISTLE, 1e12)).toEqual([]);
  });
});
