/** The pipes of a pan pipe as printed: each a tube blown over its rim and stopped at the foot. */
import type { Column } from "../../acoustics/column.js";
import type { PanPipe } from "../body.js";
import { DEFAULTS, MILLIMETRES_PER_INCH } from "../defaults.js";
import type { Draft } from "../draft/draft.js";
import type { Finding } from "../finding.js";
import type { FingeringReading } from "../fingerings.js";
import type { Fingering } from "../model.js";
import { readNote } from "../notes.js";
import { isMap, own } from "../path.js";
import { areSizes } from "./allOf.js";
import { printedMouth } from "./openings.js";
import type { Printing } from "./printing.js";

/** As in the schema: longer lists are ignored. */
const MOST_PIPES = 100;

/** The list of pipes as plain data; empty where there is none, or one too long to be meant. */
export function pipeData(data: unknown): readonly unknown[] {
  const pipes = own(data, "pipes");
  return Array.isArray(pipes) && pipes.length <= MOST_PIPES ? pipes : [];
}

/** Every pipe in the file's order; those that are not fully described have no column, and a finding each. */
export function pipesOf(draft: Draft, printing: Printing): readonly PanPipe[] {
  return pipeData(draft.data).map((pipe, i) => ({
    path: ["pipes", i],
    note: readNote(own(pipe, "note"), ["pipes", i, "note"], []),
    column: pipeColumn(draft, printing, i),
  }));
}

/** What a pan pipe plays: one note per pipe. */
export function pipeFingerings(data: unknown): FingeringReading {
  const fingerings = pipeData(data).map(
    (pipe, i): Fingering => ({
      path: ["pipes", i],
      pattern: "",
      covers: isMap(pipe) ? [] : undefined,
      target: readNote(own(pipe, "note"), ["pipes", i, "note"], []),
      targetKind: "note",
      register: DEFAULTS.register,
      breath: 0,
    }),
  );
  return { fingerings, findings: [] };
}

/** Findings for notes that cannot be read. */
export function pipeNoteFindings(data: unknown): readonly Finding[] {
  const findings: Finding[] = [];
  for (const [i, pipe] of pipeData(data).entries()) readNote(own(pipe, "note"), ["pipes", i, "note"], findings);
  return findings;
}

function pipeColumn(draft: Draft, printing: Printing, index: number): Column | undefined {
  const { numbers, data, unit } = draft;
  const { printedUnit } = printing;
  const length = numbers.at(["pipes", index, "length"]);
  const diameter = numbers.at(["pipes", index, "diameter"]);
  const wall =
    own(data, "wall") === undefined ? DEFAULTS.pipeWall / (unit === "in" ? MILLIMETRES_PER_INCH : 1) : draft.wall;
  const mouth = printedMouth(draft, printing);
  if (!printing.known || length === undefined || diameter === undefined || wall === undefined) return undefined;
  if (mouth?.kind !== "rim" && mouth?.kind !== "correction" && mouth?.kind !== "ideal") return undefined;
  const radius = (diameter * printedUnit) / 2;
  const sizes = [length * printedUnit, radius, wall * printedUnit];
  if (!areSizes(sizes)) return undefined;
  return {
    bore: [
      { x: 0, radius },
      { x: length * printedUnit, radius },
    ],
    wall: wall * printedUnit,
    foot: "stopped",
    holes: [],
    mouth,
  };
}
