/** What names in formulas refer to, what is told of those that refer to nothing, and of rings. */
import { describe, expect, it } from "vitest";
import { documentOf, fileOf } from "../support/designs.js";
import { codesOf, expectFinding, expectNothing, numberAt, tube } from "../support/marked.js";

const HOLES = "holes:\n  - { name: L1, at: 170, diameter: 7 }\n  - { name: L2, at: 200, diameter: 8, chimney: 5 }\n";

describe("a name in a formula", () => {
  it.each([
    ["a parameter", "parameters: { spread: 21, x: =spread*2 + 1 }", "parameters.x", 43],
    ["a parameter written later", "parameters: { x: =y, y: 3 }", "parameters.x", 3],
    ["a hole by its name", `${HOLES}parameters: { x: =L1.at + 21 }`, "parameters.x", 191],
    ["a hole by its number, counted from 0", `${HOLES}parameters: { x: "=holes[1].diameter" }`, "parameters.x", 8],
    ["a hole's own chimney", `${HOLES}parameters: { x: =L2.chimney }`, "parameters.x", 5],
    ["the wall, where a hole has no chimney", `${HOLES}parameters: { x: =L1.chimney }`, "parameters.x", 3],
    ["a top-level number", "parameters: { x: =wall + 1 }", "parameters.x", 4],
    ["a station by its number", 'parameters: { x: "=bore[1].at" }', "parameters.x", 352],
    [
      "a station by its name",
      "bore:\n  - { at: 0, diameter: 16 }\n  - { name: end, at: 352, diameter: 15 }\nparameters: { x: =end.diameter }",
      "parameters.x",
      15,
    ],
    [
      "a number deep inside",
      "family: duct\nmouth: { window: { width: 9, cutUp: =mouth.window.width/2 } }",
      "mouth.window.cutUp",
      4.5,
    ],
    ["a percentage, as percent", "print: { scale: 92.5 % }\nparameters: { x: =print.scale }", "parameters.x", 92.5],
    [
      "an entry of a list",
      "temperament: [0,100,200,300,400,500,600,700,800,900,1000,1100]\nparameters: { x: '=temperament[3]' }",
      "parameters.x",
      300,
    ],
  ])("means %s", (_, changes, path, value) => {
    const text = tube(changes);
    expectNothing(text);
    expect(numberAt(text, path)).toBe(value);
  });

  it("means the parameter before a hole, a hole before a station, a station before a key of the design", () => {
    const holes = "holes:\n  - { name: wall, at: 170, diameter: 7 }\n";
    expect(numberAt(tube(`${holes}parameters: { x: =wall.at }`), "parameters.x")).toBe(170);
    expect(numberAt(tube("parameters: { wall: 9, x: =wall }"), "parameters.x")).toBe(9);
    const both =
      "bore:\n  - { name: a, at: 0, diameter: 16 }\n  - { at: 352, diameter: 16 }\nholes:\n  - { name: a, at: 170, diameter: 7 }\n";
    expect(numberAt(tube(`${both}parameters: { x: =a.at }`), "parameters.x")).toBe(170);
  });

  it("means the first of two holes of one name", () => {
    const text = tube(
      "holes:\n  - { name: L, at: 170, diameter: 7 }\n  - { name: L, at: 200, diameter: 7 }\nparameters: { x: =L.at }",
    );
    expect(numberAt(text, "parameters.x")).toBe(170);
  });

  it("resolves a long chain of references in any order", () => {
    const names = Array.from({ length: 3000 }, (_, i) => `p${i}: ${i === 0 ? 1 : `=p${i - 1} + 1`}`);
    for (const lines of [names, names.toReversed()])
      expect(numberAt(tube(`parameters:\n  ${lines.join("\n  ")}\n`), "parameters.p2999")).toBe(3000);
  });
});

describe("an unknown name", () => {
  it.each([
    ["parameters: { spread: 21, x: =[[spraed]]*2 }", "Did you mean `spread`?"],
    ["parameters: { spread: 21, x: =[[Spread]] }", "Did you mean `spread`?"],
    [`${HOLES}parameters: { x: =[[L1.att]] }`, "Did you mean `L1.at`?"],
    [`${HOLES}parameters: { x: =[[L3.at]] }`, /Did you mean `L[12]\.at`\?/],
    ["parameters: { x: =[[wal]] + 1 }", "Did you mean `wall`?"],
    ["parameters: { x: '=[[bore[2].at]]' }", /Did you mean `bore\[[01]\]\.at`\?/],
    ["parameters: { x: =[[nothingLikeThis]] }", /^There is no value called `nothingLikeThis`\.$/],
  ])("%s", (changes, says) => {
    expectFinding(tube(changes), "expression/unknown-name", says);
  });

  it("is distinguished from one that is not a number", () => {
    expectFinding(
      tube(`${HOLES}parameters: { x: =[[L1]] }`),
      "expression/unknown-name",
      /not a number.*such as `L1\.at`/,
    );
    expectFinding(tube("parameters: { x: =[[family]] }"), "expression/unknown-name", "`family` is not a number");
    expectFinding(tube("parameters: { a: 1, x: =[[a.b]] }"), "expression/unknown-name", "`a.b` is not a number");
    expectFinding(tube(`${HOLES}parameters: { x: =[[L1.name]] }`), "expression/unknown-name", "not a number");
  });

  it("is each marked where a formula has several", () => {
    const text = tube("parameters: { x: =[[one]] + two }");
    expectFinding(text, "expression/unknown-name", "`one`", { alone: false });
    expectFinding(text.replace("[[one]]", "one").replace("two", "[[two]]"), "expression/unknown-name", "`two`", {
      alone: false,
    });
  });

  it("is not taken for a word of a longer name", () => {
    const text = tube("mouth: { window: { width: 9, cutUp: 4.5 } }\nwall: =[[windw]]");
    expectFinding(text, "expression/unknown-name", /^There is no value called `windw`\.$/);
  });

  it("leaves the rest worked out", () => {
    const text = tube("parameters: { good: =wall*2, bad: =nowhere }");
    expect(numberAt(text, "parameters.good")).toBe(6);
    expect(numberAt(text, "parameters.bad")).toBeUndefined();
  });
});

describe("a circle of references", () => {
  it("of one names itself", () => {
    expectFinding(tube("parameters: { x: =1 + [[x]] }"), "expression/cycle", "x refers to itself");
    expectFinding(tube("wall: =[[wall]]"), "expression/cycle", "wall refers to itself");
  });

  it("of three names all of them in order, and shows the other places", () => {
    const text = tube("parameters: { a: =[[b]] + 1, b: =c, c: =a*2 }");
    expectFinding(text, "expression/cycle", "3 values refer to each other in a circle: a → b → c → a.");
    const plain = text.replace(/\[\[|\]\]/g, "");
    const related = documentOf(fileOf(plain)).findings[0]?.related ?? [];
    expect(related.map(({ span, message }) => [plain.slice(span.start, span.end), message])).toEqual([
      ["=c", "b refers to c"],
      ["=a*2", "c refers to a"],
    ]);
  });

  it("of places names them as hovers do", () => {
    const holes =
      "holes:\n  - { name: L1, at: '=[[holes[1].at]] - 20', diameter: 7 }\n  - { name: L2, at: =L1.at + 20, diameter: 7 }";
    expectFinding(tube(holes), "expression/cycle", /`at` of L1 → `at` of L2 → `at` of L1/);
  });

  it("leaves what depends on it without a value, and the rest with one", () => {
    const text = tube("parameters: { a: =b, b: =a, c: =a + 1, d: =wall }");
    expect(numberAt(text, "parameters.a")).toBeUndefined();
    expect(numberAt(text, "parameters.c")).toBeUndefined();
    expect(numberAt(text, "parameters.d")).toBe(3);
  });

  it("of hundreds is named in part", () => {
    const ring = Array.from({ length: 300 }, (_, i) => `p${i}: =p${(i + 1) % 300}`);
    const [finding] = documentOf(fileOf(tube(`parameters:\n  ${ring.join("\n  ")}`))).findings;
    expect(finding?.message).toMatch(/^300 values .*: p0 → p1 → .* → … → p0\./);
    expect(finding?.message.length).toBeLessThan(200);
  });

  it("among thousands of circles leaves the list readable", () => {
    const rings = Array.from({ length: 500 }, (_, i) => `p${i}: =p${i}`);
    expect(documentOf(fileOf(tube(`parameters:\n  ${rings.join("\n  ")}`))).findings.length).toBeLessThanOrEqual(20);
    // One that is not told is not worked out either.
    const broken = Array.from({ length: 30 }, (_, i) => `p${i}: =1/0 + p${i}`);
    expect(new Set(codesOf(tube(`parameters:\n  ${broken.join("\n  ")}`)))).toEqual(new Set(["expression/cycle"]));
  });
});
