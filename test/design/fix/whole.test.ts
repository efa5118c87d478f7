/** The one size of a pipe or a vessel that puts a note right: it does so in the design's text, and only within reach. */
import { describe, expect, it } from "vitest";
import { drained } from "../../../server/src/acoustics/steps.js";
import { fixesFor } from "../../../server/src/design/fix/fixHole.js";
import { wholeChangeSteps } from "../../../server/src/design/fix/wholeChange.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { panPipe, vessel } from "../../support/families.js";
import { numberAt } from "../../support/marked.js";

const analysisOf = (text: string) => analyse(documentOf(fileOf(text)).resolution.instrument);
const changeOf = (text: string, index = 0) => drained(wholeChangeSteps(analysisOf(text), index));
const fixed = (text: string, index = 0) => {
  const document = documentOf(fileOf(text));
  const [fix] = fixesFor(document, analysisOf(text), undefined, index);
  return fix && { kind: fix.kind, title: fix.title, after: applyEdits(text, fix.edits) };
};
const left = (text: string, index = 0) => analysisOf(text).fingerings[index]?.cents ?? Number.NaN;

describe("a pipe", () => {
  const first = (length: number) => panPipe("").replace("length: 158", `length: ${length}`);
  it("is as long as its note needs", () => {
    const { path, kind, before, value } = changeOf(first(150)) ?? {};
    expect([path?.join("."), kind, before]).toEqual(["pipes.0.length", "pipe length", 150]);
    expect(Math.abs(left(first(value ?? 0)))).toBeLessThan(0.1);
    const { after = "", kind: of } = fixed(first(150)) ?? {};
    expect(of).toBe("pipe length");
    // In steps of the drawing, a tenth of a millimetre: 0.6 cents either way.
    expect(Math.abs(left(after))).toBeLessThan(0.6);
    expect(numberAt(after, "pipes.0.length")).toBeCloseTo(value ?? 0, 1);
  });
  it("is neither more than five times as long nor less than a fifth", () => {
    const right = changeOf(first(150))?.value ?? 0;
    expect(changeOf(first(Math.ceil(right / 4.8)))?.value).toBeCloseTo(right, 1);
    expect(changeOf(first(Math.floor(right / 5.2)))).toBeUndefined();
    expect(changeOf(first(Math.floor(right / 0.22)))?.value).toBeCloseTo(right, 1);
    expect(changeOf(first(Math.ceil(right / 0.18)))).toBeUndefined();
  });
  it("is changed for its own note alone, and a tube's length not by this", () => {
    expect(changeOf(panPipe(""), 7)).toBeUndefined();
    expect(changeOf(WHISTLE, 0)).toBeUndefined();
  });
});

describe("a vessel", () => {
  const notes = "fingerings: [{ note: C5, holes: '' }]";
  it.each([
    [
      "sphere, diameter: 50",
      "vessel diameter",
      "vessel.diameter",
      /^Make the chamber [\d.]+ mm in diameter, so that C5 is in tune$/,
    ],
    [
      "ellipsoid, length: 60, width: 60, height: 45",
      "vessel length",
      "vessel.length",
      /^Make the chamber [\d.]+ mm long, /,
    ],
    ["tube, length: 60, diameter: 40", "vessel length", "vessel.length", /^Make the chamber [\d.]+ mm long, /],
  ])("in the shape of %s is as large as its note needs", (shape, kind, dotted, title) => {
    const text = vessel(notes, `shape: ${shape}`);
    const { after = "", ...fix } = fixed(text) ?? { kind: undefined, title: "" };
    expect(fix.kind).toBe(kind);
    expect(fix.title).toMatch(title);
    // A step of 0.1 mm is five cents of the smallest.
    expect(Math.abs(left(after))).toBeLessThan(3);
    expect(numberAt(after, dotted)).toBe(Number(changeOf(text)?.value.toFixed(1)));
    expect(changeOf(text)?.before).toBe(numberAt(text, dotted));
  });
  it("of which only the volume is known is as large, in cubic centimetres", () => {
    const text = vessel(notes, "volume: 60");
    const { after = "", kind, title } = fixed(text) ?? {};
    const volume = numberAt(after, "vessel.volume") ?? 0;
    expect(kind).toBe("vessel volume");
    expect(title).toBe(`Make the volume ${volume} cm³, so that C5 is in tune`);
    expect(Math.abs(left(after))).toBeLessThan(0.5);
    expect(changeOf(text)).toMatchObject({ before: 60 });
  });
  it("in the shape of a tube grows both ways by its volume, and in length alone without one, its holes where they are", () => {
    const holes = "holes: [{ diameter: 5, at: 30 }]\nfingerings: [{ note: A4, holes: ○ }]";
    for (const [shape, kind] of [
      ["shape: tube, length: 90, diameter: 40", "vessel length"],
      ["shape: tube, length: 90, diameter: 40, volume: 120", "vessel volume"],
    ] as const) {
      const text = vessel(holes, shape);
      const { after = "", ...fix } = fixed(text) ?? { kind: undefined };
      expect(Math.abs(left(text))).toBeGreaterThan(50);
      expect(fix.kind).toBe(kind);
      expect(Math.abs(left(after))).toBeLessThan(3);
      expect(numberAt(after, "holes.0.at")).toBe(30);
    }
  });
  it("is neither more than five times as large nor less than a fifth", () => {
    const ball = (diameter: number) => vessel(notes, `shape: sphere, diameter: ${diameter}`);
    const right = changeOf(ball(50))?.value ?? 0;
    expect(changeOf(ball(Math.ceil(right / 4.8)))?.value).toBeCloseTo(right, 0);
    expect(changeOf(ball(Math.floor(right / 5.3)))).toBeUndefined();
    expect(changeOf(ball(Math.ceil(right / 0.18)))).toBeUndefined();
  });
  it("in the shape of a tube does not end above its last hole", () => {
    const short = vessel(
      "holes: [{ diameter: 5, at: 80 }]\nfingerings: [{ note: C6, holes: ● }]",
      "shape: tube, length: 90, diameter: 40",
    );
    expect(left(short)).toBeLessThan(-100);
    expect(changeOf(short)).toBeUndefined();
  });
});
