/** What cannot be rekeyed or retuned, and why, as the maker is told; none of it costs a search. */
import { describe, expect, it } from "vitest";
import { checkDocument } from "../../../server/src/design/check.js";
import { retune } from "../../../server/src/design/refit/rekeyByRefit.js";
import { printScaleFactors } from "../../../server/src/design/rekey/keyTable.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { CannotRekey, REKEY_METHODS } from "../../../server/src/design/rekey/rekeyResult.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { panPipe } from "../../support/families.js";
import { tube } from "../../support/marked.js";
import { note } from "../../support/vessel.js";

const ONE =
  "holes: [{ name: A, at: 200, diameter: 7 }]\nfingerings: [{ degree: 1, holes: x }, { note: C5, holes: o }]\n";

/** Signs for two holes where there is one. */
const UNPLAYED = tube(ONE.replace(/fingerings:.*/, "fingerings: [{ degree: 1, holes: xx }]"));

/** The reason; anything but a refusal is a fault. */
function refusal(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    if (error instanceof CannotRekey) return error.message;
    throw error;
  }
  return "not refused";
}

describe.each(REKEY_METHODS)("a rekey by %s is refused", (by) => {
  const said = (text: string, { to = "A4", index = 0 } = {}) => refusal(() => rekey(fileOf(text), index, note(to), by));

  it.each([
    ["of an instrument that the file does not have", tube(ONE), "there is no instrument 2 in this file", { index: 1 }],
    [
      "without a key",
      tube(ONE).replace("key: G4\n", ""),
      "the design names no key: add `key:` with a note such as G4",
      {},
    ],
    [
      "where the tube is not described",
      tube("bore: []\n"),
      "the instrument is not fully described yet: see the findings",
      {},
    ],
    ["where nothing can be fingered", UNPLAYED, "no fingering of the design can be predicted", {}],
    [
      "where a note would be none any more",
      tube(ONE.replace("C5", "C9")),
      "C9 would leave the range of notes in G8",
      { to: "G8" },
    ],
  ] as const)("%s", (_, text, reason, more) => {
    expect(said(text, more)).toBe(reason);
  });
});

describe("a retune is refused", () => {
  const said = (text: string, index = 0) => refusal(() => retune(fileOf(text), index, "all"));

  it("of an instrument that the file does not have, or that is not described", () => {
    expect(said(tube(ONE), 1)).toBe("there is no instrument 2 in this file");
    for (const text of [tube("bore: []\n"), UNPLAYED])
      expect(said(text)).toBe("the instrument is not fully described yet: see the findings");
  });
  it("where everything is fixed", () => {
    const fixed = tube(
      `${ONE.replace("diameter: 7 }", "diameter: 7, fixed: true }")}bore: [{ at: 0, diameter: 16 }, { at: 352, diameter: 16, fixed: true }]\n`,
    );
    expect(said(fixed)).toBe("everything in the design is `fixed`: nothing may move");
  });
});

it("a table of print scales is refused without a key, a body or a note", () => {
  const said = (text: string) => {
    const document = documentOf(fileOf(text));
    return refusal(() => printScaleFactors(document.resolution, checkDocument(document).analysis));
  };
  for (const text of [tube(ONE).replace("key: G4\n", ""), tube("bore: []\n"), UNPLAYED])
    expect(said(text)).toBe("the instrument needs a key and must be fully described");
  expect(said(panPipe("key: C5\n"))).toBe("not refused");
});
