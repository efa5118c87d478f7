/** The order of work in words: what to do, what a tuner then shows, and why a note is left. */
import { describe, expect, it } from "vitest";
import type { BenchPlan, BenchStep, Left } from "../../../server/src/design/bench/plan.js";
import { planCommentEdits } from "../../../server/src/design/bench/planComments.js";
import { airInWords, leftInWords, rulesOfWork, stepInWords, whole } from "../../../server/src/design/bench/wording.js";
import type { Syntax } from "../../../server/src/document/designFile.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";

const { instrument } = documentOf(fileOf(WHISTLE)).resolution;
const A4 = { name: "A4", reading: -12.6, right: -3 };
const A5 = { name: "A5", reading: 0.3, right: -3 };
const step = (changes: Partial<BenchStep>): BenchStep => ({
  kind: "open",
  name: "R3",
  from: 6.5e-3,
  to: 6.9e-3,
  stop: 7.2e-3,
  notes: [A4, A5],
  path: ["holes", 5, "diameter"],
  drawn: 6.9e-3,
  alsoMoved: [],
  ...changes,
});
const plan = (changes: Partial<BenchPlan>): BenchPlan => ({
  workshop: 19,
  temperature: 22,
  pitchStandard: 440,
  steps: [],
  now: [],
  left: [],
  within: 5,
  isMeasured: true,
  ...changes,
});

describe("a step", () => {
  it("says what to do, what its notes should read then, and where to stop", () => {
    expect(stepInWords(step({}), instrument)).toBe(
      "open R3 by 0.4 mm, to 6.9 mm; then A4 should read −13, A5 0 (not beyond 7.2 mm)",
    );
    expect(stepInWords(step({ notes: [], stop: 6.94e-3 }), instrument)).toBe(
      "open R3 by 0.4 mm, to 6.9 mm; then measure again",
    );
    const A6 = { name: "A6", reading: 2.2, right: -3 };
    expect(stepInWords(step({ notes: [A4, A5, A6] }), instrument)).toContain("A4 should read −13, A5 0, A6 +2 (");
    expect(stepInWords(step({ notes: [A5], stop: 6.96e-3 }), instrument)).toBe(
      "open R3 by 0.4 mm, to 6.9 mm; then A5 should read 0 (not beyond 6.96 mm)",
    );
  });

  it.each([
    ["undercut", "undercut R3 by 0.4 mm, so that at the bore it is 6.9 mm wider than outside"],
    ["shorten", "shorten R3 by 0.4 mm, to 6.9 mm"],
    ["cut-up", "cut up R3 at its blade by 0.4 mm, to 6.9 mm"],
    ["widen", "widen R3 by 0.4 mm, to 6.9 mm"],
    ["lengthen", "open R3 along the tube by 0.4 mm, to 6.9 mm, by the same amount at both ends"],
    ["bush", "bush R3: glue in a sleeve, and open it to 6.9 mm"],
  ] as const)("of the kind %s says so", (kind, words) => {
    expect(stepInWords(step({ kind, notes: [] }), instrument)).toBe(`${words}; then measure again (not beyond 7.2 mm)`);
  });

  it("of a design in inches is in inches, to a thousandth", () => {
    const inches = documentOf(fileOf(WHISTLE.replace("tolerance", "units: in\ntolerance"))).resolution.instrument;
    expect(stepInWords(step({ notes: [], stop: 6.9e-3 }), inches)).toBe(
      "open R3 by 0.016 in, to 0.272 in; then measure again",
    );
  });
});

it("a reading is whole cents, with a true minus", () => {
  expect([-12.6, -0.4, 0, 0.4, 0.6, 23.4].map(whole)).toEqual(["−13", "0", "0", "0", "+1", "+23"]);
});

it("the air of the workshop is told beside the one the instrument is for", () => {
  expect(airInWords(plan({}))).toBe("Readings at 19 °C, it is to be in tune at 22 °C; tuner's A4 at 440 Hz.");
  expect(airInWords(plan({ workshop: 22 }))).toBe(
    "Readings at 22 °C, where it is to be in tune; tuner's A4 at 440 Hz.",
  );
});

describe("a note that is left", () => {
  const words = (left: Partial<Left>) =>
    leftInWords(plan({ left: [{ notes: [A4], off: -8, unsure: 4.4, why: "limit", ...left }] }));
  it.each([
    [
      "limit",
      -8,
      "flat: fingertip, wall, bore or the design's limits leave nothing more to cut; calibrate and print again",
    ],
    ["no-tool", -8, "flat: no hole or length that can be worked on at the bench decides that"],
    ["no-tool", 8, "sharp: no work on the bench lowers that: print the part again, or state the size it has"],
    [
      "unsure",
      -8,
      "flat: closer than the measurement is certain, ±4 cents: play it more often and state `uncertainty`",
    ],
  ] as const)("by %s, %d cents off, says why", (why, off, reason) => {
    expect(words({ why, off })).toEqual([`A4 reads −13; with the rest done it lies 8.0 cents ${reason}.`]);
  });

  it("with another, or apart from it, names both", () => {
    expect(words({ notes: [A4, A5] })[0]).toMatch(
      /^A4 reads −13, A5 reads 0; with the rest done they lie 8\.0 cents flat: /,
    );
    expect(words({ notes: [A4, A5], why: "apart", off: 13 })).toEqual([
      "A4 reads −13, A5 reads 0; their registers lie 13 cents apart, and one size moves both: another print, with the hole elsewhere, brings them nearer.",
    ]);
  });
});

it("rules go with every order of work, and one more where nothing is measured", () => {
  const always = [
    "Go from the first to the last, measure after each, and stop if a note reads higher than given here: then plan again from what you read.",
    "What is cut off cannot be put back: cut too little rather than too much. Then measure every note again.",
  ];
  const unmeasured =
    "Nothing is measured yet: this is what the prediction says. Play it first, and list the notes under `measured`.";
  const steps = [step({})];
  expect(rulesOfWork(plan({ steps }))).toEqual(always);
  expect(rulesOfWork(plan({ steps, isMeasured: false }))).toEqual([unmeasured, ...always]);
  // Without a step there is nothing to go through.
  expect(rulesOfWork(plan({ isMeasured: false }))).toEqual([unmeasured]);
});

describe("the order of work as comments", () => {
  const MEASURED = "measured:\n  - { note: A4, hz: 437 }\n";
  const commented = (text: string, changes: Partial<BenchPlan> = {}, syntax: Syntax = "yaml") =>
    applyEdits(text, planCommentEdits(documentOf(fileOf(text, syntax)), plan(changes)));
  const work = { steps: [step({})], left: [{ notes: [A4], off: -8, unsure: 4, why: "limit" } as const] };
  const air = "# bench: Readings at 19 °C, it is to be in tune at 22 °C; tuner's A4 at 440 Hz.\n";

  it("stands above the measured notes, and replaces an earlier one", () => {
    const text = `${WHISTLE}${MEASURED}`;
    const once = commented(text, work);
    expect(once).toBe(
      `${WHISTLE}${air}# bench 1: open R3 by 0.4 mm, to 6.9 mm; then A4 should read −13, A5 0 (not beyond 7.2 mm)\n` +
        "# bench: A4 reads −13; with the rest done it lies 8.0 cents flat: fingertip, wall, bore or the design's limits leave nothing more to cut; calibrate and print again.\n" +
        MEASURED,
    );
    expect(commented(once, work)).toBe(once);
    // All is right only where nothing is to be done and nothing is left.
    for (const some of [{ steps: work.steps }, { left: work.left }])
      expect(commented(text, some)).not.toContain("every note is within");
    expect(commented(once)).toBe(`${WHISTLE}${air}# bench: every note is within 5 cents of right\n${MEASURED}`);
    // Other comments stay, also one that only begins alike.
    const own = `${WHISTLE}# benches are by the door\n${MEASURED}`;
    expect(commented(own)).toBe(
      `${WHISTLE}# benches are by the door\n${air}# bench: every note is within 5 cents of right\n${MEASURED}`,
    );
  });

  it("keeps the line ends and the indentation of what it stands above", () => {
    const windows = `${WHISTLE}${MEASURED}`.replaceAll("\n", "\r\n");
    expect(commented(windows)).toContain("22 °C; tuner's A4 at 440 Hz.\r\n# bench: every");
    const indented = `${WHISTLE}${MEASURED}`.replace(/^(?=.)/gm, "  ");
    expect(commented(indented)).toContain(`\n  ${air}  # bench: every note is within 5 cents of right\n  measured:`);
  });

  it("is not written into JSON, nor where nothing is measured or the line is not the notes' own", () => {
    expect(commented(WHISTLE)).toBe(WHISTLE);
    const json = '{ "borewright": 1,\n"measured": [{ "note": "A4", "hz": 437 }] }';
    expect(commented(json, {}, "json")).toBe(json);
    const flow = "{ borewright: 1,\nmeasured: [{ note: A4, hz: 437 }] }\n";
    expect(commented(flow)).toBe(flow);
    const behind = "--- \n- measured: [{ note: A4, hz: 437 }]\n";
    expect(commented(behind)).toBe(behind);
    const [anchored, asked] = ["&heard measured:", "? measured\n:"].map(
      (key) => WHISTLE + MEASURED.replace("measured:", key),
    );
    expect(commented(anchored ?? "")).toBe(anchored);
    expect(commented(asked ?? "")).toBe(asked);
  });
});
