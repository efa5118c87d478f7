/** What is taken hold of so that a number changes: text in, the lever or the edited text out. */
import { describe, expect, it } from "vitest";
import { changeByLever, leverOf } from "../../../server/src/design/edit/lever.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { tube } from "../../support/marked.js";

const lever = (changes: string, dotted: string) => {
  const path = dotted.split(".").map((step) => (/^\d+$/.test(step) ? Number(step) : step));
  const found = leverOf(documentOf(fileOf(tube(changes))), path);
  if (found === undefined || "refused" in found) return found?.refused;
  return [found.path.join("."), Number(found.perUnit.toFixed(6)), found.alsoMoves.map((each) => each.join("."))];
};
const bore = (first: string, second: string) =>
  `bore:\n  - { at: 0, diameter: ${first} }\n  - { at: 352, diameter: ${second} }\n`;

describe("the lever of a number", () => {
  it("is itself where it is written, with all that follow it, parameters between left out", () => {
    const text = `wall: 3\nparameters: { w: =wall, deep: =2*w }\nholes: [{ at: 170, diameter: 7, chimney: =deep }, { at: 200, diameter: 7, chimney: =w }]`;
    expect(lever(text, "wall")).toEqual(["wall", 1, expect.arrayContaining(["holes.0.chimney", "holes.1.chimney"])]);
    expect(lever(text, "wall")?.[2]).toHaveLength(2);
    expect(lever(text, "holes.0.at")).toEqual(["holes.0.at", 1, []]);
    expect(lever(text, "holes.0.undercut")).toBeUndefined();
  });
  it("is the parameter behind a formula, by how much the number follows it", () => {
    const text = `parameters: { tube: 16 }\n${bore("=tube", "=2*tube - 16")}`;
    expect(lever(text, "bore.0.diameter")).toEqual(["parameters.tube", 1, ["bore.1.diameter"]]);
    expect(lever(text, "bore.1.diameter")).toEqual(["bore.1.diameter", 1, []]);
    const twice = `parameters: { half: 8, tube: =2*half }\n${bore("=half + half", "=tube")}`;
    expect(lever(twice, "bore.0.diameter")).toEqual(["parameters.half", 2, ["bore.1.diameter"]]);
    expect(lever(twice, "bore.1.diameter")).toEqual(["parameters.half", 2, ["bore.0.diameter"]]);
  });
  it("is, of several parameters, the one that moves the fewest others", () => {
    const text = `parameters: { all: 10, own: 6 }\n${bore("=all + own", "=1.6*all")}`;
    expect(lever(text, "bore.0.diameter")).toEqual(["parameters.own", 1, []]);
    expect(lever(`parameters: { idle: 3, own: 16 }\n${bore("=own + 0*idle", "16")}`, "bore.0.diameter")).toEqual([
      "parameters.own",
      1,
      [],
    ]);
  });
  it("is followed by all the ways that lead to it, one parameter behind others counting once", () => {
    const twice = `parameters: { base: 4, a: =2*base, b: =base + base }\n`;
    expect(lever(twice + bore("=a + b", "16"), "bore.0.diameter")).toEqual(["parameters.base", 4, []]);
    expect(lever(twice + bore("=a + b - base + 4*1", "16"), "bore.0.diameter")).toEqual(["parameters.base", 3, []]);
    // Also through a place in between, which it moves.
    const through = `parameters: { w: 8 }\n${bore("=2*w", "'=bore[0].diameter/2 + w'")}`;
    expect(lever(through, "bore.1.diameter")).toEqual(["parameters.w", 2, ["bore.0.diameter"]]);
    // Two ways that cancel move nothing.
    const cancelled = `parameters: { base: 4, a: =2*base, own: 16 }\n${bore("=a - 2*base + own", "16")}`;
    expect(lever(cancelled, "bore.0.diameter")).toEqual(["parameters.own", 1, []]);
  });
  it("is the number itself where its formula ends in one of its own, and after eight formulas of formulas", () => {
    const one = (formula: string) => lever(`parameters: { tube: 16 }\n${bore(formula, "16")}`, "bore.0.diameter");
    expect(one("=tube + 1")).toEqual(["bore.0.diameter", 1, []]);
    expect(one("=tube - 1")).toEqual(["bore.0.diameter", 1, []]);
    expect(one("=tube*1.5")).toEqual(["parameters.tube", 1.5, []]);
    expect(one("=1 + tube")).toEqual(["parameters.tube", 1, []]);
    const chain = (length: number) =>
      `parameters: { p0: 16, ${Array.from({ length }, (_, i) => `p${i + 1}: =p${i}*1`).join(", ")} }\n`;
    expect(lever(chain(7) + bore("=p7", "16"), "bore.0.diameter")).toEqual(["parameters.p0", 1, []]);
    expect(lever(chain(9) + bore("=p9", "16"), "bore.0.diameter")).toEqual(["parameters.p2", 1, []]);
  });
  it("is none where nothing can be moved for it alone, and that is said", () => {
    const NONE = /^`diameter` of station 2 comes from the formula .*, which has no parameter to move: /;
    expect(lever(`parameters: { w: '=bore[0].diameter' }\n${bore("16", "=w")}`, "bore.1.diameter")).toMatch(NONE);
    expect(lever(`parameters: { a: =b, b: =a }\n${bore("=a", "16")}`, "bore.0.diameter")).toBeUndefined();
    // A root has no slope at 0, and no value below.
    expect(lever(`parameters: { w: 0 }\n${bore("16", "=16 + sqrt(w)")}`, "bore.1.diameter")).toMatch(NONE);
    expect(lever(bore("16", "'=bore[0].diameter'"), "bore.1.diameter")).toBe(
      "`diameter` of station 2 comes from the formula =bore[0].diameter, which has no parameter to move: change the formula, or write a number in its place.",
    );
    expect(lever(`parameters: { a: 10, b: 6 }\n${bore("'= a + b '", "16")}`, "bore.0.diameter")).toBe(
      "`diameter` of station 1 comes from the formula =a + b: change `a` or `b` in the text yourself: each of them moves equally many other values.",
    );
  });
});

describe("a number changed by its lever", () => {
  const edited = (changes: string, index: number, value: number) => {
    const text = tube(changes);
    return applyEdits(text, changeByLever(documentOf(fileOf(text)), ["bore", index, "diameter"], value));
  };
  it("is on a step of the drawing, its parameter so fine that it is", () => {
    expect(edited(bore("16", "16"), 0, 16.4378)).toBe(tube(bore("16.4", "16")));
    const twice = (half: string) => `parameters: { half: ${half} }\n${bore("=half + half", "16")}`;
    expect(edited(twice("8"), 0, 16.42)).toBe(tube(twice("8.21")));
    const plain = (own: string) => `parameters: { own: ${own} }\n${bore("=own", "16")}`;
    expect(edited(plain("16"), 0, 16.44)).toBe(tube(plain("16.4")));
  });
  it("turns a parameter that counts less no finer, and one that counts against it the other way", () => {
    const made = (parameter: string, formula: string) => `parameters: { ${parameter} }\n${bore(formula, "16")}`;
    expect(edited(made("own: 320", "=own/20"), 0, 16.44)).toBe(tube(made("own: 328.8", "=own/20")));
    expect(edited(made("lack: 2", "=20 - lack*2"), 0, 16.42)).toBe(tube(made("lack: 1.79", "=20 - lack*2")));
    expect(edited(made("tenth: 1.6", "=tenth*10"), 0, 16.4)).toBe(tube(made("tenth: 1.64", "=tenth*10")));
    const both = "base: 4, a: =2*base, b: =base + base";
    expect(edited(made(both, "=a + b"), 0, 17)).toBe(tube(made(both.replace("4", "4.25"), "=a + b")));
  });
  it("stays where there is none, and where it has no lever", () => {
    expect(edited(bore("16", "16"), 2, 17)).toBe(tube(bore("16", "16")));
    const text = bore("16", "'=bore[0].diameter'");
    expect(edited(text, 1, 17)).toBe(tube(text));
  });
});
