/** What cannot be made as a solid, said while a design is written: `solid/*` among the findings of `check` and of the editor. */
import { describe, expect, it } from "vitest";
import { checkDocument } from "../../../server/src/design/check.js";
import { preflight } from "../../../server/src/design/making/preflight.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";

const PRINTED = `${WHISTLE}print: { nozzle: 0.4 }\n`;
const wide = (text: string) =>
  text.replace("cutUp: 4.5, labium: 1 }", "cutUp: 4.5, labium: 1 }\n  windway: { width: 17 }");
function told(text: string) {
  return checkDocument(documentOf(fileOf(text)))
    .findings.filter(({ code }) => code.startsWith("solid/"))
    .map(({ code, severity, span }) => `${severity} ${code} ${text.slice(span.start, span.end)}`);
}

describe("what cannot be made", () => {
  it("is a warning at the number to change", () => {
    expect(told(PRINTED)).toEqual([]);
    expect(told(wide(PRINTED))).toEqual(["warning solid/no-room 17"]);
    expect(told(wide(`${WHISTLE}solid: { rings: true }\n`))).toEqual(["warning solid/no-room 17"]);
  });

  it("is not reported where nothing says that it is printed, nor twice at one place", () => {
    expect(told(wide(WHISTLE))).toEqual([]);
    expect(told(PRINTED.replace(/mouth:\n.*\n/, "mouth: { correction: 12 }\n"))).toEqual([]);
  });

  it("of a thin wall is reported beside its thickness: it leaves no room for a windway", () => {
    const thin = PRINTED.replace("wall: 3,", "wall: 0.9,");
    const { findings } = checkDocument(documentOf(fileOf(thin)));
    expect(findings.map(({ code }) => code)).toContain("print/wall-too-thin");
    // Once for each reason; that the wall itself is too thin is said already.
    expect(new Set(told(thin))).toEqual(new Set(["warning solid/no-room =wall"]));
  });

  it("can be switched off, or graded", () => {
    expect(told(`${wide(PRINTED)}rules: { solid/no-room: off }\n`)).toEqual([]);
    expect(told(`${wide(PRINTED)}rules: { solid/no-room: error }\n`)).toEqual(["error solid/no-room 17"]);
  });

  it("is not reported where the drawing's own finding has its place", () => {
    const through = PRINTED.replace(
      "  - { at: 394.1",
      "  - { at: 180, diameter: =tube, joint: true }\n  - { at: 394.1",
    );
    const document = documentOf(fileOf(through));
    expect(preflight(document.resolution).refused.map(({ path }) => path.join("."))).toEqual(["holes.0.at"]);
    expect(checkDocument(document).findings.map(({ path }) => path.join("."))).toContain("holes.0.at");
    expect(told(through)).toEqual([]);
  });

  it("is not reported of a mouth that may come from elsewhere, nor in a design with errors", () => {
    const elsewhere = PRINTED.replace(/mouth:\n.*\n/, "mouth: { correction: 12 }\n");
    expect(told(elsewhere.replace("diameter: 7 }", "diameter: 7, chimney: 0.5 }"))).toEqual([
      "warning solid/wall-too-thin 0.5",
    ]);
    expect(told(wide(PRINTED).replace("at: 210.3", "at: -400"))).toEqual([]);
  });
});
