/** How far each cut of an order of work goes, against the rule that docs/bench.md tells: where the notes would be right, less what may be wrong. */
import { describe, expect, it } from "vitest";
import { deviationsIn, madeOf } from "../../../server/src/design/bench/made.js";
import { type BenchOptions, type BenchStep, benchPlan } from "../../../server/src/design/bench/plan.js";
import { mouthTask, type Task, tasksOf } from "../../../server/src/design/bench/tasks.js";
import { undercuttable, type Workable } from "../../../server/src/design/bench/workable.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import type { Body } from "../../../server/src/instrument/body.js";
import { documentOf, fileOf, THREE_HOLES } from "../../support/designs.js";
import { panPipe, vessel } from "../../support/families.js";

/** The design with what it plays itself as measured, some notes off by so many cents, or left out. */
function measuring(text: string, uncertainty: number, off: Readonly<Record<string, number | undefined>> = {}): string {
  const { instrument } = documentOf(fileOf(text)).resolution;
  const notes = analyse(instrument).fingerings.flatMap(({ fingering: { target, pattern }, predictedHz = 440 }) => {
    const name = target?.name ?? "";
    const hz = predictedHz * 2 ** ((off[name] ?? 0) / 1200);
    if (name in off && off[name] === undefined) return [];
    return [`  - { note: ${name}, hz: ${hz.toFixed(6)}, uncertainty: ${uncertainty}, holes: "${pattern}" }\n`];
  });
  return `${text.trimEnd()}\nmeasured:\n${notes.join("")}`;
}

/** The design measured so that its notes lie as many cents from right. */
function lying(text: string, uncertainty: number, cents: Readonly<Record<string, number>>): string {
  const off = planOf(text).now.map(({ name, reading }) => [name, (cents[name] ?? reading) - reading] as const);
  return measuring(text, uncertainty, Object.fromEntries(off));
}

function planOf(text: string, options: BenchOptions = {}) {
  const document = documentOf(fileOf(text));
  return benchPlan(document, analyse(document.resolution.instrument), options);
}

function planned(text: string) {
  const document = documentOf(fileOf(text));
  const analysis = analyse(document.resolution.instrument);
  const made = madeOf(analysis);
  const parts = tasksOf(document, made);
  const [mouth] = mouthTask(document, made, parts);
  return { analysis, made, mouth, parts, plan: benchPlan(document, analysis) };
}
type Planned = ReturnType<typeof planned>;

/** The part that a step works, and the notes that it is for. */
function workOf({ analysis, mouth, parts }: Planned, { name, kind }: BenchStep): { task: Task; tool: Workable } {
  const task = [mouth, ...parts].find((each) => each?.part?.name === name);
  const tool = kind === "undercut" ? undercuttable(analysis, task?.part?.hole ?? -1) : task?.part;
  if (task === undefined || tool === undefined) throw new Error(`nothing to work of ${name}`);
  return { task, tool };
}

/** With R2 higher up, so that no hole need be as wide as it may. */
const HIGHER = THREE_HOLES.replace("at: 200.9", "at: 199.2");
const narrow = (mm: number) =>
  HIGHER.replace(/(name: \w\d, at: [^,]+, diameter: )([\d.]+)/g, (_, head, d) => `${head}${Number(d) - mm}`);
const LONG = HIGHER.replace("263.1", "270");
const KEEP = "bench: { mouth: keep }\n";
const PIPES = panPipe("air: { temperature: 20 }");
const CHAMBER = vessel(
  `${KEEP}holes: [{ diameter: 6.7 }, { diameter: 5 }]\nfingerings: [{ note: E4, holes: ●● }, { note: G#4, holes: ○● }, { note: B4, holes: ○○ }]`,
);
const OVERBLOWN = `${narrow(0.8)}  - { degree: 9, holes: xxo, register: 2 }\n  - { degree: 10, holes: xoo, register: 2 }\n`;

/** A note is taken as right within this many cents (`within`). */
const WITHIN = 5;
/** What a cut may do more than the model says, of the way; how far a tool slips and its finest difference, m. */
const [MODEL, SLIP, FINEST] = [0.2, 3e-5, 2e-5];
/** A size is solved to a twentieth of a cent. */
const SOLVED = 0.06;

describe.each([
  ["three narrow holes", measuring(narrow(0.8), 1), ["open R3", "open R2", "open R1"]],
  ["narrow holes, measured less surely", measuring(narrow(0.8), 4), ["open R3", "open R2", "open R1"]],
  ["narrow holes that nobody has measured", narrow(0.8), ["open R3", "open R2", "open R1"]],
  ["holes with registers apart", measuring(OVERBLOWN, 3, { E6: 6, "F#6": 14 }), ["open R3", "open R2", "open R1"]],
  ["a tube too long", measuring(LONG, 2), ["cut-up the window", "shorten the tube", "open R3"]],
  [
    "a hole that needs no work below two narrow ones",
    measuring(narrow(0.8).replace("diameter: 7.2", "diameter: 9.6"), 0.5),
    ["open R2", "open R1"],
  ],
  [
    "a tube too long whose mouth is kept",
    measuring(LONG + KEEP, 2),
    ["shorten the tube", "open R3", "open R2", "open R1"],
  ],
  [
    "holes from a printer that makes them small",
    measuring(`${narrow(0.6)}print: { holeUndersize: 0.2 }\n`, 1),
    ["open R3", "open R2", "open R1"],
  ],
  [
    "narrow holes above a note that is right, though flat",
    measuring(narrow(0.8).replace("263.1", "264.2"), 0.5),
    ["open R3", "open R2", "open R1"],
  ],
  // A slip of the tool does more at these small holes than all else.
  ["a vessel's holes", lying(CHAMBER, 1, { E4: 0, "G#4": -12, B4: -25 }), ["open hole 1", "open hole 2"]],
  ["long pipes", measuring(PIPES, 2), ["shorten pipe 1", "shorten pipe 2", "shorten pipe 3"]],
] as const)("%s", (_, text, steps) => {
  const found = planned(text);
  const { made, plan } = found;
  const end = plan.steps.reduce((body, step) => workOf(found, step).tool.bodyWith(body, step.stop), made.body);

  it("are worked short of right by what measuring, model and hand may miss, with the other parts as they are and as they will be", () => {
    expect(plan.steps.map(({ kind, name }) => `${kind} ${name}`)).toEqual(steps);
    expect(plan.left).toEqual([]);
    let now: Body = made.body;
    for (const step of plan.steps) {
      const { task, tool } = workOf(found, step);
      expect(step.from).toBe(tool.valueIn(now));
      const bodies = task.isMouth ? [now] : [now, tool.bodyWith(end, step.from)];
      // The sharper of the two leaves less to do.
      const off = (size: number) =>
        Math.max(...bodies.map((body) => task.off(tool.bodyWith(body, size)) ?? Number.NaN));
      const unsure = task.notes.reduce((sum, note) => sum + note.unsure, 0) / task.notes.length;
      const flattest = Math.min(...deviationsIn(made, now, task.notes).map((cents) => cents ?? Number.NaN));
      const apart = Math.max(0, off(step.from) - flattest) / WITHIN;
      const share = task.isMouth ? 2 : Math.max(0.4, 1 - apart);
      const toward = Math.sign(step.stop - step.from);
      const nowAt = (size: number) => task.off(tool.bodyWith(now, size)) ?? Number.NaN;
      const slip = nowAt(step.from + toward * SLIP) - nowAt(step.from);
      const short = Math.hypot(unsure * share, MODEL * off(step.from), slip);
      expect(off(step.to)).toBeLessThan(SOLVED - short);
      expect(off(step.to + toward * FINEST)).toBeGreaterThan(-SOLVED - short);
      const hundredths = (step.to - step.from) / FINEST;
      expect(hundredths).toBeCloseTo(Math.round(hundredths), 6);
      expect(step.drawn - step.to).toBeCloseTo(step.kind === "open" ? found.analysis.instrument.holeUndersize : 0, 9);
      now = tool.bodyWith(now, step.to);
      const after = deviationsIn(made, now, task.notes);
      expect(step.notes.map(({ reading, right }) => reading - right)).toEqual(
        after.map((cents) => expect.closeTo(cents ?? Number.NaN, 6)),
      );
    }
  });

  it("are all right together where each must stop", () => {
    for (const step of plan.steps) {
      const { task, tool } = workOf(found, step);
      // The mouth is decided before anything else is done.
      const body = task.isMouth ? tool.bodyWith(made.body, step.stop) : end;
      expect(Math.abs(task.off(body) ?? Number.NaN)).toBeLessThan(0.5);
    }
  });
});

/** A tube with one hole, whose note lies so many cents flat of a pitch standard. */
const flat = (cents: number, changes: Readonly<Record<string, string>> = {}) => {
  const text = (a4: number) => {
    const { hole = "diameter: 8", holes = "o", mouth = "keep" } = changes;
    return `borewright: 1
family: duct
key: D5
pitchStandard: ${a4.toFixed(9)}
air: { temperature: 20 }
mouth: { window: { width: 8.5, cutUp: 4 } }
bore: [{ at: 0, diameter: 13 }, { at: 263.1, diameter: 13 }]
wall: 2
bench: { mouth: ${mouth} }
holes: [{ name: R3, at: 228.3, ${hole} }]
fingerings: [{ note: E5, holes: ${holes} }]
`;
  };
  const hz = analyse(documentOf(fileOf(text(440))).resolution.instrument).fingerings[0]?.predictedHz ?? Number.NaN;
  // E5 lies seven semitones above A4.
  return text((hz / 2 ** (7 / 12)) * 2 ** (cents / 1200));
};

describe("one note", () => {
  const LIMITED = { hole: "diameter: 8, limits: { diameter: [4, 8] }" };
  it.each<readonly [string, number, number | undefined, Parameters<typeof flat>[1], BenchOptions, string]>([
    ["that may well be out of tune is worked", 4, 2, {}, {}, "open R3"],
    ["that is surely right is not", 4, 0.5, {}, {}, ""],
    ["nor is one that the measurement says nothing of", 4, 12, {}, {}, ""],
    ["is left where it is flat but as unsure", 8, 12, {}, {}, "unsure"],
    ["is opened by as little as a reamer can", 8, 7.4, {}, {}, "open R3"],
    ["is right within what is asked", 8, 1, {}, { within: 10 }, ""],
    ["is not right within less", 4, 0.5, {}, { within: 3 }, "open R3"],
    ["is bushed where it is surely sharp", -8, 1, {}, {}, "bush R3"],
    ["is left where it only looks sharp", -8, 2, {}, {}, "unsure"],
    ["is right a little sharp", -4, 0.5, {}, {}, ""],
    ["is not cut by what no tuner would show if nobody has measured it", 10.4, undefined, {}, {}, "unsure"],
    ["is not cut by a size that it would hardly hear", 10.6, undefined, {}, {}, "unsure"],
    ["is cut by more", 11.5, undefined, {}, {}, "open R3"],
    ["of a hole as wide as it may be is undercut", 20, 1, LIMITED, {}, "undercut R3"],
    ["of such a hole is undercut unmeasured", 40, undefined, LIMITED, {}, "undercut R3"],
    [
      "is left where the undercut is as wide, too",
      90,
      1,
      { hole: LIMITED.hole.replace("8,", "8, undercut: 2.8,") },
      {},
      "limit",
    ],
    ["of the whole length shortens the tube", 20, 1, { holes: "x" }, {}, "shorten the tube"],
    ["of the whole length is left where it is sharp", -20, 1, { holes: "x" }, {}, "no-tool"],
    ["is not bushed at the mouth", -20, 1, { holes: "x", mouth: "open" }, {}, "no-tool"],
    ["of the whole length is left as unsure", 8, 12, { holes: "x" }, {}, "unsure"],
  ])("%s", (_, cents, uncertainty, changes, options, expected) => {
    const text = flat(cents, changes);
    const plan = planOf(uncertainty === undefined ? text : measuring(text, uncertainty), options);
    expect([...plan.steps.map(({ kind, name }) => `${kind} ${name}`), ...plan.left.map(({ why }) => why)].join()).toBe(
      expected,
    );
    const reads = { name: "E5", reading: expect.closeTo(-cents, 3), right: expect.closeTo(0, 6) };
    expect(plan.now).toEqual([{ ...reads, uncertainty }]);
    // 10 cents is what a note that nobody has measured is taken to be unsure by. Common practice, no source.
    for (const left of plan.left)
      expect(left).toMatchObject({ off: expect.closeTo(-cents, 3), unsure: uncertainty ?? 10, notes: [reads] });
    expect(plan.within).toBe(options.within ?? 5);
    expect(plan.isMeasured).toBe(uncertainty !== undefined);
    for (const { kind, from, to, stop, notes } of plan.steps) {
      if (kind !== "bush") expect((stop - from) / (to - from)).toBeGreaterThanOrEqual(1);
      expect(kind === "bush").toBe(to === stop);
      // Ten cents flat to be opened again, to the nearest size that a reamer makes: a quarter of a cent more or less.
      if (kind === "bush") expect(Math.abs((notes[0]?.reading ?? 0) + 10)).toBeLessThan(0.2);
    }
  });

  it("is opened to a limit, and not by one step less", () => {
    const narrow = flat(40, { hole: "diameter: 8, limits: { diameter: [4, 8.2] }" });
    const [step] = planOf(measuring(narrow, 1)).steps;
    expect(step).toMatchObject({ kind: "open", to: expect.closeTo(8.2e-3, 9), stop: expect.closeTo(8.2e-3, 6) });
  });

  it("reads in the workshop's air: the one asked for, else that of the notes, else the design's", () => {
    const text = measuring(flat(8), 1);
    const cold = text.replace("uncertainty: 1,", "uncertainty: 1, temperature: 16,");
    expect(planOf(text, { workshop: 15 }).workshop).toBe(15);
    expect(planOf(cold).workshop).toBe(16);
    expect(planOf(cold, { workshop: 15 })).toMatchObject({ workshop: 15, temperature: 20 });
    expect(planOf(flat(8)).workshop).toBe(20);
  });
});

it.each([
  // The foot, cut short since its note is unsure, raises the hole's by some tenths of a cent more when it is at its end.
  ["is worked where it is not surely right either way", 8.4, ["shorten the tube", "open R3"], []],
  ["is left alone where it will be right with the work elsewhere", 8.47, ["shorten the tube"], []],
  ["is told where that work makes it sharp", 9.27, ["shorten the tube"], ["unsure"]],
])("a note beside other work %s", (_, diameter, steps, left) => {
  const text = flat(0, { hole: `diameter: ${diameter}`, holes: "x }, { degree: 2, holes: o" })
    .replace(/pitchStandard.*\n/, "")
    .replace("note: E5", "degree: 1")
    .replace("263.1", "268")
    .replace("228.3", "226");
  const plan = planOf(measuring(text, 0.5).replace(/(note: D5.* uncertainty: )0.5/, "$18"));
  expect(plan.steps.map(({ kind, name }) => `${kind} ${name}`)).toEqual(steps);
  expect(plan.left.map(({ why }) => why)).toEqual(left);
});

it("a cut of two registers of which one was measured is worked, however little it does", () => {
  const both = flat(8).replace("holes: o }]", "holes: o }, { note: E6, holes: o, register: 2 }]");
  const { steps, isMeasured } = planOf(measuring(both, 7.4, { E6: undefined }));
  expect(isMeasured).toBe(true);
  expect(steps.map(({ notes }) => notes.map(({ name }) => name))).toEqual([["E5", "E6"]]);
});

it("two registers that lie apart are told with the least sure of them, unless both are right", () => {
  const both = flat(0).replace("holes: o }]", "holes: o }, { note: E6, holes: o, register: 2 }]");
  const at = (E5: number, E6: number) =>
    planOf(lying(both, 1, { E5, E6 }).replace(/(note: E6.* uncertainty: )1/, "$13"));
  expect(at(-9, 10).left).toEqual([expect.objectContaining({ why: "apart", off: expect.closeTo(19, 3), unsure: 3 })]);
  expect(at(-4.8, 5.5).left).toEqual([expect.objectContaining({ why: "apart", off: expect.closeTo(10.3, 3) })]);
  expect(at(-4, 4.5)).toMatchObject({ steps: [], left: [] });
});
