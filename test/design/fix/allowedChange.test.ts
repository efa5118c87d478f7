/** A change that puts a note right, as it is drawn: on a step of the drawing, of the finished size, and within what is allowed. */
import { describe, expect, it } from "vitest";
import { drained } from "../../../server/src/acoustics/steps.js";
import { constraintsOf } from "../../../server/src/design/constraints/constraints.js";
import { allowedFootSteps, allowedHoleSteps } from "../../../server/src/design/fix/allowedChange.js";
import { footPlace, holeChanges } from "../../../server/src/design/fix/holeChange.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { tube } from "../../support/marked.js";

/** Steps of half a millimetre, twice as large on the print; holes come out 0.4 mm narrower. */
const STEP = 0.5;
const SCALE = 2;
const UNDERSIZE = 0.4;
/** A hole for one note that it is far from, and a bore that is too short for the other. */
interface Drawn {
  readonly at: number;
  readonly diameter: number;
  readonly foot: number;
}
const AS_DRAWN: Drawn = { at: 300, diameter: 7, foot: 425 };
const text = (drawn: Partial<Drawn> = {}, ofHole = "", ofFoot = "") => {
  const { at, diameter, foot } = { ...AS_DRAWN, ...drawn };
  return tube(
    `key: G3\ntolerance: 5\nhands: { spacing: 1, fingertip: 60, reach: 400 }\nbore: [{ at: 0, diameter: 16 }, { at: ${foot}, diameter: 16${ofFoot} }]\nholes: [{ at: ${at}, diameter: ${diameter}${ofHole} }]\nfingerings: [{ note: G3, holes: ● }, { note: B3, holes: ○ }]\nprint: { scale: ${100 * SCALE} %, holeUndersize: ${UNDERSIZE}, rounding: ${STEP} }\n`,
  );
};
const of = (design: string) => {
  const document = documentOf(fileOf(design));
  return { analysis: analyse(document.resolution.instrument), constraints: constraintsOf(document) };
};
const MM = 1e3;
/** mm of the drawing that put the notes right. */
const EXACT: Drawn = (() => {
  const { analysis } = of(text());
  const [move, resize] = holeChanges(analysis, 0, 1);
  const drawn = (metres = Number.NaN, undersize = 0) => (MM * metres + undersize) / SCALE;
  return { at: drawn(move?.value), diameter: drawn(resize?.value, UNDERSIZE), foot: drawn(footPlace(analysis, 0)) };
})();

const onStep = (value: number) => STEP * Math.round(value / STEP);
const beside = (value: number) => onStep(value) + (onStep(value) > value ? -STEP : STEP);
const between = (a: number, b: number) => (a + b) / 2;
/** A limit in the way from a drawing to what puts the note right, and where that drawing is, `by` before it. */
const limitAt = (exact: number, limit: number, isGreatest: boolean, by: number) =>
  isGreatest
    ? { start: exact - by, limits: `[${exact - 2 * by}, ${limit}]` }
    : { start: exact + by, limits: `[${limit}, ${exact + 2 * by}]` };
/** Between what is right and the step nearest to it: that step is on the far side of it. */
const shortOfStep = (exact: number, by: number) =>
  limitAt(exact, between(exact, onStep(exact)), onStep(exact) > exact, by);
/** Before what is right, though beyond the step on this side of it. */
const shortOfRight = (exact: number, by: number) =>
  limitAt(exact, between(exact, beside(exact)), beside(exact) < exact, by);

/** What is offered, mm of the drawing, and by how much it changes. */
function offered(drawn: Partial<Drawn>, ofHole = "") {
  const { analysis, constraints } = of(text(drawn, ofHole));
  const { changes, inTheWay } = drained(allowedHoleSteps(analysis, constraints, 0, 1));
  const found = changes.map(({ kind, value, change }) => {
    const undersize = kind === "resize" ? UNDERSIZE : 0;
    return [kind, (MM * value + undersize) / SCALE, (MM * change) / SCALE];
  });
  return { found, inTheWay };
}
const near = (value: number) => expect.closeTo(value, 9);

describe("a change of a hole", () => {
  it("is on a step of the drawing, nearest to what puts the note right", () => {
    const [place, width] = [onStep(EXACT.at), onStep(EXACT.diameter)];
    expect(offered({})).toEqual({
      found: [
        ["move", near(place), near(place - 300)],
        ["resize", near(width), near(width - 7)],
      ],
      inTheWay: [],
    });
  });

  it("is on the step beside it where a limit lies between the two", () => {
    const at = shortOfStep(EXACT.at, 10);
    expect(offered({ at: at.start }, `, limits: { at: ${at.limits} }`).found[0]).toEqual([
      "move",
      near(beside(EXACT.at)),
      near(beside(EXACT.at) - at.start),
    ]);
    const wide = shortOfStep(EXACT.diameter, 2);
    expect(offered({ diameter: wide.start }, `, limits: { diameter: ${wide.limits} }`).found.at(-1)).toEqual([
      "resize",
      near(beside(EXACT.diameter)),
      near(beside(EXACT.diameter) - wide.start),
    ]);
  });

  it("is none where a limit forbids what puts the note right, though a step lies within it", () => {
    const at = shortOfRight(EXACT.at, 10);
    expect(offered({ at: at.start }, `, limits: { at: ${at.limits} }`).inTheWay).toEqual([
      expect.stringMatching(/^hole 1 would have to lie at [\d.]+ mm, outside its limits$/),
    ]);
    const wide = shortOfRight(EXACT.diameter, 2);
    expect(offered({ diameter: wide.start }, `, limits: { diameter: ${wide.limits} }`).inTheWay).toEqual([
      expect.stringMatching(/^hole 1 would have to be [\d.]+ mm wide, outside its limits$/),
    ]);
  });

  it("is none where limits leave no step on either side, though what puts the note right lies within them", () => {
    const start = between(EXACT.at, beside(EXACT.at));
    const limits = [start, between(EXACT.at, onStep(EXACT.at))].sort((a, b) => a - b);
    expect(offered({ at: start }, `, limits: { at: [${limits}] }`).inTheWay).toEqual([
      expect.stringMatching(/^hole 1 would have to lie at [\d.]+ mm, outside its limits$/),
    ]);
  });

  it("is none of a hole that is fixed, which is told once", () => {
    expect(offered({}, ", fixed: true")).toEqual({ found: [], inTheWay: ["hole 1 is `fixed`"] });
  });
});

describe("a change of the foot's place", () => {
  const allowed = (design: string) => {
    const { analysis, constraints } = of(design);
    const { changes, inTheWay } = drained(allowedFootSteps(analysis, constraints, 0));
    return { changes: changes.map((metres) => (MM * metres) / SCALE), inTheWay };
  };
  it("is on a step of the drawing, or on the one beside it", () => {
    expect(allowed(text())).toEqual({ changes: [near(onStep(EXACT.foot))], inTheWay: [] });
    const { start, limits } = shortOfStep(EXACT.foot, 10);
    expect(allowed(text({ foot: start }, "", `, limits: { at: ${limits} }`)).changes).toEqual([
      near(beside(EXACT.foot)),
    ]);
  });
  it("is none of a foot that is fixed, and none where no place is right", () => {
    expect(allowed(text({}, "", ", fixed: true"))).toEqual({
      changes: [],
      inTheWay: [expect.stringMatching(/`fixed`$/)],
    });
    // The bore would have to end above its hole.
    expect(allowed(text().replace("note: G3, holes: ●", "note: C5, holes: ●"))).toEqual({ changes: [], inTheWay: [] });
  });
});
