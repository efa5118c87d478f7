/** What is particular to each kind of body in reading a design: its rules, what it plays, how it is printed. */
import type { Note } from "../music/note.js";
import type { Body } from "./body.js";
import type { Draft } from "./draft/draft.js";
import { type FingeringReading, readFingerings } from "./fingerings.js";
import type { Numbers } from "./numbers.js";
import { pipeFingerings, pipesOf } from "./printed/pipes.js";
import type { Printing } from "./printed/printing.js";
import { columnOf } from "./printed/tube.js";
import { chamberOf } from "./printed/vessel.js";
import { PIPE_RULES, TUBE_RULES, VESSEL_RULES } from "./rules/index.js";
import type { Rule } from "./rules/rule.js";

export interface BodyReading {
  /** An error among their findings means that there is no such instrument to predict. */
  readonly rules: readonly Rule[];
  readonly fingerings: (data: unknown, key: Note | undefined, numbers: Numbers) => FingeringReading;
  readonly printed: (draft: Draft, printing: Printing) => Body;
  /** While the design contradicts itself. */
  readonly none: Body;
}

export const BODIES: Readonly<Record<Body["kind"], BodyReading>> = {
  tube: {
    rules: TUBE_RULES,
    fingerings: readFingerings,
    printed: (draft, printing) => ({ kind: "tube", column: columnOf(draft, printing) }),
    none: { kind: "tube", column: undefined },
  },
  pipes: {
    rules: PIPE_RULES,
    fingerings: pipeFingerings,
    printed: (draft, printing) => ({ kind: "pipes", pipes: pipesOf(draft, printing) }),
    none: { kind: "pipes", pipes: [] },
  },
  vessel: {
    rules: VESSEL_RULES,
    fingerings: readFingerings,
    printed: (draft, printing) => ({ kind: "vessel", chamber: chamberOf(draft, printing) }),
    none: { kind: "vessel", chamber: undefined },
  },
};
