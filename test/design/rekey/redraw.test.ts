/** A redraw on the text: every length by one factor, through parameters and formulas where it has some. */
import { describe, expect, it } from "vitest";
import { redrawEdits } from "../../../server/src/design/rekey/redraw/redraw.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { tube } from "../../support/marked.js";

/** The text redrawn by a factor, and the remarks. */
function redrawn(text: string, factor = 2) {
  const file = fileOf(text);
  const { edits, remarks } = redrawEdits(file, documentOf(file), factor);
  return { text: applyEdits(text, edits), remarks };
}
const hole = (at: string, more = "diameter: 7") => `holes:\n  - { at: ${at}, ${more} }\n`;
const BORE = (size: string, foot: string) =>
  `bore:\n  - { at: 0, diameter: ${size} }\n  - { at: ${foot}, diameter: ${size} }\n`;

/** Entries beside a bore of 16 mm and a wall of 3, before and after everything is twice as large. */
function doubles(before: string, after: string, remarks: readonly string[] = []) {
  const found = redrawn(tube(`${BORE("16", "352")}wall: 3\n${before}`));
  expect(found).toEqual({ text: tube(`${BORE("32", "704")}wall: 6\n${after}`), remarks });
}
const PLAIN = (places: string) => [
  `Expressions that do not grow in step with the instrument became plain numbers: ${places}.`,
];

describe("a redraw", () => {
  it("grows every length of the instrument, and nothing of player, air or printer", () => {
    const stays =
      "air: { temperature: 20 }\nprint: { bed: [200, 200, 200], holeUndersize: 0.2, scale: 90 % }\nhands: { spacing: 1 }\n";
    doubles(
      `${stays}mouth: { window: { width: 9, cutUp: 4.5 } }\n${hole("120", "diameter: 7, chimney: 4, angle: 30")}`,
      `${stays}mouth: { window: { width: 18, cutUp: 9 } }\n${hole("240", "diameter: 14, chimney: 8, angle: 30")}`,
    );
  });
  it.each([
    [
      "parameters that are lengths, those that are ratios staying",
      "{ tube: 16, share: 0.5, gap: =tube*share }",
      "=tube*10 + 5",
      "{ tube: 32, share: 0.5, gap: =tube*share }",
      "=tube*10 + 10",
    ],
    [
      "parameters by the power of length they carry",
      "{ area: 50 }",
      "=sqrt(area) + 100",
      "{ area: 200 }",
      "=sqrt(area) + 200",
    ],
  ])("grows %s", (_, before, at, after, then) => {
    doubles(`parameters: ${before}\n${hole(at)}`, `parameters: ${after}\n${hole(then, "diameter: 14")}`);
  });
  it("grows areas and powers of what is known as a length", () => {
    const own = (at: string) => hole(at, "diameter: 7, chimney: =a");
    const grown = (at: string) => hole(at, "diameter: 14, chimney: =a");
    const [area, cube] = ["area: =a*a", "v: =a**3"];
    doubles(
      `parameters: { a: 4, ${area} }\n${own("=area/a + 96")}`,
      `parameters: { a: 8, ${area} }\n${grown("=area/a + 192")}`,
    );
    doubles(
      `parameters: { a: 4, ${cube} }\n${own("=v/(a**2) + 96")}`,
      `parameters: { a: 8, ${cube} }\n${grown("=v/(a**2) + 192")}`,
    );
  });
  it.each([
    ["=wall*30 + 20", "=wall*30 + 40"],
    ["=20 - -wall*30", "=40 - -wall*30"],
    ["'=max(100, wall*20)'", "'=max(200, wall*20)'"],
    ["=wall*30/2 + 60", "=wall*30/2 + 120"],
    ["=bore[1].diameter*7", "=bore[1].diameter*7"],
  ])("grows in %s what is a length", (at, then) => {
    doubles(hole(at.includes("[") ? `"${at}"` : at), hole(then.includes("[") ? `"${then}"` : then, "diameter: 14"));
  });
  it("puts a number in place of a formula that does not grow in step, and says so", () => {
    doubles(
      `parameters: { n: 4 }\n${hole("=n*wall*10", "diameter: =n")}`,
      `parameters: { n: 4 }\n${hole("=n*wall*10", "diameter: 8")}`,
      PLAIN("`diameter` of hole 1"),
    );
    doubles(hole("=round(wall*33.4)"), hole("=round(wall*33.4)", "diameter: 14"));
    doubles(hole("=round(wall*33.5)"), hole("202", "diameter: 14"), PLAIN("`at` of hole 1"));
    doubles(
      `parameters: { a: 4, area: =a*a }\n${hole("=area/a + 96")}`,
      `parameters: { a: 4, area: =a*a }\n${hole("200", "diameter: 14")}`,
      PLAIN("`at` of hole 1"),
    );
    doubles(hole("=wall**4"), hole("162", "diameter: 14"), PLAIN("`at` of hole 1"));
  });
  it("leaves a parameter that nothing uses, and one that does not follow, without a word", () => {
    doubles(
      `parameters: { idle: 5, odd: =wall**2 }\n${hole("100")}`,
      `parameters: { idle: 5, odd: =wall**2 }\n${hole("200", "diameter: 14")}`,
    );
  });
  it("is written to a hundredth of a millimetre, or ten thousandths of an inch", () => {
    const semitone = 2 ** (1 / 12);
    const [first] = redrawn(tube(hole("123.456", "diameter: 6.789")), semitone).text.match(/at: 1.*/) ?? [];
    expect(first).toBe("at: 130.8, diameter: 7.19 }");
    const inches = tube("units: in\nwall: 0.12\nbore: [{ at: 0, diameter: 0.63 }, { at: 14, diameter: 0.63 }]");
    expect(redrawn(inches, semitone).text).toContain(
      "bore: [{ at: 0, diameter: 0.6675 }, { at: 14.8325, diameter: 0.6675 }]",
    );
  });
});
