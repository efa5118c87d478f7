/** Numbers written into a design: text in, the edited text and the told moves out. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { changeDrawn, changeNumber } from "../../../server/src/design/edit/numberEdit.js";
import { NumberWriter } from "../../../server/src/design/edit/numberWriter.js";
import { ParameterWriter } from "../../../server/src/design/edit/parameterWriter.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import type { Path } from "../../../server/src/instrument/finding.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { numberAt, tube } from "../../support/marked.js";

const WIDTH: Path = ["bore", 1, "diameter"];
const bore = (first: string, second: string) =>
  `bore:\n  - { at: 0, diameter: ${first} }\n  - { at: 352, diameter: ${second} }`;
const dotted = (path: Path) => path.join(".");

describe("a number that is changed", () => {
  const changed = (written: string, value: number, decimals = 2) => {
    const text = tube(`parameters: { tube: 13 }\n${bore("16", written)}\n`);
    const after = applyEdits(text, changeNumber(documentOf(fileOf(text)), WIDTH, value, decimals));
    return /at: 352, diameter: (.*) }/.exec(after)?.[1];
  };
  it.each([
    ["15", 15.5, "15.5"],
    ["=tube + 2", 17, "=tube + 4"],
    ["=tube+2", 17, "=tube+ 4"],
    ["=tube + 2", 13, "=tube"],
    ["=tube + 2", 12.5, "=tube - 0.5"],
    ["=tube - 2", 12, "=tube - 1"],
    ["=tube - 2", 13, "=tube"],
    ["=tube - 2", 14, "=tube + 1"],
    ["=(tube + 2)", 17, "=(tube + 4)"],
    ["=(tube) + 2", 17, "=(tube) + 4"],
    ["=2*(tube - 5) + 2", 20, "=2*(tube - 5) + 4"],
    ["=tube", 14.5, "=tube + 1.5"],
    ["=tube", 12.25, "=tube - 0.75"],
    ["=2*tube", 24, "=2*tube - 2"],
    ["=tube/2", 7, "=tube/2 + 0.5"],
    ["=2 + tube", 16, "=2 + tube + 1"],
    // A number in parentheses of its own is not taken apart.
    ["=tube + (2)", 17, "=tube + (2) + 2"],
    ["'=tube  '", 15, "'=tube + 2'"],
    ["' =tube + 2'", 17, "' =tube + 4'"],
    ["=tube + 2", 15.004, "=tube + 2"],
    ["=tube + 2", 15.006, "=tube + 2.01"],
  ])("%s made %d is %s", (written, value, after) => {
    expect(changed(written, value)).toBe(after);
  });

  it("has the value that it was given, whatever formula it stands in", () => {
    const formula = fc.constantFrom(
      "=tube",
      "=tube + 2",
      "=tube - 1.5",
      "=(tube) - 3",
      "=2*tube - 9",
      "=20 - tube/2",
      "14",
    );
    fc.assert(
      fc.property(formula, fc.integer({ min: 500, max: 3000 }), (written, hundredths) => {
        const text = tube(`parameters: { tube: 13 }\n${bore("16", written)}\n`);
        const after = applyEdits(text, changeNumber(documentOf(fileOf(text)), WIDTH, hundredths / 100, 2));
        expect(numberAt(after, dotted(WIDTH))).toBeCloseTo(hundredths / 100, 9);
      }),
      { numRuns: 50 },
    );
  });

  it("is on a step of the drawing where it is drawn", () => {
    const drawn = (more: string) => {
      const text = tube(`${bore("16", "15")}\n${more}`);
      return numberAt(applyEdits(text, changeDrawn(documentOf(fileOf(text)), WIDTH, 15.437)), dotted(WIDTH));
    };
    expect(drawn("")).toBe(15.4);
    expect(drawn("print: { rounding: 0.05 }\n")).toBe(15.45);
    expect(drawn("print: { rounding: 0.25 }\n")).toBe(15.5);
  });
});

describe("several numbers written", () => {
  const writing = (text: string, write: (writer: NumberWriter) => void) => {
    const file = fileOf(text);
    const writer = new NumberWriter(file, documentOf(file));
    write(writer);
    expect(applyEdits(text, writer.edits)).toBe(writer.document.text);
    return {
      text: writer.document.text,
      moves: writer.moves.map(({ path, from, to }) => `${dotted(path)}: ${from} → ${to}`),
    };
  };
  const FIRST: Path = ["bore", 0, "diameter"];

  it("are each what was asked, formulas corrected after what they follow", () => {
    const text = tube(bore("16", "'=bore[0].diameter - 1'"));
    const { text: after, moves } = writing(text, (writer) =>
      writer.writeAll(
        [
          { path: WIDTH, value: 16.5 },
          { path: FIRST, value: 18 },
        ],
        1,
      ),
    );
    expect(after).toBe(tube(bore("18", "'=bore[0].diameter - 1.5'")));
    expect(moves).toEqual(["bore.0.diameter: 16 → 18", "bore.1.diameter: 15 → 16.5"]);
  });

  it("stay as written where they are right already, and are no move then", () => {
    const text = tube(bore("16.00", "'=bore[0].diameter - 1'"));
    const { text: after, moves } = writing(text, (writer) =>
      writer.writeAll(
        [
          { path: FIRST, value: 16.04 },
          { path: WIDTH, value: 15.03 },
        ],
        1,
      ),
    );
    expect(after).toBe(text);
    expect(moves).toEqual([]);
  });

  it("tell the move from what stood at first, of one number too", () => {
    const text = tube(bore("16", "15"));
    const { text: after, moves } = writing(text, (writer) => {
      writer.write(WIDTH, 15.16, 1);
      writer.writeDrawn(FIRST, 16.26);
      writer.write(["holes", 0, "at"], 3, 1);
    });
    expect(after).toBe(tube(bore("16.3", "15.2")));
    expect(moves).toEqual(["bore.1.diameter: 15 → 15.2", "bore.0.diameter: 16 → 16.3"]);
  });

  it("replace formulas where they are set, and keep one alias one", () => {
    const text = tube(bore("16", "'=bore[0].diameter - 1'"));
    expect(writing(text, (writer) => writer.setAll([{ path: WIDTH, value: 14 }], 1)).text).toBe(tube(bore("16", "14")));
    const shared = tube(
      `${bore("16", "15")}\nholes:\n  - &one { at: 170, diameter: 7 }\n  - { <<: *one, at: 190 }\n  - { <<: *one, at: 210 }`,
    );
    const { text: after } = writing(shared, (writer) =>
      writer.setAll(
        [1, 2].map((hole) => ({ path: ["holes", hole, "diameter"], value: 6 + hole })),
        1,
      ),
    );
    expect([0, 1, 2].map((hole) => numberAt(after, `holes.${hole}.diameter`))).toEqual([7, 7, 8]);
    // Several values of one alias, beside a plain one.
    const alias = (first: string, second: string) =>
      tube(`${bore(first, "15")}\nholes:\n  - &one { at: 170, diameter: 7 }\n  - ${second}`);
    const { text: parted } = writing(alias("16", "*one"), (writer) =>
      writer.setAll(
        [
          { path: ["holes", 1, "at"], value: 190 },
          { path: FIRST, value: 17 },
          { path: ["holes", 1, "diameter"], value: 8 },
        ],
        1,
      ),
    );
    expect(parted).toBe(alias("17", "{ <<: *one, at: 190, diameter: 8 }"));
  });
});

describe("values of formulas written through parameters", () => {
  /** Writes values at their paths, all of them told beforehand. */
  const written = (text: string, values: readonly (readonly [Path, number])[]) => {
    const file = fileOf(text);
    const writer = new NumberWriter(file, documentOf(file));
    const through = new ParameterWriter(
      writer,
      1,
      values.map(([path]) => path),
    );
    for (const [path, value] of values) through.write(path, value);
    return writer.document.text;
  };
  const FIRST: Path = ["bore", 0, "diameter"];
  const design = (parameters: string, first: string, second: string, more = "") =>
    tube(`parameters: { ${parameters} }\n${bore(first, second)}\n${more}`);

  it("move the parameter that serves them alone, by their slope", () => {
    expect(
      written(design("tube: 16", "=tube", "=tube"), [
        [FIRST, 17],
        [WIDTH, 17],
      ]),
    ).toBe(design("tube: 17", "=tube", "=tube"));
    expect(written(design("half: 8", "=2*half", "16"), [[FIRST, 17]])).toBe(design("half: 8.5", "=2*half", "16"));
    expect(written(design("lack: 4", "=20 - lack", "16"), [[FIRST, 17]])).toBe(design("lack: 3", "=20 - lack", "16"));
  });

  it("move the last named of several", () => {
    expect(written(design("a: 10, b: 6", "=a + b", "16"), [[FIRST, 17]])).toBe(design("a: 10, b: 7", "=a + b", "16"));
    // What has no effect is passed over.
    expect(written(design("a: 16, b: 6", "=a + 0*b", "16"), [[FIRST, 17]])).toBe(
      design("a: 17, b: 6", "=a + 0*b", "16"),
    );
  });

  it("leave a parameter that something else needs, or that follows another, and one that a value before was made of", () => {
    const needed = design("tube: 16", "=tube", "=tube");
    expect(written(needed, [[FIRST, 17]])).toBe(design("tube: 16", "=tube + 1", "=tube"));
    const following = design("half: 8, tube: =2*half", "=tube", "=tube");
    expect(
      written(following, [
        [FIRST, 17],
        [WIDTH, 17],
      ]),
    ).toBe(design("half: 8, tube: =2*half", "=tube + 1", "=tube + 1"));
    expect(
      written(design("tube: 16", "=tube", "=tube - 1"), [
        [FIRST, 17],
        [WIDTH, 15],
      ]),
    ).toBe(design("tube: 17", "=tube", "=tube - 2"));
    // Right as it is, the first keeps the parameter from the second.
    expect(
      written(design("tube: 16", "=tube", "=tube - 1"), [
        [FIRST, 16],
        [WIDTH, 14],
      ]),
    ).toBe(design("tube: 16", "=tube", "=tube - 2"));
  });

  it("leave what is no parameter alone", () => {
    const text = tube(bore("16", "'=bore[0].diameter - 1'"));
    expect(written(text, [[WIDTH, 16]])).toBe(tube(bore("16", "'=bore[0].diameter'")));
  });

  it("are made exact by the formula where the parameter's decimals do not reach", () => {
    expect(written(design("third: 5", "=3*third", "16"), [[FIRST, 15.4]])).toBe(
      design("third: 5.1", "=3*third + 0.1", "16"),
    );
  });

  it("stay where they are right to the written decimals, and where no formula stands", () => {
    const text = design("tube: 16", "=tube", "15");
    expect(
      written(text, [
        [FIRST, 16.04],
        [WIDTH, 12],
      ]),
    ).toBe(text);
  });
});
