/** Arithmetic in place of a number: what it comes out as, and where what cannot be read is marked. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { expectFinding, numberAt, tube } from "../support/marked.js";

/** The value of a formula in a design. JSON text is YAML too, and quotes whatever the formula holds. */
function resultOf(formula: string, parameters = ""): number | undefined {
  return numberAt(tube(`parameters:\n  result: ${JSON.stringify(`=${formula}`)}\n${parameters}`), "parameters.result");
}

/** A formula that is a valid JavaScript expression too, with the same meaning. */
const formulas: fc.Arbitrary<string> = fc.letrec<{ formula: string }>((tie) => ({
  formula: fc.oneof(
    { depthSize: "small", withCrossShrink: true },
    fc.double({ min: 0.001, max: 1000, noNaN: true }).map((number) => String(Number(number.toPrecision(6)))),
    fc.nat(30).map(String),
    fc
      .tuple(tie("formula"), fc.constantFrom("+", "-", "*", "/"), tie("formula"))
      .map(([a, sign, b]) => `${a} ${sign} ${b}`),
    fc.tuple(fc.constantFrom("(", "-(", "+("), tie("formula")).map(([open, a]) => `${open}${a})`),
    fc.tuple(tie("formula"), tie("formula")).map(([a, b]) => `(${a})**(${b})`),
    fc
      .tuple(fc.constantFrom("min", "max"), fc.array(tie("formula"), { minLength: 1, maxLength: 4 }))
      .map(([name, all]) => `${name}(${all.join(", ")})`),
    fc.tuple(fc.constantFrom("sqrt", "abs", "round"), tie("formula")).map(([name, a]) => `${name}(${a})`),
  ),
})).formula;

/** What JavaScript makes of it: the independent check of parser and arithmetic alike. */
function byJavaScript(formula: string): number {
  const names = ["min", "max", "sqrt", "abs", "round"] as const;
  const run = new Function(...names, `return (${formula});`) as (...of: unknown[]) => number;
  return run(...names.map((name) => Math[name]));
}

describe("arithmetic", () => {
  it("is that of JavaScript to the last bit, wherever it is finite without a division by zero", () => {
    let compared = 0;
    fc.assert(
      fc.property(formulas, (formula) => {
        fc.pre(formula.length < 500);
        const expected = byJavaScript(formula);
        const value = resultOf(formula);
        // Refused on the way: 1/(1/0) is 0 to JavaScript, and no dimension to a maker.
        if (value === undefined) return;
        compared++;
        expect(Object.is(value, expected)).toBe(true);
      }),
      { seed: 4, numRuns: 600 },
    );
    expect(compared).toBeGreaterThan(300);
  });

  it("refuses no formula whose every part is finite", () => {
    const sums = fc.array(fc.integer({ min: -500, max: 500 }), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(sums, (terms) => {
        const formula = terms.map((term) => `(${term})`).join(" + ");
        expect(resultOf(formula)).toBe(terms.reduce((sum, term) => sum + term, 0));
      }),
      { seed: 5, numRuns: 100 },
    );
  });

  it.each([
    ["2 + 3*4", 14],
    ["(2 + 3)*4", 20],
    ["2*3**2", 18],
    ["2**3**2", 512],
    ["12/3/2", 2],
    ["10 - 4 - 3", 3],
    ["-2 + 5", 3],
    ["- -2", 2],
    ["(-2)**2", 4],
    ["-(2**2)", -4],
    ["min(3, 1, 2) + max(4)", 5],
    ["sqrt(2)**2", 2.0000000000000004],
    ["round(2.5) + abs(-1)", 4],
    ["1.5e2", 150],
    ["1e-3", 0.001],
    ["2E+3", 2000],
    [".5 + 5.", 5.5],
    ["  7  ", 7],
  ])("=%s is %f", (formula, value) => {
    expect(resultOf(formula)).toBe(value);
  });
});

describe("what a formula may not be", () => {
  const broken = (value: string) => tube(`parameters: { a: 2, x: ${value} }`);
  it.each([
    [`"=[[wide]]"`, "expression/unknown-name", "There is no value called `wide`."],
    [`"=2 + [[)]]"`, "expression/syntax", /cannot be read from here on.*never opened/],
    [`"=(2 + 3[[*]]"`, "expression/syntax", /not closed/],
    [`"=2 [[3]]"`, "expression/syntax", "`3` does not belong to the formula"],
    [`"=5 [[%]]"`, "expression/syntax", "5 % as 0.05"],
    [`"=2 + [[*]] 3"`, "expression/syntax", /from here on\.$/],
    [`"=[[7 % 2]]"`, "expression/syntax", "`%` cannot be used here"],
    [`[["="]]`, "expression/syntax", "missing after the `=`"],
    [`"=[[0x10]]"`, "expression/syntax", "not a number"],
    [`"=[[1_000]]"`, "expression/syntax", "not a number"],
    [`"=[['a']]"`, "expression/syntax", "not a number"],
    [`"=[[!a]]"`, "expression/syntax", "`!` cannot be used here"],
    [`"=[[a && 1]]"`, "expression/syntax", "not arithmetic"],
    [`"=[[a ? 1 : 2]]"`, "expression/syntax", "not arithmetic"],
    [`"=[[a = 3]]"`, "expression/syntax", "not arithmetic"],
    [`"=[[() => 1]]"`, "expression/syntax", "not arithmetic"],
    [`"=[[a, 2]]"`, "expression/syntax", "decimals with a point"],
    [`"=1 + [[sin]](2)"`, "expression/syntax", "no function `sin`"],
    [`"=[[min()]]"`, "expression/syntax", "takes 1 to 32 values, not 0"],
    [`"=[[sqrt(1, 2)]]"`, "expression/syntax", "takes 1 value, not 2"],
    [`"=min([[...a]])"`, "expression/syntax", "not arithmetic"],
    [`"=[[a[a]]]"`, "expression/syntax", "names no value"],
    [`"=[[a?.b]]"`, "expression/syntax", "not arithmetic"],
    [`"=-2[[*]]*2"`, "expression/syntax", /Before \*\* a sign needs parentheses/],
  ])("%s", (value, code, says) => {
    expectFinding(broken(value), code, says);
  });

  it("is longer than anybody would read", () => {
    const long = `=${"1+".repeat(250)}1`;
    expectFinding(tube(`parameters:\n  x: "=[[${long.slice(1)}]]"`), "expression/syntax", "at most 500 characters");
    expect(resultOf(`${"1+".repeat(249)}1`)).toBe(250);
  });

  it("runs nothing", () => {
    const before = Object.keys(globalThis).length;
    for (const nasty of ["globalThis.hole=1", "constructor.constructor('return 1')()", "import('x')", "this"])
      expect(resultOf(nasty)).toBeUndefined();
    expect(Object.keys(globalThis)).toHaveLength(before);
  });

  it("knows nothing that every JavaScript object inherits", () => {
    for (const name of ["constructor", "toString", "__proto__", "hasOwnProperty"])
      expectFinding(broken(`"=[[${name}]]"`), "expression/unknown-name");
  });
});

describe("what has no value", () => {
  const broken = (value: string) => tube(`parameters: { zero: 0, x: ${value} }`);
  it.each([
    [`"=7/[[0]]"`, "expression/division-by-zero", "nothing can be divided by 0"],
    [`"=7/[[zero]]"`, "expression/division-by-zero", ""],
    [`"= 1 + 7/([[zero*3]]) "`, "expression/division-by-zero", ""],
    [`"=[[sqrt(-1)]]"`, "expression/not-finite", "root of a negative number"],
    [`"=2 + [[(-8)**0.5]]"`, "expression/not-finite", ""],
    [`"=[[9**999]] - 1"`, "expression/not-finite", "too large"],
    [`"=[[1e999]]"`, "expression/not-finite", "too large"],
  ])("%s", (value, code, says) => {
    expectFinding(broken(value), code, says);
  });

  it("is reported once, not again by everything that refers to it", () => {
    const text = tube('parameters: { a: "=1/[[0]]", b: "=a", c: "=a + b" }\nwall: =c');
    expectFinding(text, "expression/division-by-zero");
  });

  it("marks the place inside single quotes, double quotes and none", () => {
    expectFinding(tube("parameters: { x: =1/[[0]] }"), "expression/division-by-zero");
    expectFinding(tube("parameters: { x: '=1/[[0]]' }"), "expression/division-by-zero");
    expectFinding(tube('parameters: { x: "  = 1/[[0]]" }'), "expression/division-by-zero");
  });

  it("marks the whole value where the text differs from the value", () => {
    expectFinding(tube('parameters: { x: [["\\x3D1/0"]] }'), "expression/division-by-zero");
    expectFinding(tube("parameters:\n  x: [[>-\n    =1 +\n    1/0\n]]"), "expression/division-by-zero");
  });

  it("marks the alias where the formula comes from elsewhere", () => {
    const text = tube("x-formula: &f =1/0\nparameters: { x: [[*f]] }");
    expectFinding(text, "expression/division-by-zero");
  });
});
