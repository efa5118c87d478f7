/** The order of work on a made instrument: text with measured notes in, steps and their expected readings out. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { doneEdits } from "../../../server/src/design/bench/doneEdits.js";
import { drawnFlatForBench } from "../../../server/src/design/bench/drawFlat.js";
import { madeOf } from "../../../server/src/design/bench/made.js";
import { benchPlan, WITHIN } from "../../../server/src/design/bench/plan.js";
import { mouthTask, tasksOf } from "../../../server/src/design/bench/tasks.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { drawnFlat, workedOn } from "../../support/benchWork.js";
import { checked, documentOf, fileOf, THREE_HOLES, WHISTLE } from "../../support/designs.js";
import { Workshop } from "../../support/workshop.js";

const example = (name: string) => readFileSync(new URL(`../../../examples/${name}`, import.meta.url), "utf8");
const QUAY = example("quay-whistle.bore.yaml");

const DRAWN = drawnFlat(QUAY, "yaml");

/** Every hole so much narrower, mm: a whistle to be opened. */
const narrowed = (mm: number) =>
  QUAY.replace(
    /(name: \w\d, at: [^,]+, diameter: )([\d.]+)/g,
    (_, before, d) => `${before}${(Number(d) - mm).toFixed(2)}`,
  );

/** What a tuner with A4 at 440 Hz shows of a predicted note (equal temperament; ISO 16). */
const tuner = (hz: number, midi: number) => 1200 * Math.log2(hz / (440 * 2 ** ((midi - 69) / 12)));

function played(text: string, temperature: number) {
  const { instrument } = documentOf(fileOf(text)).resolution;
  return analyse({ ...instrument, air: { ...instrument.air, temperature } }).fingerings.map(
    ({ fingering: { target, pattern }, predictedHz }) => ({
      name: target?.name ?? "",
      pattern,
      reads: tuner(predictedHz ?? Number.NaN, target?.midi ?? 0),
    }),
  );
}

/** The design with what it plays itself as measured, off by `off` cents. */
const measuring = (text: string, temperature: number, uncertainty: number, off = 0) =>
  `${text.trimEnd()}\nmeasured:\n${played(text, temperature)
    .map(
      ({ name, pattern, reads }) =>
        `  - { note: ${name}, cents: ${(reads + off).toFixed(2)}, temperature: ${temperature}, uncertainty: ${uncertainty}, holes: "${pattern}" }\n`,
    )
    .join("")}`;

function planned(text: string, options = {}) {
  const document = documentOf(fileOf(text));
  return { document, plan: benchPlan(document, analyse(document.resolution.instrument), options) };
}

describe("a whistle drawn with narrow holes", () => {
  const text = measuring(narrowed(0.5), 19, 1);
  const { document, plan } = planned(text);

  it("is opened from the foot to the mouth, each hole short of where it is right", () => {
    const order = ["R3", "R2", "R1", "L3", "L2", "L1"];
    const names = plan.steps.map(({ name }) => name);
    expect(names).toEqual(order.filter((name) => names.includes(name)));
    expect(names.length).toBeGreaterThan(4);
    for (const { kind, from, to, stop } of plan.steps) {
      expect(kind).toBe("open");
      expect(to).toBeGreaterThan(from);
      expect(to).toBeLessThan(stop);
    }
  });

  it("gives readings in the workshop's air as the opened design is predicted there", () => {
    expect(plan).toMatchObject({ workshop: 19, temperature: 22, pitchStandard: 440 });
    const opened = applyEdits(text, doneEdits(fileOf(text), document, plan.steps));
    const there = played(opened, 19);
    // The last step's notes feel no later cut.
    const last = plan.steps.at(-1);
    expect(last?.notes.length).toBeGreaterThan(0);
    for (const { name, reading } of last?.notes ?? [])
      expect(Math.abs(reading - (there.find((note) => note.name === name)?.reads ?? Number.NaN))).toBeLessThan(0.3);
    // 3 °C colder: the speed of sound goes with the root of the temperature, −1200 log2 √(295.15/292.15) cents, and the air's damp a little.
    const [note] = plan.now;
    expect(Math.abs((note?.right ?? 0) + 600 * Math.log2(295.15 / 292.15))).toBeLessThan(1);
  });

  it("writes what is done and takes out what was measured before, nothing else", () => {
    const opened = applyEdits(text, doneEdits(fileOf(text), document, plan.steps.slice(0, 1)));
    const before = text.split("\n");
    const changed = opened.split("\n").filter((line) => !before.includes(line));
    expect(changed).toEqual([expect.stringMatching(/name: R3, at: =lower \+ 2\*gap \+ 13, diameter: 6\.\d+ /), "  []"]);
    expect(checked(opened).findings.filter(({ severity }) => severity === "error")).toEqual([]);
  });

  it("is planned again from the readings: closer, with less to do, and at the end nothing", () => {
    const opened = applyEdits(text, doneEdits(fileOf(text), document, plan.steps));
    const again = planned(measuring(opened.replace(/measured:\n {2}\[\]\n?/, ""), 19, 1)).plan;
    const cut = (steps: typeof plan.steps) => steps.reduce((sum, { from, to }) => sum + to - from, 0);
    expect(cut(again.steps)).toBeLessThan(cut(plan.steps) / 2);
    expect(planned(measuring(QUAY, 22, 1)).plan.steps).toEqual([]);
  });
});

describe("all notes flat alike", () => {
  const off = measuring(QUAY, 22, 1, -18);
  const { document, plan } = planned(off);

  it("are corrected at the mouth, which is opened first, until no note would be sharp", () => {
    const [first] = plan.steps;
    expect(first).toMatchObject({ kind: "cut-up", name: "the window" });
    for (const { reading, right } of first?.notes ?? []) expect(reading - right).toBeLessThan(WITHIN);
    expect(
      plan.now.every(({ name, reading }) => reading < (first?.notes.find((n) => n.name === name)?.reading ?? 0)),
    ).toBe(true);
  });

  it("stop at the mouth where the first part's notes would be right before anything else is done", () => {
    const made = madeOf(analyse(document.resolution.instrument));
    const [mouth] = mouthTask(document, made, tasksOf(document, made));
    const stop = plan.steps[0]?.stop ?? Number.NaN;
    expect(Math.abs(mouth?.off(mouth.part?.bodyWith(made.body, stop) ?? made.body) ?? Number.NaN)).toBeLessThan(0.1);
  });

  it("are written with every place counted from the window's middle, which moves half as far as its blade", () => {
    const [step] = plan.steps;
    const cut = 1e3 * ((step?.to ?? 0) - (step?.from ?? 0));
    const done = applyEdits(off, doneEdits(fileOf(off), document, step === undefined ? [] : [step]));
    const places = (text: string) => documentOf(fileOf(text)).resolution.draft.holes.map(({ at }) => at ?? 0);
    const before = places(off);
    expect(cut).toBeGreaterThan(0.1);
    // As drawn: what shrinks by 0.2 % is drawn so much larger.
    for (const [i, at] of places(done).entries()) expect(at - (before[i] ?? 0)).toBeCloseTo(-cut / 2 / 0.998, 2);
    expect(checked(done).findings.filter(({ severity }) => severity === "error")).toEqual([]);
  });
});

describe("what is drawn flat for the bench", () => {
  it("has its targets that much lower, holes and length each by its own amount", () => {
    const flat = checked(
      WHISTLE.replace("tolerance: 10", "tolerance: 10\nbench: { holesFlat: 15, lengthFlat: 8 }"),
    ).analysis;
    const plain = checked(WHISTLE).analysis;
    for (const [i, { fingering, cents }] of flat.fingerings.entries()) {
      const lower = fingering.pattern === "●●●●●●" ? 8 : 15;
      expect((cents ?? 0) - (plain.fingerings[i]?.cents ?? 0)).toBeCloseTo(lower, 9);
    }
  });

  it("has an octave that the uppermost hole only helps to speak as flat as the whole length, which decides it", () => {
    const vented = WHISTLE.replace("holes: ●●●●●●, register: 2", "holes: ○●●●●●, register: 2");
    const flat = vented.replace("tolerance: 10", "tolerance: 10\nbench: { holesFlat: 15, lengthFlat: 8 }");
    const [g5, other] = [flat, vented].map((text) => checked(text).analysis.fingerings[6]?.cents ?? Number.NaN);
    expect((g5 ?? 0) - (other ?? 0)).toBeCloseTo(8, 9);
    // With the bore too short, the finding asks for a longer one, and for nothing of L1.
    const short = checked(vented.replace("394.1", "384")).findings.filter(({ message }) => message.startsWith("G"));
    expect(short.map(({ path, message }) => `${path.join(".")}: ${message}`)).toEqual([
      expect.stringMatching(/^bore\.1\.at: G[45] sounds \d+ cents sharp.* A bore [\d.]+ mm longer puts it right\./),
    ]);
  });

  it("comes with mouth and holes smaller than in tune, at the same places, and the work undoes it", () => {
    const level = retune(fileOf(QUAY.replace(/^tolerance/m, "bench: { room: 12 }\ntolerance")), 0, "all").text;
    const [tuned, drawn] = [level, DRAWN].map((text) => documentOf(fileOf(text)).resolution.draft);
    expect(drawn?.holes.map(({ at }) => Math.round((at ?? 0) * 5) / 5).length).toBe(tuned?.holes.length);
    for (const [i, { diameter }] of (drawn?.holes ?? []).entries())
      expect(diameter).toBeLessThanOrEqual(tuned?.holes[i]?.diameter ?? 0);
    expect(drawn?.numbers.at(["mouth", "window", "cutUp"])).toBeLessThan(4.5);
    const { plan } = planned(measuring(DRAWN, 22, 1));
    expect(plan.now.every(({ reading }) => reading < -4)).toBe(true);
    expect(plan.left).toEqual([]);
    expect(plan.steps[0]).toMatchObject({ kind: "cut-up" });
    expect(1e3 * (plan.steps[0]?.to ?? 0)).toBeLessThan(4.6);
  });

  it("draws no hole narrower than the prediction is checked for", () => {
    const small = THREE_HOLES.replace("at: 183.9, diameter: 6.5", "at: 176, diameter: 4, fixed: true");
    const { text } = drawnFlatForBench(fileOf(`${small}bench: { holesFlat: 100, lengthFlat: 0 }\n`), 0);
    const [first] = documentOf(fileOf(text)).resolution.draft.holes;
    // Just inside a fifth of the bore's 13 mm, and less flat for it.
    expect(Math.abs((first?.diameter ?? 0) - 0.21 * 13)).toBeLessThan(0.051);
  });

  it("leaves every hole the room that is asked for", () => {
    const { body } = documentOf(fileOf(DRAWN)).resolution.instrument;
    // 12 cents at 14 thousandths of the width each, of a fingertip of 11 mm: the limit that constraints.ts states.
    for (const { radius } of sharedColumn(body)?.holes ?? []) expect(2e3 * radius).toBeLessThan(11 * (1 - 12 * 0.014));
  });
});

// More seeds and the other families: npm run bench-report, docs/bench.md.
it("brings what a workshop made into tune, and leaves no hole too wide", { timeout: 120_000 }, () => {
  const flute = drawnFlat(example("harbour-mist-flute.bore.yaml"), "yaml", { holesFlat: 32, lengthFlat: 18 });
  const { before, after, tooWide, sessions } = workedOn(flute, "yaml", new Workshop(1));
  expect(before).toBeGreaterThan(10);
  expect(after).toBeLessThan(5);
  expect(tooWide).toBeLessThan(5);
  expect(sessions).toBeLessThan(12);
});

it("comes closer where a limit ends the work, and names the notes that it leaves", () => {
  // R2 is printed 1.5 mm too narrow for a finger that closes 6: opened and undercut as far as may be, its note stays flat.
  const flat = drawnFlat(`${THREE_HOLES}hands: { fingertip: 11 }\ntolerance: 5\n`, "yaml");
  const narrow = flat
    .replace("fingertip: 11", "fingertip: 6")
    .replace(/(name: R2.*?diameter: )([\d.]+)/, (_, head, mm) => `${head}${(Number(mm) - 1.5).toFixed(1)}`);
  const { before, after, tooWide, left } = workedOn(narrow, "yaml", new Workshop(3));
  expect(after).toBeLessThan(before);
  expect(left.join()).toContain("limit");
  expect(tooWide).toBeLessThan(5);
});
