/** A comparison for programs: one object per design. */

import type { FingeringPrediction } from "../../design/predict/analysis.js";
import type { PlacedFinding } from "../../document/designFile.js";
import { jsonText } from "../../escape/json.js";
import { pathText } from "../../instrument/path.js";
import { intervalName } from "../../music/interval.js";
import { type Compared, type Side, stops, verdictOf } from "../compared.js";
import type { NoteChange } from "../notes.js";

/**
 * Of one design in two versions the object itself, `{fingerings, dimensions, …}`; of several, or of folders,
 * `{leftTolerance, designs: [the same of each]}`. A design whose text did not change, or that is new or gone, has its `kind` and no
 * lists.
 */
export function jsonReport(compared: readonly Compared[], single: boolean): string {
  const designs = compared.map(designReport);
  return jsonText(single && designs.length === 1 ? designs[0] : { leftTolerance: stops(compared), designs });
}

function designReport(compared: Compared) {
  const { kind } = compared;
  const sides = {
    oldFile: kind === "added" ? null : compared.old.file,
    newFile: kind === "removed" ? null : compared.next.file,
    name: (kind === "removed" ? compared.old.name : compared.next.name) ?? null,
    verdict: verdictOf(compared),
    leftTolerance: stops([compared]),
  };
  if (kind !== "both") return { kind, ...sides };
  const { comparison, old, next } = compared;
  const { rekeyed } = comparison;
  return {
    kind: "changed",
    ...sides,
    key: rekeyed && {
      old: rekeyed.from.name,
      new: rekeyed.to.name,
      semitones: rekeyed.semitones,
      interval: intervalName(rekeyed.semitones),
    },
    tolerance: { old: comparison.old.analysis.tolerance, new: comparison.next.analysis.tolerance },
    fingerings: comparison.notes.map(noteReport),
    structure: comparison.structure.map(({ kind: change, list, old: was, next: is }) => ({
      change,
      list,
      old: was || null,
      new: is || null,
    })),
    dimensions: comparison.dimensions.map(({ path, name, old: was, next: is, unit, formula }) => ({
      path: pathText(path),
      name,
      old: was ?? null,
      new: is ?? null,
      unit: unit || null,
      formula: formula ?? null,
    })),
    findings: {
      came: comparison.findings.came.map((finding) => findingReport(next, finding)),
      went: comparison.findings.went.map((finding) => findingReport(old, finding)),
    },
    measures: comparison.measures.map(({ area, name, unit, old: was, next: is }) => ({
      area,
      name,
      unit,
      old: was ?? null,
      new: is ?? null,
    })),
  };
}

function noteReport({ old, next, change, state, leftTolerance, fingeredAnew }: NoteChange) {
  const of = (version: FingeringPrediction | undefined) => ({
    note: version?.fingering.target?.name ?? null,
    holes: version?.fingering.pattern ?? null,
    register: version?.fingering.register ?? null,
    hz: version?.predictedHz ?? null,
  });
  const [was, is] = [of(old), of(next)];
  return {
    note: is.note ?? was.note,
    oldNote: was.note,
    holes: is.holes,
    oldHoles: was.holes,
    register: is.register ?? was.register,
    oldRegister: was.register,
    oldHz: was.hz,
    newHz: is.hz,
    oldCents: old?.cents ?? null,
    newCents: next?.cents ?? null,
    change: change ?? null,
    state,
    leftTolerance,
    fingeredAnew,
  };
}

function findingReport({ file, lines }: Side, { code, severity, message, span }: PlacedFinding) {
  const { line, column } = lines.position(span.start);
  return { file, code, severity, message, line: line + 1, column: column + 1 };
}
