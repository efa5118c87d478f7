/** JSON: what it does not allow is told, and the rest is read all the same. */
import { describe, expect, it } from "vitest";
import { syntaxOf } from "../../server/src/document/read.js";
import { documentOf, fileOf } from "../support/designs.js";
import { codesOf, columnOf, expectFinding, expectNothing } from "../support/marked.js";

const TUBE = '"mouth": "ideal", "wall": 3, "bore": [{ "at": 0, "diameter": 16 }, { "at": 352, "diameter": 16 }]';
const json = (entries: string) => `{ "borewright": 1, ${TUBE}, ${entries} }`;
const marked = (text: string, says: RegExp | string = "", alone = true) =>
  expectFinding(text, "file/syntax", says, { syntax: "json", alone });

describe("a design in JSON", () => {
  it("is read", () => {
    expectNothing(json('"key": "G4"'), "json");
    expect(columnOf(json('"key": "G4"'), "json").bore).toHaveLength(2);
  });

  it("is recognized by the file's name", () => {
    expect(["a.bore.json", "A.BORE.JSON", "a.bore.yaml", "a.bore.yml", "a"].map(syntaxOf)).toEqual([
      "json",
      "json",
      "yaml",
      "yaml",
      "yaml",
    ]);
  });

  it.each([
    [json('[[// by hand]]\n "key": "G4"'), /JSON has no comments.*`remark`/],
    [json('[[/* by hand */]] "key": "G4"'), "JSON has no comments"],
    [json('"key": "G4", [[}]]').slice(0, -2), "comma too many"],
    [json('"temperament": [[just]]'), "double quotes"],
    [json('"key" [["G4"]]'), "colon"],
    [json('"key": "G4" [["name"]]: "x"'), "comma is missing"],
    [json('"remark": [["a]]').slice(0, -2), "closing quote"],
    [`${json('"key": "G4"')} [[{]]}`, "one design per file"],
    [json('"remark": [["a\\q"]]'), "backslash"],
    [json('"tolerance": [[+5]]'), ""],
  ])("%s is told, and the tube is there", (text, says) => {
    marked(text, says, false);
    expect(columnOf(text.replace(/\[\[|\]\]/g, ""), "json").bore.length).toBeGreaterThan(0);
  });

  it("reports a superfluous comma once", () => {
    expect(codesOf(json('"key": "G4",'), "json")).toEqual(["file/syntax"]);
  });

  it("reports a name written twice, of which the first counts", () => {
    expectFinding(json('"key": "G4", [["key"]]: "D4"'), "file/duplicate-key", "", { syntax: "json" });
    expect(documentOf(fileOf(json('"key": "G4", "key": "D4"'), "json")).resolution.instrument.key?.name).toBe("G4");
  });

  it("treats __proto__ as a name like any other", () => {
    expectFinding(json('[["__proto__"]]: { "wall": 9 }'), "schema/unknown-property", "", { syntax: "json" });
    expect(columnOf(json('"__proto__": { "wall": 9 }'), "json").wall).toBeCloseTo(0.003, 12);
  });

  it("ignores a byte order mark", () => {
    expectNothing(`\uFEFF${json('"key": "G4"')}`, "json");
    expectFinding(`\uFEFF${json('"key": [["H4"]]')}`, "note/unreadable", "", { syntax: "json" });
  });

  it("marks a sign inside quotes, escapes or none", () => {
    const holes = '"holes": [{ "at": 170, "diameter": 7 }], "fingerings": [{ "note": "A4", "holes": ';
    expectFinding(json(`${holes}"[[?]]" }]`), "fingering/sign", "", { syntax: "json" });
    expectFinding(json(`${holes}[["\\u003f"]] }]`), "fingering/sign", "", { syntax: "json" });
  });

  it.each(["", " ", "\n"])("of nothing is empty: %j", (text) => {
    expect(codesOf(text, "json")).toEqual(["file/empty"]);
  });

  it.each(["[]", '"words"', "42"])("that is %s is refused", (text) => {
    expect(codesOf(text, "json")).toEqual(["file/not-a-design"]);
  });

  it("keeps what stands before while it is being typed", () => {
    for (const rest of ['"k', '"key"', '"key":', '"key": "G', '"holes": [{ "at": 170, ', '"air": {'])
      expect(columnOfHalf(`{ "borewright": 1, ${TUBE}, ${rest}`)).toEqual([0, 352]);
  });
});

function columnOfHalf(text: string): readonly (number | undefined)[] {
  const { numbers } = documentOf(fileOf(text, "json")).resolution;
  return [0, 1].map((i) => numbers.find(({ path }) => path.join(".") === `bore.${i}.at`)?.value);
}
