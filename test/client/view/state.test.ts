/** What the bore view shows after what has happened: no browser needed. */
import { describe, expect, it } from "vitest";
import { type Event, INITIAL, next, shownRows, stepped, type ViewState } from "../../../client/view/state.js";
import type { BoreViewData, Handle } from "../../../server/src/protocol/boreView.js";

const handle: Handle = {
  kind: "place",
  station: -1,
  hole: 0,
  name: "L1",
  path: ["holes", 0, "at"],
  lines: [4, 4],
  value: 100,
  formula: undefined,
  fixed: false,
  least: 90.04,
  greatest: 120,
  centsPerMillimetre: [0, -8],
};

const row = {
  path: ["fingerings", 0],
  register: 1,
  targetHz: 440,
  predictedHz: 441,
  band: 5,
  inTune: true,
  wave: undefined,
};
const view = (more: Partial<BoreViewData> = {}): BoreViewData =>
  ({
    uri: "file:///a.bore.yaml",
    version: 1,
    documentIndex: 0,
    outline: { family: "duct", name: "Quay", body: { kind: "tube", holes: [] }, assumed: [] },
    unit: { millimetres: 1, name: "mm", step: 0.1 },
    verdict: { inTune: true, words: "All 2 in tune", worst: "" },
    together: { below: 20, above: 20 },
    tolerance: 10,
    key: "G4",
    keyHz: 392,
    facts: [],
    handles: [handle],
    rows: [
      { ...row, note: "G4", cents: 1, covers: [1], lines: [7, 7] },
      { ...row, note: "A4", cents: 4, covers: [0], lines: [8, 9] },
    ],
    ...more,
  }) as BoreViewData;

const stateAfter = (...events: readonly Event[]): ViewState => events.reduce(next, INITIAL);
const drawn: Event = { type: "view", view: view() };

describe("the bore view's state", () => {
  it("selects the row whose lines the cursor is on", () => {
    expect(stateAfter(drawn, { type: "cursor", line: 9 }).selected).toBe(1);
    expect(stateAfter(drawn, { type: "cursor", line: 4 }).hole).toBe(0);
    expect(stateAfter(drawn, { type: "select", row: 1 }, { type: "cursor", line: 0 }).selected).toBe(1);
  });

  it("moves the notes by their slopes until the server has answered, then shows the answer", () => {
    const dragged = stateAfter(drawn, { type: "drag", handle, value: 101 });
    expect(shownRows(dragged).map(({ cents }) => cents)).toEqual([1, -4]);
    const answered = next(dragged, {
      type: "trial",
      value: 101,
      answer: {
        view: view({ rows: [{ ...view().rows[0], cents: 0.9 } as never, { ...view().rows[1], cents: -4.3 } as never] }),
        edits: [],
      },
    });
    expect(shownRows(answered).map(({ cents }) => cents)).toEqual([0.9, -4.3]);
    expect(shownRows(next(answered, { type: "drag", handle, value: 102 })).map(({ cents }) => cents)).toEqual([
      0.9, -12.3,
    ]);
  });

  it("says when a note leaves its tolerance on the way", () => {
    expect(shownRows(stateAfter(drawn, { type: "drag", handle, value: 103 })).map(({ inTune }) => inTune)).toEqual([
      true,
      false,
    ]);
  });

  it("stops at limits, and says so", () => {
    const { drag } = stateAfter(drawn, { type: "drag", handle, value: 140 });
    expect(drag).toMatchObject({ value: 120, stopped: true });
  });

  it("goes back to the text when the drag ends or the text changes", () => {
    const dragged = stateAfter(drawn, { type: "drag", handle, value: 101 });
    for (const event of [{ type: "endDrag" }, { type: "view", view: view({ version: 2 }) }] as const)
      expect(next(dragged, event)).toMatchObject({ drag: undefined, trial: undefined });
  });

  it("keeps what is dragged when the same text is drawn again", () => {
    const dragged = stateAfter(drawn, { type: "drag", handle, value: 101 });
    expect(next(dragged, drawn).drag?.value).toBe(101);
  });

  it("shows a proposed change in place of the text, until it is dropped or the text says something new", () => {
    const answer = { view: view({ rows: [{ ...view().rows[0], cents: 0 } as never] }), edits: [], title: "", says: [] };
    const shown = stateAfter(drawn, { type: "fixes", row: 1, titles: ["a"] }, { type: "proposal", answer });
    expect(shownRows(shown).map(({ cents }) => cents)).toEqual([0]);
    expect(shown.fixes).toBeUndefined();
    for (const event of [
      { type: "proposal", answer: undefined },
      { type: "view", view: view({ version: 2 }) },
    ] as const)
      expect(shownRows(next(shown, event)).map(({ cents }) => cents)).toEqual([1, 4]);
  });

  it("keeps what a brief answer leaves out, and takes the full answer after it", () => {
    const brief = view({
      version: 2,
      together: undefined,
      rows: view().rows.map((each) => ({ ...each, cents: 2, band: undefined })),
      handles: [{ ...handle, value: 101, centsPerMillimetre: [] }],
    });
    const { file } = stateAfter(drawn, { type: "view", view: brief });
    expect(file?.rows.map(({ cents, band }) => [cents, band])).toEqual([
      [2, 5],
      [2, 5],
    ]);
    expect(file).toMatchObject({
      together: { below: 20, above: 20 },
      handles: [{ value: 101, centsPerMillimetre: [0, -8] }],
    });
    const full = view({ version: 2, together: { below: 21, above: 21 } });
    expect(stateAfter(drawn, { type: "view", view: brief }, { type: "view", view: full }).file).toEqual(full);
  });

  it("keeps the last drawing while the text cannot be read", () => {
    const state = stateAfter(drawn, { type: "trouble", words: "Line 3 cannot be read yet." });
    expect(state.file).toBeDefined();
    expect(state.trouble).toContain("Line 3");
    expect(next(state, drawn).trouble).toBeUndefined();
  });

  it("steps as the design is drawn, inside the limits", () => {
    expect(stepped(view(), handle, 100.27)).toBeCloseTo(100.3, 9);
    expect(stepped(view(), handle, 90.04)).toBeCloseTo(90.1, 9);
    const inches = view({ unit: { millimetres: 25.4, name: "in", step: 0.001 } });
    expect(stepped(inches, handle, 100) / 25.4).toBeCloseTo(3.937, 9);
  });
});
