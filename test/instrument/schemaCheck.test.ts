/** Form: what a property may be, told in a maker's words and once for each place. */
import { describe, expect, it } from "vitest";
import { documentOf, fileOf } from "../support/designs.js";
import { codesOf, expectFinding, expectNothing, instrumentOf, tube } from "../support/marked.js";

describe("schema/unknown-property", () => {
  it.each([
    ["[[tempermant]]: just", "A design has no property `tempermant`. Did you mean `temperament`?"],
    ["[[colour]]: red", /A design has no property `colour`\. It takes names such as `borewright`/],
    ["air: { [[temprature]]: 22 }", "`air` has no property `temprature`. Did you mean `temperature`?"],
    ["air: { [[wind]]: 3 }", /It takes `temperature`, `humidity`, .*, `losses` and `speedOfSound`\.$/],
    [
      "holes:\n  - { at: 170, diameter: 7, [[diametre]]: 7 }",
      "A hole has no property `diametre`. Did you mean `diameter`?",
    ],
    ["bore:\n  - { at: 0, diameter: 16, [[x]]: 1 }\n  - { at: 352, diameter: 16 }", "A station has no property `x`"],
    [
      "bore:\n  - { at: 0, diameter: 16 }\n  - { at: 352, diameter: 12,[[5]] }",
      "write decimals with a point, such as 12.5",
    ],
    ["fingerings:\n  - { degree: 1, [[fingers]]: 1 }", "A fingering has no property `fingers`"],
    ["[[constructor]]: 1", "no property `constructor`"],
    ["[[toString]]: 1", "no property `toString`"],
    [`[[${"z".repeat(300)}]]: 1`, /`z+…`/],
  ])("%s", (changes, says) => {
    expectFinding(tube(changes), "schema/unknown-property", says);
  });

  it("suspects a formula that its comma cut short", () => {
    const text = tube("holes:\n  - { at: '=min(170', diameter: 7, [[180)]]: }");
    expectFinding(text, "schema/unknown-property", "seems to belong to the formula of `at`", { alone: false });
  });

  it("ignores the maker's own data, below x-", () => {
    expectNothing(tube("x-notes: { anything: [1, two, { three: 3 }] }"));
  });
});

describe("schema/parameter-name", () => {
  it.each(["2nd", "left hand", "a-b", "ü", ""])("`%s` cannot be used in a formula", (name) => {
    expectFinding(tube(`parameters:\n  [["${name}"]]: 1`), "schema/parameter-name", "letters, digits and _ only");
  });
  it.each(["a", "_x", "L1", "camelCase", "x_2"])("%s can", (name) => {
    expectNothing(tube(`parameters:\n  ${name}: 1`));
  });
});

describe("schema/wrong-kind", () => {
  it.each([
    ["wall: [[thick]]", "takes a number or a formula such as =wall*2, not the text `thick`"],
    ['wall: [["3"]]', "is text because of its quotes; write 3 without them"],
    ["wall: [[3 mm]]", "a number without a unit (mm, or inches where `units: in`"],
    ["air: { temperature: [[22 °C]] }", "takes a number"],
    ["air: { temperature: [[22C]] }", "a number without a unit (°C)"],
    ["parameters: { gap: [[18.8 c]] }", "a number without a unit, not `18.8 c`: write the number alone."],
    ["wall: [['3,2']]", "write decimals with a point, 3.2"],
    ["wall: [[[3]]]", "not a list"],
    ["wall: [[{ a: 1 }]]", "not a group of properties"],
    ["wall: [[true]]", "not `true`"],
    ["name: [[5]]", "takes text such as `Quay whistle`, not `5`"],
    ["air: { losses: [[no]] }", "takes true or false, not the text `no`"],
    ["print: { bed: [[220]] }", "takes a list"],
    ["print: { scale: [[full]] }", "a percentage such as 100 %"],
    ["mouth: [[12]]", "takes properties such as `window:`, or `ideal`, not `12`"],
    ["air: [[22]]", "takes properties such as `temperature:`, or `room` or `played`, not `22`"],
    ["print: [[small]]", "takes properties such as `bed:`"],
    ["parameters: [[none]]", "takes names with values"],
    [`remark: [[[1]]]`, "takes text"],
    [`wall: [[${"thick".repeat(50)}]]`, /not the text `.{39}…`/],
  ])("%s", (changes, says) => {
    expectFinding(tube(changes), "schema/wrong-kind", says);
  });

  it.each([
    ["wall: 3 mm", "3"],
    ["wall: 3MM", "3"],
    ["wall: '3,2'", "3.2"],
    ['wall: "3"', "3"],
    ["wall: 3 cm", undefined],
    ["wall: 3,2 mm", undefined],
  ])("%s is corrected to %s where that is what is meant", (changes, raw) => {
    const [finding] = documentOf(fileOf(tube(changes))).findings;
    expect(finding?.code).toBe("schema/wrong-kind");
    expect(finding?.correction).toEqual(raw === undefined ? undefined : { do: "set", raw });
  });

  it("is reported once, not again for every clause that the value breaks", () => {
    expect(codesOf(tube("mouth: 12"))).toEqual(["schema/wrong-kind"]);
    expect(codesOf(tube("fingerings: 12"))).toEqual(["schema/wrong-kind"]);
  });
});

describe("schema/unknown-word", () => {
  it.each([
    ["family: [[flute]]", "cannot be `flute`. It takes `transverse`, `duct`"],
    ["family: [[dukt]]", "Did you mean `duct`?"],
    ["family: [[Whistle]]", "Its family is `duct`."],
    ["family: [[ocarina]]", "Its family is `vessel`."],
    ["units: [[cm]]", "ten times the number"],
    ["units: [[inches]]", "It takes `mm` or `in`"],
    ["mouth: [[idael]]", "Did you mean `ideal`?"],
    ["holes:\n  - { at: 170, diameter: 7, side: [[rear]] }", "It takes `front` or `back`"],
  ])("%s", (changes, says) => {
    expectFinding(tube(changes), "schema/unknown-word", says);
  });
});

describe("a property misspelt", () => {
  it("is not reported missing as well", () => {
    expectFinding(
      tube("bore:\n  - { at: 0, [[diamter]]: 16 }\n  - { at: 352, diameter: 16 }"),
      "schema/unknown-property",
    );
    expectFinding(tube("mouth: { window: { width: 9, [[cutup]]: 4.5 } }"), "schema/unknown-property");
  });
  it("hides no other that is missing", () => {
    expect(codesOf(tube("holes: [{ diamter: 7 }]"))).toEqual(["schema/unknown-property", "schema/missing-property"]);
  });
});

describe("schema/wrong-count", () => {
  it.each([
    ["print: { [[bed]]: [220, 220] }", "exactly 3 entries, not 2"],
    ["holes:\n  - { at: 170, diameter: 7, limits: { [[at]]: [1] } }", "exactly 2 entries, not 1"],
  ])("%s", (changes, says) => {
    expectFinding(tube(changes), "schema/wrong-count", says);
  });
});

describe("schema/missing-property", () => {
  it.each([
    ["mouth: { [[window]]: { width: 9 } }", "`mouth.window` needs `cutUp`: cut-up"],
    ["bore:\n  - [[{ at: 0 }]]\n  - { at: 352, diameter: 16 }", "A station needs `diameter`: inner diameter"],
  ])("%s", (changes, says) => {
    expectFinding(tube(changes), "schema/missing-property", says);
  });
});

describe("value/missing and value/not-finite", () => {
  it.each([
    ["[[wall]]:", "value/missing", "`wall` has no value yet: it takes a number"],
    ["wall: [[~]]", "value/missing", ""],
    ["air: { [[temperature]]: }", "value/missing", ""],
    ["[[family]]:", "value/missing", "it takes `transverse`, `duct`"],
    ["wall: [[.inf]]", "value/not-finite", "must be an ordinary, finite number"],
    ["wall: [[-.inf]]", "value/not-finite", ""],
    ["wall: [[.nan]]", "value/not-finite", ""],
  ])("%s", (changes, code, says) => {
    expectFinding(tube(changes), code, says);
    expect(instrumentOf(tube(changes.replace(/\[\[|\]\]/g, ""))).key?.name).toBe("G4");
  });
});
