/** Whether a refit that was found is taken, and when it is asked for again. */
import { afterEach, describe, expect, it, vi } from "vitest";
import { REFITS } from "../../../server/src/design/refit/byBody.js";
import { judgedRefit, type Written } from "../../../server/src/design/refit/judgedRefit.js";
import { setNumber } from "../../../server/src/document/edits.js";
import { numberAt, tube } from "../../support/marked.js";
import { asking, obstacle, readFrom, standIn } from "../../support/standInRefit.js";

afterEach(() => vi.restoreAllMocks());

/** A tube whose first two notes are right at 430 mm, and a third that is 300 cents sharp then. A centimetre is some 40 cents. */
const at = (foot: number) =>
  readFrom(
    tube(`bore: [{ at: 0, diameter: 16 }, { at: ${foot}, diameter: 16 }]
fingerings: [{ note: G4 }, { note: G5, register: 2 }, { note: E5, register: 2 }]`),
  );
const footOf = ({ file }: Written) => numberAt(file.text, "bore.1.at");
const two = { left: new Set([2]) };

describe("a refit that was found", () => {
  it("is taken where the notes come nearer, and is the text it makes", () => {
    standIn(() => ({ foot: 430 }));
    const there = at(404);
    const { isTaken, after, edits, moves, obstacles } = judgedRefit(there, asking(there, two));
    expect(isTaken).toBe(true);
    expect(after.file.text).toBe(at(430).file.text);
    expect(after.analysis.fingerings[0]?.cents).toBeCloseTo(1.5, 0);
    expect(edits.map(({ text }) => text)).toEqual(["430"]);
    expect(moves).toEqual([{ path: ["bore", 1, "at"], from: 404, to: 430 }]);
    expect(obstacles()).toEqual([obstacle(1)]);
  });
  it("is not taken where they do not, but told", () => {
    standIn(() => ({ foot: 400 }));
    const there = at(404);
    const { isTaken, after, edits } = judgedRefit(there, asking(there, two));
    expect([isTaken, footOf(after), edits.length]).toEqual([false, 400, 1]);
  });
  it("is what was there, where nothing is to change", () => {
    standIn(() => ({}));
    const there = at(404);
    const { isTaken, after, edits, moves, obstacles } = judgedRefit(there, asking(there, two));
    expect([isTaken, edits, moves]).toEqual([false, [], []]);
    expect(after).toBe(there);
    expect(obstacles()).toEqual([obstacle(1)]);
  });
  it("does not bring some notes nearer, and still far off, at the cost of those left aside", () => {
    const there = at(475);
    const taken = (foot: number) => {
      vi.restoreAllMocks();
      standIn(() => ({ foot }));
      return judgedRefit(there, asking(there, two)).isTaken;
    };
    // From 170 cents to 61 while the note left aside goes from 134 to 244; to 22 they are notes of the design.
    expect([taken(446), taken(436)]).toEqual([false, true]);
    // Farther off by less than the others were, it may go anywhere.
    const farther = at(500);
    vi.restoreAllMocks();
    standIn(() => ({ foot: 446 }));
    expect(judgedRefit(farther, asking(farther, two)).isTaken).toBe(true);
  });
});

describe("with the bore held", () => {
  const there = at(404);
  const holes = asking(there, two, { freedom: "holes" });

  it("is asked for again with every note where it is not taken, and not where it is, or nothing was found", () => {
    const goals = standIn((_, asked) => ({ foot: asked === 0 ? 400 : 430 }));
    const { isTaken, after } = judgedRefit(there, holes);
    expect([isTaken, footOf(after)]).toEqual([true, 430]);
    expect(goals.map(({ everyNote }) => everyNote)).toEqual([undefined, true]);
    expect(goals[1]?.targets).toEqual(holes.goal.targets);
    vi.restoreAllMocks();
    expect(standInAsked({ foot: 430 })).toBe(1);
    expect(standInAsked({})).toBe(1);
  });
  it("is the first again where the second is not taken either", () => {
    standIn((_, asked) => ({ foot: asked === 0 ? 400 : 390 }));
    expect(footOf(judgedRefit(there, holes).after)).toBe(400);
  });
  it("is not asked for again where the bore is free", () => {
    const goals = standIn(() => ({ foot: 400 }));
    judgedRefit(there, asking(there, two));
    expect(goals).toHaveLength(1);
  });

  function standInAsked(found: { readonly foot?: number }): number {
    vi.restoreAllMocks();
    const goals = standIn(() => found);
    judgedRefit(there, holes);
    return goals.length;
  }
});

it("a tube's keeps the limits of its own, and its shape is not looked at again", () => {
  const there = readFrom(`${at(404).file.text}print: { nozzle: 0.4 }\n`);
  vi.spyOn(REFITS.tube, "refit").mockImplementation((_file, document) => ({
    edits: [...setNumber(document, ["bore", 1, "at"], 430, 3), ...setNumber(document, ["wall"], 0.25, 3)],
    moves: [],
    isInTune: true,
    keptLimits: true,
    obstacles: () => [],
  }));
  expect(judgedRefit(there, asking(there, two)).isTaken).toBe(true);
});

it("a chamber's is not taken where its shape breaks a limit that was kept", () => {
  const there = readFrom(`borewright: 1
family: vessel
key: C5
mouth: { window: { width: 9, cutUp: 5 } }
vessel: { shape: sphere, diameter: 56 }
wall: 4
holes: [{ name: A, diameter: 6, angle: 60 }, { name: B, diameter: 6, angle: 140 }]
fingerings: [{ note: C5, holes: xx }]
print: { nozzle: 0.4 }
`);
  const taken = (wall: number) => {
    vi.restoreAllMocks();
    vi.spyOn(REFITS.vessel, "refit").mockImplementation((_file, document) => ({
      edits: [...setNumber(document, ["vessel", "diameter"], 50, 3), ...setNumber(document, ["wall"], wall, 3)],
      moves: [],
      isInTune: true,
      keptLimits: true,
      obstacles: () => [],
    }));
    const { isTaken, after } = judgedRefit(there, asking(there));
    // Nearer either way.
    expect(Math.abs(after.analysis.fingerings[0]?.cents ?? 999)).toBeLessThan(
      Math.abs(there.analysis.fingerings[0]?.cents ?? 0),
    );
    return isTaken;
  };
  // No nozzle prints a wall of a quarter of a millimetre.
  expect([taken(3.9), taken(0.25)]).toEqual([true, false]);
});
