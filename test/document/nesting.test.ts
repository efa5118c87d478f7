/** Text that would exhaust the parsers never reaches them; everything that somebody could mean does. */
import { describe, expect, it } from "vitest";
import { dataOf } from "../../server/src/document/treeData.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";
import { largestDesign } from "../support/largestDesign.js";
import { codesOf, columnOf, expectNothing, tube } from "../support/marked.js";

describe("values inside one another", () => {
  it.each([
    ["lists in brackets", "[".repeat(5000)],
    ["maps in braces", "{a: ".repeat(5000)],
    ["list items", "- ".repeat(5000)],
    ["questioned keys", "? ".repeat(5000)],
    ["keys in a line", "a: ".repeat(5000)],
    ["keys in a line behind commas", ",a: ".repeat(5000)],
    ["keys behind commas, below a bracket in quotes", `x: "["\n${",a: ".repeat(5000)}`],
    ["keys in a list without commas", `[${"a: ".repeat(5000)}]`],
    ["lines indented more and more", Array.from({ length: 500 }, (_, i) => `${" ".repeat(i)}a:`).join("\n")],
    ["list items indented more and more", Array.from({ length: 500 }, (_, i) => `${" ".repeat(i)}-`).join("\n")],
  ])("are refused by thousands: %s", (_, text) => {
    const codes = codesOf(text);
    expect(codes).toContain("file/too-deep");
    expect(codes.length).toBeLessThan(20);
  });

  it("are refused in JSON", () => {
    expect(codesOf("[".repeat(5000), "json")).toEqual(["file/too-deep"]);
    expect(codesOf('{"a":'.repeat(5000), "json")).toEqual(["file/too-deep"]);
  });

  it("are read some tens deep, and what is deeper is reported with its place", () => {
    const levels = 50;
    const text = `borewright: 1\nx-deep: ${"[".repeat(levels)}${"]".repeat(levels)}\n`;
    expect(documentOf(fileOf(text)).findings.map(({ code }) => code)).toContain("file/too-deep");
    expect(documentOf(fileOf(text)).root?.kind).toBe("map");
    expect(codesOf(tube(`x-deep: ${"[".repeat(20)}${"]".repeat(20)}`))).toEqual([]);
  });
});

describe("what only looks deep", () => {
  it("is a whole design in one line", () => {
    const holes = Array.from({ length: 40 }, (_, i) => `{ name: H${i}, at: ${100 + 7 * i}, diameter: 5 }`).join(", ");
    const line = `{ borewright: 1, hands: { spacing: 1 }, mouth: ideal, wall: 3, bore: [{ at: 0, diameter: 16 }, { at: 400, diameter: 16 }], holes: [${holes}] }`;
    expectNothing(line);
    expect(columnOf(line).holes).toHaveLength(40);
  });

  it("is JSON in one line, read as YAML", () => {
    const fingerings = Array.from({ length: 60 }, () => ({ degree: 1 }));
    const data = {
      borewright: 1,
      key: "G4",
      mouth: "ideal",
      wall: 3,
      bore: [
        { at: 0, diameter: 16 },
        { at: 352, diameter: 16 },
      ],
      fingerings,
    };
    expectNothing(JSON.stringify(data));
    expectNothing(JSON.stringify(data).replaceAll(":", ": "));
  });

  it("is a remark full of dashes and colons, quoted or not, or a comment", () => {
    expectNothing(tube(`remark: "${"- a: ? ".repeat(100)}"`));
    expectNothing(tube(`remark: x${" - y ".repeat(100)}`));
    expectNothing(tube(`remark: >\n  ${"- a: ? ".repeat(100)}`));
    expectNothing(`# ${"- a: ? ".repeat(100)}\n${tube()}`);
    expectNothing(tube(`remark: fine # ${"- ".repeat(100)}`));
  });

  it("is a file of many lines at one depth", () => {
    const fingerings = Array.from({ length: 900 }, () => "  - { degree: 1 }").join("\n");
    expectNothing(tube(`fingerings:\n${fingerings}`));
    expectNothing(WHISTLE);
  });
});

describe("what only looks deep to a reader, one fault after another", () => {
  it.each([
    ["keys of brackets", `[${"[1]: ".repeat(2000)}]`],
    ["anchors and items", "- &a ".repeat(2000)],
  ])("is told as such: %s", (_, text) => {
    const codes = codesOf(text);
    expect(codes).toContain("file/syntax");
    expect(codes.length).toBeLessThan(20);
  });
});

describe("a design of more words, signs and gaps than any has", () => {
  it.each([
    ["keys", `borewright: 1\n${Array.from({ length: 40_000 }, (_, i) => `k${i}: 1\n`).join("")}`],
    ["commas", `x: [${",".repeat(200_000)}]`],
    ["blank lines", "\n".repeat(200_000)],
    ["items", "- a\n".repeat(100_000)],
    ["instructions", "%X\n".repeat(100_000)],
    ["keys of brackets", `[${"[1]: ".repeat(5000)}]`],
  ])("is not read: %s", (_, text) => {
    expect(codesOf(text)).toEqual(["file/too-large"]);
  });

  it("is not read in JSON", () => {
    const keys = Array.from({ length: 40_000 }, (_, i) => `"k${i}":1`).join();
    expect(codesOf(`{${keys}}`, "json")).toEqual(["file/too-large"]);
  });

  it("is reported with its number and the limit", () => {
    const [first] = documentOf(fileOf(`borewright: 1\nx: [${"1,".repeat(15_000)}]\n`)).findings;
    // borewright : blank 1 line break, x : blank [ 15 000 times 1 and a comma ] line break
    expect(first?.message).toContain("30 011 words, signs and gaps");
    expect(first?.message).toContain("20 000");
  });

  it("is not one of 100 holes, 50 fingerings and 500 measured notes, in YAML or JSON, nor one with long remarks", () => {
    const largest = largestDesign();
    expect(codesOf(largest)).not.toContain("file/too-large");
    const data = dataOf(documentOf(fileOf(largest)).root);
    expect(codesOf(JSON.stringify(data, null, 2), "json")).not.toContain("file/too-large");
    expectNothing(tube(`remark: "${"a: b, ".repeat(100_000)}"`));
  });

  it("leaves the others of its file alone", () => {
    const huge = `---\nborewright: 1\nx: [${"1,".repeat(15_000)}]\n`;
    const instruments = Array.from({ length: 40 }, (_, i) => (i === 17 ? huge : `---\n${WHISTLE}`));
    const { documents } = fileOf(instruments.join(""));
    expect(documents).toHaveLength(40);
    const [good] = fileOf(WHISTLE).documents;
    for (const [i, { findings, resolution, index }] of documents.entries()) {
      expect(index).toBe(i);
      if (i === 17) expect(findings.map(({ code }) => code)).toEqual(["file/too-large"]);
      else expect(resolution.instrument).toEqual(good?.resolution.instrument);
    }
  });
});
