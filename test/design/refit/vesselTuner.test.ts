/** Notes of a vessel whose size and holes are being solved: they are those of the design drawn so, in a round chamber and in a tube. */
import { describe, expect, it } from "vitest";
import { VesselTuner } from "../../../server/src/design/refit/vesselTuner.js";
import { checked, documentOf, fileOf } from "../../support/designs.js";

const FINGERINGS = "fingerings: [{ note: C5, holes: ●●● }, { note: D5, holes: ○●● }, { note: G5, holes: ○○● }]";
/** Sizes by a factor, the holes' diameters as given; C is fixed. */
const round = (size: number, [a, b]: readonly [number, number] = [6, 7]) => `borewright: 1
family: vessel
key: C5
mouth: { window: { width: 9, cutUp: 5 } }
vessel: { shape: ellipsoid, length: ${80 * size}, width: ${60 * size}, height: ${50 * size} }
wall: 4
holes: [{ name: A, diameter: ${a}, angle: 60 }, { name: B, diameter: ${b}, angle: 120 }, { name: C, diameter: 5, angle: -60, fixed: true }]
${FINGERINGS}
print: { bed: [100, 100, 100] }
`;
const tubular = (size: number, [a, b]: readonly [number, number] = [6, 7]) => `borewright: 1
family: vessel
key: C5
mouth: { window: { width: 9, cutUp: 5 } }
vessel: { shape: tube, length: ${70 * size}, diameter: ${30 * size} }
wall: 4
holes:
  - { name: A, at: ${20 * size}, diameter: ${a} }
  - { name: B, at: ${40 * size}, diameter: ${b} }
  - { name: C, at: ${60 * size}, diameter: 5, fixed: true }
${FINGERINGS}
`;
function tunerOf(text: string, targets?: readonly (number | undefined)[]) {
  const { analysis } = checked(text);
  const own = analysis.fingerings.map(({ targetHz }) => targetHz);
  return new VesselTuner(documentOf(fileOf(text)), analysis, targets ?? own, {});
}
const near = (cents: readonly number[] = [], digits = 2) => cents.map((each) => expect.closeTo(each, digits));
const centsOf = (text: string) => checked(text).analysis.fingerings.map(({ cents = Number.NaN }) => cents);

describe.each([
  ["round", round],
  ["tubular", tubular],
] as const)("a %s chamber", (kind, text) => {
  const tuner = tunerOf(text(1));

  it("is solved for its size and the radii of the holes that may change", () => {
    expect(tuner.radii).toEqual(near([3, 3.5], 9));
    expect(tuner.tunable).toEqual([0, 1, 2]);
    expect(tuner.at([1, 3, 3.5])?.cents).toEqual(near(centsOf(text(1))));
    expect(tuner.at([1.1, 3.2, 3.4])?.cents).toEqual(near(centsOf(text(1.1, [6.4, 6.8]))));
    expect(tuner.at([1, 3, -1])).toBeUndefined();
  });
  it("follows each by its slopes", () => {
    const notes = tuner.at([1, 3, 3.5]);
    if (notes === undefined) throw new Error("nothing sounds");
    const slopes = tuner.slopes(notes);
    [0.002, 0.02, 0.02].forEach((step, i) => {
      const [less, more] = [-step, step].map(
        (by) => tuner.at(notes.x.map((value, j) => (i === j ? value + by : value)))?.cents ?? [],
      );
      slopes.forEach((row, note) => {
        const slope = ((more?.[note] ?? Number.NaN) - (less?.[note] ?? Number.NaN)) / (2 * step);
        expect(Math.abs((row[i] ?? Number.NaN) - slope)).toBeLessThan(0.02 * Math.abs(slope) + 0.5);
      });
    });
  });
  it("tells the holes as they are drawn, and holds what may not change", () => {
    expect(
      tuner.holeSizes([1, 3.23, 3.41]).map(({ path, value }) => [path.join("."), Number(value.toFixed(6))]),
    ).toEqual([
      ["holes.0.diameter", 6.46],
      ["holes.1.diameter", 6.82],
    ]);
    expect(tuner.steps.map(({ step }) => Number(step.toFixed(6)))).toEqual([1, 0.05, 0.05]);
    const [least, most] = tuner.sizeHeld;
    expect([least?.row.get(0), least?.least, most?.row.get(0), most?.least]).toEqual([1, 1, -1, -1]);
    expect(tuner.prior(1.2).map(({ value }) => value)).toEqual(near([1.2, 3, 3.5], 9));
  });
  it("asked for other notes leaves out those without a target, and is else the same", () => {
    const own = checked(text(1)).analysis.fingerings.map(({ targetHz }) => targetHz);
    const fewer = tuner.asked({ targets: own.map((hz, i) => (i === 1 ? undefined : hz)) });
    expect(fewer.tunable).toEqual([0, 2]);
    expect(fewer.at([1, 3, 3.5])?.cents).toEqual(near(centsOf(text(1)).filter((_, i) => i !== 1)));
    expect(fewer.limits.map(({ message }) => message)).toEqual(tuner.limits.map(({ message }) => message));
  });
  it("may have wider holes than were checked where it is round", () => {
    const { beyond } = tuner;
    expect(beyond?.ground).toBe(kind === "round" ? "beyond" : undefined);
    const widest = (some: VesselTuner) =>
      some.limits.find(({ message }) => message.startsWith("A ") && message.includes("in this chamber"));
    if (beyond !== undefined) {
      expect(widest(beyond)?.limit).toBeCloseTo(0.4 * 50, 6);
      expect(beyond.asked({}).ground).toBe("beyond");
    }
  });
});

describe("the limits of a vessel's refit", () => {
  const tuner = tunerOf(round(1));
  const slackAt = (x: readonly number[]) =>
    tuner.limits.map(({ row, least }) => [...row].reduce((sum, [i, factor]) => sum + factor * (x[i] ?? 0), -least));

  it("are missed by as much as what they speak of exceeds them", () => {
    for (const x of [
      [1, 3, 3.5],
      [1.3, 9, 8],
      [0.6, 0.5, 6],
    ]) {
      const slack = slackAt(x);
      tuner.limits.forEach(({ limit, value, message }, i) => {
        // A share of the chamber grows with it.
        const bound = message.includes("in this chamber") ? limit * (x[0] ?? 1) : limit;
        expect(Math.abs(slack[i] ?? Number.NaN)).toBeCloseTo(Math.abs(value(x) - bound), 6);
      });
    }
    expect(slackAt([1, 3, 3.5]).every((slack) => slack > 0)).toBe(true);
  });
  it("that bind are told, the hardest first", () => {
    const multipliers = tuner.limits.map((_, i) => (i === 1 ? 2 : i === 3 ? 5 : i === 4 ? 1e-9 : 0));
    expect(tuner.binding(multipliers)).toEqual([tuner.limits[3], tuner.limits[1]]);
  });
  it("count a fixed neighbour as it is drawn", () => {
    const [between] = tuner.limits.filter(({ message }) => message.startsWith("C and A"));
    expect([...(between?.row.keys() ?? [])].sort()).toEqual([0, 1]);
    const fixed = tunerOf(round(1).replace("diameter: 6,", "diameter: 6, fixed: true,"));
    expect(fixed.limits.filter(({ message }) => message.startsWith("A would"))).toEqual([]);
    const [both] = fixed.limits.filter(({ message }) => message.startsWith("C and A"));
    // Nothing but the size is left: 1.6 mm of wall and radii of 3 and 2.5.
    expect([...(both?.row.keys() ?? [])]).toEqual([0]);
    expect(both?.least).toBeCloseTo(1.6 + 3 + 2.5, 6);
  });
});
