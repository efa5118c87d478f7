/** From the plain data of a design to the checked instrument. */
import { drained, type Steps } from "../acoustics/steps.js";
import { t } from "../words/translation.js";
import { airPreset, readAir } from "./air.js";
import { BODIES } from "./bodies.js";
import { type Body, isDescribed, sharedColumn } from "./body.js";
import { containedSteps } from "./contained.js";
import { stepsKept } from "./draft/boreSteps.js";
import type { Draft } from "./draft/draft.js";
import { draftOf } from "./draft/read.js";
import { bodyKindOf } from "./families/index.js";
import type { Finding } from "./finding.js";
import { makingOf } from "./making/making.js";
import { type MeasuredReading, readMeasured } from "./measured.js";
import type { Instrument, Resolution } from "./model.js";
import { type NotesMeant, notesMeant } from "./notesMeant.js";
import { type Numbers, resolveNumbers } from "./numbers.js";
import { isMap, own, pathKey, valueAt } from "./path.js";
import { pipeNoteFindings } from "./printed/pipes.js";
import { printingOf, printTolerance, roundingOf } from "./printed/printing.js";
import { isInOrder } from "./printed/tube.js";
import { statedBreath, statedLips, statedWindway } from "./printed/windway.js";
import { checkRuleNames, ruleLevelsOf } from "./ruleLevels.js";
import { BODY_RULES, DATA_RULES, MAKING_RULES, MEASURED_RULES, NUMBER_RULES } from "./rules/index.js";
import { unusedParameters } from "./rules/unusedParameters.js";
import { checkSchema } from "./schemaCheck.js";

/**
 * Works out a design: schema, expressions, units, defaults, shape. `data` is what the file's text says, as plain maps,
 * lists and scalars; undefined means an empty file. Never throws; what is wrong is among the findings, and
 * everything that does not depend on it is still worked out.
 */
export function resolveInstrument(data: unknown): Resolution {
  return drained(resolutionSteps(data));
}

/** As `resolveInstrument`, step by step. */
export function* resolutionSteps(data: unknown): Steps<Resolution> {
  if (!isMap(data)) return { ...(yield* mapSteps({})), findings: [notADesign(data)], numbers: [] };
  return yield* mapSteps(data);
}

/** The instrument alone, as `resolutionSteps` makes it, without findings. */
export function* instrumentSteps(data: Readonly<Record<string, unknown>>): Steps<Instrument> {
  return (yield* madeSteps(data)).instrument;
}

/** A resolved design, and all findings on the way to it. */
interface Made {
  readonly numbers: Numbers;
  readonly bounds: readonly Finding[];
  readonly draft: Draft;
  readonly shape: readonly Finding[];
  readonly notes: NotesMeant;
  readonly measured: MeasuredReading;
  readonly instrument: Instrument;
}

function* madeSteps(data: Readonly<Record<string, unknown>>): Steps<Made> {
  const numbers = resolveNumbers(data);
  yield;
  const unit = own(data, "units") === "in" ? "in" : "mm";
  const bounds = yield* checkNumbers(numbers, unit, data);
  const usable = without(numbers, bounds);
  const draft = draftOf(data, usable);
  yield;
  const drawn = yield* checkShape(draft);
  const body = bodyOf(draft, drawn);
  const shape = [...drawn, ...(yield* byRules(BODY_RULES, (rule) => rule.check(body)))];
  const notes = notesMeant(data, draft);
  const measured = readMeasured(data, usable, notes.tuning.tuning.pitchStandard);
  yield;
  const instrument = instrumentOf(draft, notes, measured.measured, shape);
  return { numbers, bounds, draft, shape, notes, measured, instrument };
}

function* mapSteps(data: Readonly<Record<string, unknown>>): Steps<Resolution> {
  const { numbers, bounds, draft, shape, notes, measured, instrument } = yield* madeSteps(data);
  const { fingerings } = instrument;
  const findings = [
    ...(yield* byRules(DATA_RULES, (rule) => rule.check(data))),
    ...(yield* found("The schema", () => checkSchema(data))),
    ...(yield* found("The names under rules", () => checkRuleNames(data))),
    ...numbers.findings,
    ...bounds,
    ...notes.tuning.findings,
    ...notes.fingering.findings,
    ...measured.findings,
    ...(yield* byRules(MEASURED_RULES, (rule) => rule.check(measured.measured, fingerings))),
    ...(yield* found("Unused parameters", () => unusedParameters(data, numbers))),
    ...(yield* found("The notes of pipes", () => pipeNoteFindings(data))),
    ...shape,
    ...(isDrawn(shape) ? yield* containedSteps("The making", () => checkMaking(draft, fingerings), []) : []),
  ];
  const varied: Resolution["varied"] = (path, by, follow) => {
    const changed = stepsKept(
      draft,
      draftOf(data, without({ ...numbers, ...numbers.changed(path, by, follow) }, bounds)),
    );
    const body = bodyOf(changed, shape);
    const column = sharedColumn(body);
    if (column !== undefined && !isInOrder(column)) return undefined;
    return isDescribed(body) ? { body, air: readAir(data, changed.numbers) } : undefined;
  };
  return {
    instrument,
    draft,
    varied,
    findings,
    numbers: numbers.list,
    nameUses: numbers.nameUses,
    ruleLevels: ruleLevelsOf(data),
  };
}

/** What one check finds; nothing where it fails. */
function found(name: string, look: () => readonly Finding[]): Steps<readonly Finding[]> {
  return containedSteps(
    name,
    function* () {
      yield;
      return look();
    },
    [],
  );
}

function* checkNumbers({ list }: Numbers, unit: "mm" | "in", data: unknown): Steps<readonly Finding[]> {
  const findings: Finding[] = [];
  for (const rule of NUMBER_RULES) {
    const said = new Set(findings.map(({ path }) => pathKey(path)));
    const more = yield* byRules([rule], (each) => each.check(list, unit, data));
    findings.push(...more.filter(({ path }) => !said.has(pathKey(path))));
  }
  return findings;
}

/** What rules find; one that fails does not affect the others. */
function* byRules<R extends { readonly code: string }>(
  rules: readonly R[],
  check: (rule: R) => readonly Finding[],
): Steps<readonly Finding[]> {
  const findings: Finding[] = [];
  for (const rule of rules) findings.push(...(yield* found(`The rule ${rule.code}`, () => check(rule))));
  return findings;
}

function notADesign(data: unknown): Finding {
  if (data === undefined || data === null) {
    const message = t(
      "This file is empty. A design begins with `borewright: 1`; then come `family`, `key`, `mouth`, `bore` and so on.",
    );
    return { code: "file/empty", severity: "information", message, path: [] };
  }
  const what = Array.isArray(data) ? t("a list") : t("a single value");
  const message = t`A design is a group of named properties, such as \`borewright: 1\` and \`key: G4\`; this is ${what}.`;
  return { code: "file/not-a-design", severity: "error", message, path: [] };
}

/** Numbers beyond their bounds count as not given: they have their finding, and nothing is calculated with them. */
function without(numbers: Numbers, bad: readonly Finding[]): Numbers {
  const keys = new Set(bad.map(({ path }) => pathKey(path)));
  return { ...numbers, at: (path) => (keys.has(pathKey(path)) ? undefined : numbers.at(path)) };
}

function checkShape(draft: Draft): Steps<readonly Finding[]> {
  return byRules(BODIES[bodyKindOf(draft)].rules, (rule) => rule.check(draft));
}

/** Nothing contradicts itself: parts may still be missing, but what is drawn, and its size, can be trusted. */
function isDrawn(shape: readonly Finding[]): boolean {
  return shape.every(
    ({ code, severity }) =>
      code === "design/incomplete" || (severity !== "error" && code !== "print/scale-looks-like-factor"),
  );
}

/** Whether it can be held and printed. */
function* checkMaking(draft: Draft, fingerings: Instrument["fingerings"]): Steps<readonly Finding[]> {
  const making = makingOf(draft, fingerings);
  return making === undefined ? [] : yield* byRules(MAKING_RULES, (rule) => rule.check(making));
}

function drawnFlatOf({ at }: Numbers): Instrument["drawnFlat"] {
  const holes = at(["bench", "holesFlat"]) ?? 0;
  return { holes, length: at(["bench", "lengthFlat"]) ?? 0, room: at(["bench", "room"]) ?? holes };
}

function instrumentOf(
  draft: Draft,
  { tuning: { key, tuning, temperament }, fingering: { fingerings } }: NotesMeant,
  measured: Instrument["measured"],
  shape: readonly Finding[],
): Instrument {
  const { data, numbers, family } = draft;
  const name = own(data, "name");
  const printing = printingOf(draft);
  return {
    name: typeof name === "string" ? name : undefined,
    family,
    key,
    tuning,
    temperament,
    tolerance: numbers.at(["tolerance"]),
    drawnFlat: drawnFlatOf(numbers),
    keepsMouth: valueAt(data, ["bench", "mouth"]) === "keep",
    air: readAir(data, numbers),
    airPreset: airPreset(data),
    body: bodyOf(draft, shape),
    printedUnit: printing.printedUnit,
    unitMillimetres: printing.unitMillimetres,
    holeUndersize: printing.holeUndersize,
    rounding: roundingOf(draft),
    printScale: printing.printScale,
    holes: draft.holes.map(({ label, path }) => ({ name: label, path })),
    fingerings,
    measured,
    calibrated: isCalibrated(draft),
    printTolerance: printTolerance(draft),
    windway: statedWindway(draft, printing),
    lips: statedLips(draft, printing),
    breath: statedBreath(draft),
  };
}

/** What sounds: a column, the columns of pipes, or a vessel; nothing where the rules of the family found an error. */
function bodyOf(draft: Draft, shape: readonly Finding[]): Body {
  const { printed, none } = BODIES[bodyKindOf(draft)];
  return shape.some(({ severity }) => severity === "error") ? none : printed(draft, printingOf(draft));
}

function isCalibrated({ data, mouth, numbers }: Draft): boolean {
  if (mouth === undefined || mouth.kind === "ideal") return false;
  return (
    mouth.kind === "correction" ||
    (own(own(data, "mouth"), "extra") !== undefined && numbers.at(["mouth", "extra"]) !== undefined)
  );
}
