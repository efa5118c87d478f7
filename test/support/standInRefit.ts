/** A refit of a tube that writes whatever a test says in place of what a search would find: what is taken and what follows is worked out by hand. */
import { vi } from "vitest";
import { REFITS } from "../../server/src/design/refit/byBody.js";
import type { Asking, Written } from "../../server/src/design/refit/judgedRefit.js";
import { written } from "../../server/src/design/refit/judgedRefit.js";
import type { Obstacle } from "../../server/src/design/refit/obstacle.js";
import type { Refit, RefitTargets } from "../../server/src/design/refit/refit.js";
import { DEFAULT_SETTINGS } from "../../server/src/design/settings.js";
import { setNumber } from "../../server/src/document/edits.js";
import { fileOf } from "./designs.js";
import { numberAt } from "./marked.js";

/** What is found: the foot's place, mm, and what the refit says of itself. */
export interface Found {
  /** Undefined: nothing to change. */
  readonly foot?: number;
  readonly said?: Partial<Refit>;
}

/** Answers each refit of a tube, and keeps what was asked. The caller restores all mocks. */
export function standIn(find: (goal: RefitTargets, asked: number, there: number) => Found): RefitTargets[] {
  const goals: RefitTargets[] = [];
  vi.spyOn(REFITS.tube, "refit").mockImplementation((file, document, _analysis, goal) => {
    goals.push(goal);
    const path = ["bore", 1, "at"];
    const from = numberAt(file.text, path.join(".")) ?? Number.NaN;
    const asked = goals.length;
    const { foot, said = {} } = find(goal, asked - 1, from);
    const none = { edits: [], moves: [], isInTune: false, keptLimits: true, obstacles: () => [obstacle(asked)] };
    if (foot === undefined) return { ...none, ...said };
    const edits = setNumber(document, path, foot, 3);
    return { ...none, edits, moves: [{ path, from, to: foot }], ...said };
  });
  return goals;
}

/** What stands in the way of the refit that was asked for as this one. */
export function obstacle(number: number): Obstacle {
  return { message: `in the way of refit ${number}`, advice: "none", limit: 1, needed: 2, unit: "mm" };
}

export function readFrom(text: string): Written {
  return written(fileOf(text), 0, DEFAULT_SETTINGS, {});
}

/** What is asked where nothing is said: the design's own key with everything free, and no note aside. */
export function asking({ analysis }: Written, more: Partial<Asking> = {}, goal: Partial<RefitTargets> = {}): Asking {
  const targets = analysis.fingerings.map(({ targetHz }) => targetHz);
  return {
    goal: { targets, factor: 1, freedom: "all", ...goal },
    left: new Set(),
    keepsNotes: true,
    settings: DEFAULT_SETTINGS,
    options: {},
    ...more,
  };
}
