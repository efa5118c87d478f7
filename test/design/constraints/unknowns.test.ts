/** What a refit may change of a tube: by what the design says stays, by pairs under one finger, steps of the bore, and what it is asked for. */
import { describe, expect, it } from "vitest";
import { benchConstraintsOf, constraintsOf } from "../../../server/src/design/constraints/constraints.js";
import {
  alongWith,
  changesNoNote,
  type Freedom,
  type Unknown,
  unknownsOf,
  valueIn,
  withValue,
} from "../../../server/src/design/constraints/unknowns.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { columnOf, instrumentOf, tube } from "../../support/marked.js";

/** Two holes under one finger, a step of the bore at 240 mm, a stopper. */
const PARTS = {
  holes: ["{ at: 120, diameter: 6 }", "{ at: 200, diameter: 5, angle: -25 }", "{ at: 202, diameter: 5.5, angle: 25 }"],
  bore: [
    "{ at: -16, diameter: 19 }",
    "{ at: 0, diameter: 19 }",
    "{ at: 100, diameter: 19 }",
    "{ at: 240, diameter: 18 }",
    "{ at: 240, diameter: 17.5 }",
    "{ at: 352, diameter: 17.5 }",
  ],
};
interface More {
  /** Entry that is added to the hole or station of that index. */
  readonly holes?: Readonly<Record<number, string>>;
  readonly bore?: Readonly<Record<number, string>>;
  readonly text?: string;
}
function textOf({ holes = {}, bore = {}, text = "" }: More = {}) {
  const list = (items: readonly string[], more: Readonly<Record<number, string>>) =>
    items.map((item, i) => `  - ${item.replace(" }", more[i] === undefined ? " }" : `, ${more[i]} }`)}`).join("\n");
  return tube(
    `family: transverse\nmouth: { hole: { length: 10, width: 10 }, stopper: 16 }\nbore:\n${list(PARTS.bore, bore)}\nwall: 5\nholes:\n${list(PARTS.holes, holes)}\n${text}`,
  );
}
function unknownsIn(text: string, freedom: Freedom = "all"): readonly Unknown[] {
  const document = documentOf(fileOf(text));
  return unknownsOf(document.resolution.instrument, columnOf(text), freedom, constraintsOf(document));
}
const told = (more?: More, freedom?: Freedom) =>
  unknownsIn(textOf(more), freedom).map(
    ({ kind, path, along = [] }) => `${kind} ${path.join(".")}${along.length > 0 ? ` with ${along.join()}` : ""}`,
  );

const HOLES = [
  "hole-place holes.0.at",
  "hole-radius holes.0.diameter",
  "hole-place holes.1.at with 2",
  "hole-radius holes.1.diameter",
  "hole-radius holes.2.diameter",
];
const STEP = "station-place bore.3.at with 4";
const TAPER = "station-radius bore.3.diameter";
const LOWER = "station-radius bore.4.diameter with 5";
const BORE = ["station-place bore.2.at", STEP, TAPER, LOWER, "station-place bore.5.at"];

describe("what a refit may change", () => {
  it("is places and widths; the pair as one, the step as one edge, the cylinder in one width with the taper's end above it, what lies at the mouth not at all", () => {
    expect(told()).toEqual([...HOLES, ...BORE, "stopper mouth.stopper"]);
    expect(told({}, "holes")).toEqual(HOLES);
  });
  it("is not what is fixed, nor the place of what would have to move along", () => {
    const without = (...gone: readonly string[]) =>
      [...HOLES, ...BORE, "stopper mouth.stopper"].filter((each) => !gone.includes(each));
    expect(told({ holes: { 0: "fixed: true" } })).toEqual(without(...HOLES.slice(0, 2)));
    for (const [i, own] of [
      [1, "hole-radius holes.1.diameter"],
      [2, "hole-radius holes.2.diameter"],
    ] as const)
      expect(told({ holes: { [i]: "fixed: true" } })).toEqual(without("hole-place holes.1.at with 2", own));
    for (const [i, own] of [
      [3, TAPER],
      [4, LOWER],
    ] as const)
      expect(told({ bore: { [i]: "fixed: true" } })).toEqual(without(STEP, own));
    expect(told({ bore: { 5: "fixed: true" } })).toEqual(without("station-place bore.5.at", LOWER));
  });
  it("is a cylinder's width where the design lets it, and undercuts as well", () => {
    expect(told({ bore: { 5: "limits: { diameter: [17, 18] }" } })).toContain("station-radius bore.5.diameter");
    const free = told({ text: "refit: { taper: free, undercut: 1 }" });
    expect(free.filter((each) => each.startsWith("station-radius"))).toHaveLength(4);
    expect(free.filter((each) => each.startsWith("hole-undercut"))).toEqual(
      [0, 1, 2].map((i) => `hole-undercut holes.${i}.undercut`),
    );
    expect(told({ text: "refit: { undercut: 0 }" }).join()).not.toContain("undercut");
  });
});

describe("an unknown", () => {
  const text = textOf();
  const column = columnOf(text);
  const unknowns = unknownsIn(textOf({ text: "refit: { undercut: 1 }" }));

  it("set to another value has it, takes along what moves with it, and leaves the rest", () => {
    for (const unknown of unknowns) {
      const value = valueIn(unknown, column) + 0.001;
      const there = withValue(column, unknown, value);
      expect(valueIn(unknown, there)).toBeCloseTo(value, 9);
      for (const other of unknowns) if (other !== unknown) expect(valueIn(other, there)).toBe(valueIn(other, column));
      for (const [i, each] of [...column.holes, ...column.bore].entries()) {
        const isAlong =
          (unknown.kind === "hole-place" && unknown.index === 1 && i === 2) ||
          (unknown.kind === "station-place" && unknown.index === 3 && i === column.holes.length + 4);
        const now = [...there.holes, ...there.bore][i];
        if (isAlong) expect(now?.x).toBeCloseTo(each.x + 0.001, 9);
        else if (!(unknown.kind.endsWith("place") && Math.abs((now?.x ?? 0) - each.x) > 1e-9))
          expect(now?.x).toBe(each.x);
      }
    }
  });
  it("tells what moves along and how far from it, in the file's unit", () => {
    const instrument = instrumentOf(text);
    const alongOf = (kind: Unknown["kind"], index: number) =>
      unknowns
        .filter((unknown) => unknown.kind === kind && unknown.index === index)
        .flatMap((unknown) => alongWith(unknown, instrument));
    expect(alongOf("hole-place", 1)).toEqual([{ path: ["holes", 2, "at"], offset: expect.closeTo(2, 9) }]);
    expect(alongOf("station-place", 3)).toEqual([{ path: ["bore", 4, "at"], offset: 0 }]);
    expect(alongOf("station-radius", 4)).toEqual([{ path: ["bore", 5, "diameter"], offset: 0 }]);
    expect(alongOf("hole-place", 0)).toEqual([]);
  });
});

it("a station changes no note where it lies in a cylinder that stays one", () => {
  const text = tube(
    "bore: [{ at: 0, diameter: 16 }, { at: 100, diameter: 16 }, { at: 200, diameter: 16 }, { at: 300, diameter: 15 }]",
  );
  const column = columnOf(text);
  const [free] = [unknownsIn(text)];
  expect([0, 1, 2, 3].map((station) => changesNoNote(column, free, station))).toEqual([false, true, false, false]);
  const width = (index: number): Unknown => ({ kind: "station-radius", index, path: [] });
  for (const index of [0, 1, 2]) expect(changesNoNote(column, [width(index)], 1)).toBe(false);
  expect(changesNoNote(column, [width(3)], 1)).toBe(true);
});

describe("what a design allows", () => {
  const of = (text: string) => constraintsOf(documentOf(fileOf(text)));

  it("has another key for everything that it allows otherwise, and the same for the same", () => {
    const own = of(textOf()).key;
    expect(of(textOf({ text: "name: Another" })).key).toBe(own);
    const others = [
      { text: "hands: { reach: 41 }" },
      { text: "hands: { spacing: 18 }" },
      { text: "hands: { thumb: 20 }" },
      { text: "hands: { fingertip: 10 }" },
      { text: "refit: { taper: free }" },
      { text: "refit: { undercut: 1 }" },
      { text: "stock: { drills: [5, 6] }" },
      { text: "print: { holeGap: 2 }" },
      { text: "print: { bed: [200, 200, 200] }" },
      { text: "print: { bed: [200, 200, 200], leaning: true }" },
      { text: "print: { jointClearance: 9 }", bore: { 2: "joint: true" } },
      { bore: { 2: "joint: true" } },
      { bore: { 2: "fixed: true" } },
      { holes: { 0: "limits: { at: [110, 130] }" } },
    ].map((more) => of(textOf(more)).key);
    expect(new Set([own, ...others]).size).toBe(1 + others.length);
  });
  it("has no limits where one of the two is missing, and holes' as printed", () => {
    const { limits } = of(
      textOf({
        holes: { 0: "limits: { at: [110, 130], diameter: [5, 7] }", 1: "limits: { at: [110] }" },
        text: "print: { scale: 110 %, holeUndersize: 0.2 }",
      }),
    );
    const near = (...mm: number[]) => mm.map((each) => expect.closeTo(each, 6));
    expect(limits(["holes", 0])).toEqual({ at: near(121, 143), diameter: near(5.3, 7.5) });
    expect(limits(["holes", 1])).toEqual({});
  });
  it("at the bench is up to the whole fingertip", () => {
    const drawnFlat = documentOf(
      fileOf(textOf({ text: "bench: { holesFlat: 20, room: 20 }\nhands: { fingertip: 10 }" })),
    );
    const [drawn, bench] = [constraintsOf(drawnFlat), benchConstraintsOf(drawnFlat)];
    expect(bench).toMatchObject({ fingertip: 10, openedShare: 1 });
    // 0.014 of the width for each cent.
    expect(drawn.openedShare).toBeCloseTo(0.72, 9);
    expect(drawn.fingertip).toBeCloseTo(10 * drawn.openedShare, 9);
    expect(benchConstraintsOf(documentOf(fileOf(textOf()))).fingertip).toBe(12);
  });
});
