/** YAML as makers write it: anchors, several designs, marks and line ends, and what is half typed. */
import { describe, expect, it } from "vitest";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";
import {
  codesOf,
  columnOf,
  expectFinding,
  expectNothing,
  instrumentOf,
  numberAt,
  tube,
  unmark,
} from "../support/marked.js";

describe("anchors, aliases and merge keys", () => {
  const merged = tube(
    "x-hole: &h { diameter: 7, chimney: 4 }\nholes:\n  - { <<: *h, at: 170 }\n  - <<: *h\n    at: 200\n    diameter: 8",
  );
  it("stand for what they name; an entry of the map itself wins", () => {
    expectNothing(merged);
    expect(columnOf(merged).holes.map(({ radius, chimney }) => [radius, chimney])).toEqual([
      [0.0035, 0.004],
      [0.004, 0.004],
    ]);
  });
  it("can be a list of merges, the first of which counts", () => {
    const text = tube(
      "x-a: &a { diameter: 7 }\nx-b: &b { diameter: 9, chimney: 5 }\nholes: [{ <<: [*a, *b], at: 170 }]",
    );
    expectNothing(text);
    expect(columnOf(text).holes[0]).toMatchObject({ radius: 0.0035, chimney: 0.005 });
  });
  it("can be redefined: an alias means the last anchor before it", () => {
    const text = tube("x-a: [&w 2, &w 4]\nparameters: { w: *w }");
    expect(numberAt(text, "parameters.w")).toBe(4);
  });
  it("mark the alias where what it brings in is wrong here", () => {
    expectFinding(tube("x-h: &h { diameter: -7 }\nholes:\n  - { <<: [[*h]], at: 170 }"), "value/not-positive");
    expectFinding(tube("x-d: &d -7\nholes: [{ at: 170, diameter: [[*d]] }]"), "value/not-positive");
  });
  it("that name nothing are reported, with a suggestion", () => {
    expectFinding(
      tube("x-w: &width 3\nparameters: { w: [[*widht]] }"),
      "file/unknown-anchor",
      "Did you mean `width`?",
      {
        alone: false,
      },
    );
    expectFinding(
      tube("holes: [{ <<: [[*nowhere]], at: 170, diameter: 7 }]"),
      "file/unknown-anchor",
      "No anchor `&nowhere`",
      { alone: false },
    );
  });
  it("that merge something other than a map are reported", () => {
    expectFinding(
      tube("x-w: &w 3\nholes: [{ <<: [[*w]], at: 170, diameter: 7 }]"),
      "file/syntax",
      "`<<` takes an alias",
    );
  });
  it("that refer to themselves are refused at their place", () => {
    expectFinding(tube("x-a: &a { b: [[*a]] }"), "file/alias-cycle", "would never end");
    expectFinding(tube("x-a: &a\n  - 1\n  - [[*a]]"), "file/alias-cycle");
  });
  it("of aliases of aliases do not explode", () => {
    const levels = Array.from({ length: 12 }, (_, i) => `x-${i + 1}: &l${i + 1} [${`*l${i},`.repeat(9)}*l${i}]`);
    const text = tube(`x-0: &l0 [1,1,1,1,1]\n${levels.join("\n")}`);
    expect(codesOf(text)).toEqual(["file/too-many-aliases"]);
    expect(columnOf(text).bore).toHaveLength(2);
  });
});

describe("several designs in a file", () => {
  const two = `${tube("name: One")}---\n${tube("name: Two\nkey: D4\nwall: 4")}`;
  it("are each read independently", () => {
    const { documents } = fileOf(two);
    expect(documents.map(({ index, resolution }) => [index, resolution.instrument.name])).toEqual([
      [0, "One"],
      [1, "Two"],
    ]);
    expect(documents[1]?.span.start).toBeGreaterThanOrEqual(documents[0]?.span.end ?? Number.NaN);
    expect(documents[1]?.resolution.instrument.key?.name).toBe("D4");
  });
  it("have their faults reported in place", () => {
    const marked = two.replace("wall: 4", "wall: [[-4]]");
    const { text, span } = unmark(marked);
    expect(fileOf(text).documents.map(({ findings }) => findings.map((f) => f.span))).toEqual([[], [span]]);
  });
  it("do not see each other's anchors", () => {
    expectFinding(`${tube("x-w: &w 3")}---\n${tube("wall: [[*w]]")}`, "file/unknown-anchor", "", { alone: false });
  });
  it("need not be many: empty ones between --- do not count", () => {
    expect(fileOf(`---\n---\n${tube()}---\n...\n`).documents).toHaveLength(1);
    expect(fileOf("").documents).toHaveLength(1);
    expect(fileOf("# only a remark\n").documents).toHaveLength(1);
  });
  it("are fifty at most, and the rest is reported", () => {
    const { documents } = fileOf(Array.from({ length: 60 }, () => tube()).join("---\n"));
    expect(documents).toHaveLength(50);
    expect(documents[0]?.findings.map(({ code }) => code)).toEqual(["file/too-many-designs"]);
  });
});

describe("marks, line ends and letters", () => {
  const facts = (text: string) => {
    const { findings, resolution } = documentOf(fileOf(text));
    return [findings.map(({ code, path }) => [code, path]), resolution.instrument, resolution.numbers];
  };
  const flawed = WHISTLE.replace("diameter: 7 }", "diameter: -7 }");
  it.each([
    ["LF", WHISTLE],
    ["LF, with a fault", flawed],
  ])("do not change what is read: %s", (_, text) => {
    expect(facts(text.replaceAll("\n", "\r\n"))).toEqual(facts(text));
    expect(facts(`\uFEFF${text}`)).toEqual(facts(text));
    expect(facts(`\uFEFF${text.replaceAll("\n", "\r\n")}`)).toEqual(facts(text));
  });
  it("do not move a mark", () => {
    const marked = "# 🎵 flûte 笛\r\nname: 🎵🎶 # 𝄞\r\nwall: [[-3]]\r\n";
    expectFinding(
      `\uFEFFborewright: 1\r\n${marked}mouth: ideal\r\nbore: [{ at: 0, diameter: 16 }, { at: 352, diameter: 16 }]\r\n`,
      "value/not-positive",
    );
  });
  it("keep names of any script", () => {
    expect(instrumentOf(tube("name: 港の笛 🎵")).name).toBe("港の笛 🎵");
  });
  it("explain a tab", () => {
    expectFinding(tube("air:\n[[\t]]temperature: 22"), "file/syntax", /tab/i, { alone: false });
  });
  it("report a name written twice, of which the first counts", () => {
    const text = tube("").replace("wall: 3", "wall: 3\n[[wall]]: 4");
    expectFinding(text, "file/duplicate-key", "`wall` is written twice");
    expect(columnOf(text.replace(/\[\[|\]\]/g, "")).wall).toBeCloseTo(0.003, 12);
  });
});

describe("text that is not a design", () => {
  it.each([
    ["", "file/empty"],
    ["# nothing yet\n", "file/empty"],
    ["just words\n", "file/not-a-design"],
    ["- a\n- b\n", "file/not-a-design"],
    ["42\n", "file/not-a-design"],
  ])("%j is %s", (text, code) => {
    expect(codesOf(text)).toEqual([code]);
  });
  it("of megabytes", () => {
    expect(codesOf(`${tube()}# ${"x".repeat(1_000_000)}`)).toEqual(["file/too-large"]);
  });
  it("is reported in part where everything is wrong", () => {
    const codes = codesOf(tube(`parameters:\n${Array.from({ length: 400 }, (_, i) => `  p${i}: words`).join("\n")}`));
    expect(codes).toHaveLength(201);
    expect(codes.at(-1)).toBe("file/more-findings");
  });
});

describe("a design half typed", () => {
  it.each([
    ["a key without a colon", "temp"],
    ["a key without a value", "temperament:"],
    ["an open brace", "air: { temperature: 22, "],
    ["an open quote", 'remark: "to be'],
    ["a lone dash", "holes:\n  - "],
    ["an unknown tag", "remark: !wood oak"],
  ])("keeps what stands before: %s", (_, last) => {
    const { findings, resolution } = documentOf(fileOf(tube(last)));
    expect(findings.length).toBeGreaterThan(0);
    expect(resolution.instrument.key?.name).toBe("G4");
    expect(resolution.numbers.find(({ path }) => path.join(".") === "bore.1.at")?.value).toBe(352);
  });
});
