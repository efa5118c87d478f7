/** Refits one after the other, each from what the last has drawn. */
import { afterEach, describe, expect, it, vi } from "vitest";
import * as judged from "../../../server/src/design/refit/judgedRefit.js";
import { refitUntilStill } from "../../../server/src/design/refit/refitUntilStill.js";
import { CannotRekey } from "../../../server/src/design/rekey/rekeyResult.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { tube } from "../../support/marked.js";
import { asking, type Found, obstacle, readFrom, standIn } from "../../support/standInRefit.js";

afterEach(() => vi.restoreAllMocks());

/** Right at 430 mm. A centimetre is some 40 cents. */
const text = (foot: number) =>
  tube(`bore: [{ at: 0, diameter: 16 }, { at: ${foot}, diameter: 16 }]
fingerings: [{ note: G4 }, { note: G5, register: 2 }]`);
const there = readFrom(text(404));
/** Finds these places of the foot in turn, then nothing. */
const inTurn =
  (...feet: readonly number[]) =>
  (_: unknown, asked: number): Found =>
    feet[asked] === undefined ? {} : { foot: feet[asked] };

describe("refits one after the other", () => {
  it("go on from what was drawn until nothing more is found, and are told as one", () => {
    const goals = standIn(inTurn(420, 428, 430));
    const { edits, moves, isTaken, after, obstacles } = refitUntilStill(there, asking(there));
    expect(isTaken).toBe(true);
    expect(after.file.text).toBe(text(430));
    expect(edits).toHaveLength(1);
    expect(applyEdits(text(404), edits)).toBe(text(430));
    expect(moves).toEqual([{ path: ["bore", 1, "at"], from: 404, to: 430 }]);
    expect(goals.map(({ isRepeat }) => isRepeat)).toEqual([undefined, true, true, true]);
    // The last refit taken knows what is in its way.
    expect(obstacles()).toEqual([obstacle(3)]);
  });
  it("end with one that is not taken, which is no part of what is told", () => {
    standIn(inTurn(428, 400));
    const { edits, isTaken, after, obstacles } = refitUntilStill(there, asking(there));
    expect([isTaken, applyEdits(text(404), edits), after.file.text]).toEqual([true, text(428), text(428)]);
    expect(obstacles()).toEqual([obstacle(1)]);
  });
  it("are none where the first is not taken, in the design's own key", () => {
    const goals = standIn(inTurn(400, 430));
    const found = refitUntilStill(there, asking(there));
    expect([found.isTaken, found.edits, found.moves, found.after]).toEqual([false, [], [], there]);
    expect(found.obstacles()).toEqual([obstacle(1)]);
    expect(goals).toHaveLength(1);
  });
  it("end at the sixth, and with the first where the work is spent", () => {
    const halfway = (_: unknown, __: number, foot: number) => ({ foot: (foot + 430) / 2 });
    expect([standIn(halfway), refitUntilStill(there, asking(there))][0]).toHaveLength(6);
    vi.restoreAllMocks();
    const goals = standIn(halfway);
    const { isTaken } = refitUntilStill(there, asking(there, {}, { isSpent: () => true }));
    expect([isTaken, goals.length]).toEqual([true, 1]);
  });
  it("begin anew from what is drawn where another key's size led nowhere, once", () => {
    const goals = standIn(inTurn(400, 430));
    const found = refitUntilStill(there, asking(there, {}, { factor: 1.06 }));
    expect([found.isTaken, found.after.file.text]).toEqual([true, text(430)]);
    expect(goals.map(({ factor }) => factor)).toEqual([1.06, 1, 1]);
    vi.restoreAllMocks();
    const twice = standIn(inTurn(400, 399, 430));
    expect(refitUntilStill(there, asking(there, {}, { factor: 1.06 })).isTaken).toBe(false);
    expect(twice).toHaveLength(2);
    vi.restoreAllMocks();
    const none = standIn(() => ({}));
    refitUntilStill(there, asking(there, {}, { factor: 1.06 }));
    expect(none).toHaveLength(1);
  });
  it("may lose a note only the first time, and only in another key", () => {
    standIn(inTurn(420, 430));
    const asked = vi.spyOn(judged, "judgedRefit");
    const kept = (keepsNotes: boolean) => {
      asked.mockClear();
      refitUntilStill(there, asking(there, { keepsNotes }));
      return asked.mock.calls.map(([, { keepsNotes }]) => keepsNotes);
    };
    expect(kept(false)).toEqual([false, true, true]);
    vi.restoreAllMocks();
  });
});

describe("a refit that is refused", () => {
  const refusing = (at: number, error: Error) =>
    standIn((_, asked) => {
      if (asked === at) throw error;
      return { foot: 420 + 5 * asked };
    });

  it("is no fault once another was taken", () => {
    refusing(1, new CannotRekey("limits"));
    const { isTaken, after } = refitUntilStill(there, asking(there));
    expect([isTaken, after.file.text]).toEqual([true, text(420)]);
  });
  it("is one where none was, and what is no refusal is always one", () => {
    refusing(0, new CannotRekey("limits"));
    expect(() => refitUntilStill(there, asking(there))).toThrow("limits");
    vi.restoreAllMocks();
    refusing(1, new TypeError("a fault of ours"));
    expect(() => refitUntilStill(there, asking(there))).toThrow("a fault of ours");
  });
});
