import { describe, expect, it } from "vitest";
import { fixesFor } from "../../server/src/design/fix/fixHole.js";
import { bandsOf } from "../../server/src/design/predict/band.js";
import { governingHoleOf } from "../../server/src/design/predict/governing.js";
import { sensitivitiesOf } from "../../server/src/design/predict/sensitivity.js";
import { applyEdits } from "../../server/src/document/edits.js";
import { pathKey } from "../../server/src/instrument/path.js";
import { checked, documentOf, fileOf } from "../support/designs.js";
import { codesOf, expectFinding } from "../support/marked.js";
import { BODY, cents, lowest, tune, VESSEL } from "../support/vessel.js";

describe("holes anywhere on the body", () => {
  const on = (shape: string, places: readonly [angle: number, elevation: number][]) =>
    VESSEL.replace(BODY, `vessel: { shape: ellipsoid, ${shape} }`)
      .replace("angle: 60", `angle: ${places[0]?.[0]}, elevation: ${places[0]?.[1]}`)
      .replace("angle: 120", `angle: ${places[1]?.[0]}, elevation: ${places[1]?.[1]}`)
      .replace("angle: -60", `angle: ${places[2]?.[0]}, elevation: ${places[2]?.[1]}`);
  const heard = (text: string) => checked(text).analysis.fingerings.map(({ predictedHz }) => predictedHz ?? Number.NaN);

  it("sound as those of the same body laid on its side, whose plane they lie in", () => {
    const level = heard(
      on("length: 70, width: 58, height: 50", [
        [60, 0],
        [80, 0],
        [-60, 0],
      ]),
    );
    const upright = heard(
      on("length: 70, width: 50, height: 58", [
        [0, 60],
        [0, 80],
        [0, -60],
      ]),
    );
    const elsewhere = heard(
      on("length: 70, width: 58, height: 50", [
        [0, 60],
        [0, 80],
        [0, -60],
      ]),
    );
    for (const [i, hz] of level.entries()) expect(cents(upright[i] ?? 0, hz)).toBeCloseTo(0, 3);
    expect(Math.abs(cents(elsewhere[1] ?? 0, level[1] ?? 0))).toBeGreaterThan(0.5);
  });

  it("have wall and fingers between them by where they lie, not by their directions alone", () => {
    const told = (elevation: number) =>
      codesOf(
        on("length: 70, width: 58, height: 50", [
          [80, 0],
          [85, elevation],
          [-60, 0],
        ]),
      );
    expect(told(0)).toContain("hole/overlap");
    expect(told(50)).not.toContain("hole/overlap");
    expect(told(50)).not.toContain("hole/too-near");
    expect(
      codesOf(
        VESSEL.replace(BODY, "vessel: { shape: tube, length: 70, diameter: 50 }").replace(
          "angle: 60",
          "at: 20, elevation: 30",
        ),
      ),
    ).toContain("vessel/hole-place");
  });
});

describe("the band of a note through a hole wider than was checked", () => {
  // At a quarter of the chamber's half the 3 cents of 0.2 are 4.7, by the square.
  it("is wider, and of no other note", () => {
    const bands = (diameter: number) => {
      const text = `${VESSEL.replace("diameter: 7,", `diameter: ${diameter},`)}print: { holeUndersize: 0 }\n`;
      return bandsOf(documentOf(fileOf(text)).resolution, checked(text).analysis);
    };
    const [within, beyond] = [bands(14.99), bands(15.01)];
    const grown = (i: number) => (beyond[i]?.cents ?? 0) ** 2 - (within[i]?.cents ?? 0) ** 2;
    expect(grown(2)).toBeGreaterThan(4.5 ** 2);
    expect(Math.abs(grown(0))).toBeLessThan(3);
  });
});

describe("a note of a vessel out of tune", () => {
  it("is reported at the hole opened last, which is resized and never moved", () => {
    const [finding, ...others] = tune(VESSEL);
    expect(others).toEqual([]);
    expect(VESSEL.slice(finding?.span.start, finding?.span.end)).toBe("7");
    expect(finding?.message).toMatch(/^C#5 sounds \d+ cents flat\. Open B to [\d.]+ mm\.$/);
    const { analysis } = checked(VESSEL);
    const fixes = fixesFor(documentOf(fileOf(VESSEL)), analysis, 1, 2);
    expect(fixes.map(({ kind }) => kind)).toEqual(["resize"]);
    const after = applyEdits(VESSEL, fixes[0]?.edits ?? []);
    expect(after.replace(/diameter: [\d.]+, angle: 120/, "diameter: 7, angle: 120")).toBe(VESSEL);
    // A tenth of a millimetre on a hole is a few cents of a vessel.
    expect(Math.abs(checked(after).analysis.fingerings[2]?.cents ?? 99)).toBeLessThan(6);
  });

  it("goes by the fingerings, not by the order of the holes", () => {
    const { instrument } = checked(VESSEL).analysis;
    expect(governingHoleOf(instrument, { covers: [0, 1, 1], register: 1 })).toBe(0);
    expect(governingHoleOf(instrument, { covers: [0, 0, 1], register: 1 })).toBe(1);
    expect(governingHoleOf(instrument, { covers: [1, 1, 1], register: 1 })).toBeUndefined();
    const reversed = VESSEL.replace("○●●", "●●○").replace("○○●", "●○○");
    expect(governingHoleOf(checked(reversed).analysis.instrument, { covers: [1, 0, 0], register: 1 })).toBe(1);
  });

  it.each([
    [BODY, /Make the chamber [\d.]+ mm in diameter\.$/],
    ["vessel: { volume: 113 }", /Make the volume [\d.]+ cm³\.$/],
    ["vessel: { shape: ellipsoid, length: 70, width: 58, height: 55 }", /Make the chamber [\d.]+ mm long\.$/],
    ["vessel: { shape: tube, length: 80, diameter: 44 }", /Make the chamber [\d.]+ mm long\.$/],
    ["vessel: { shape: tube, length: 80, diameter: 44, mouthAt: side }", /Make the chamber [\d.]+ mm long\.$/],
  ])("with every hole closed is a matter of size: %s", (body, says) => {
    const text = VESSEL.replace(BODY, body).replace("key: E4", "key: Eb4");
    const finding = tune(text).find(({ path }) => path[0] === "vessel");
    expect(finding?.message).toMatch(says);
    const [fix] = fixesFor(documentOf(fileOf(text)), checked(text).analysis, undefined, 0);
    const after = applyEdits(text, fix?.edits ?? []);
    expect(Math.abs(checked(after).analysis.fingerings[0]?.cents ?? 99)).toBeLessThan(2);
  });
});

describe("a lone volume", () => {
  const bandsOfText = (text: string) => {
    const { resolution } = documentOf(fileOf(text));
    return bandsOf(resolution, checked(text).analysis);
  };
  const pitches = (text: string) =>
    checked(text).analysis.fingerings.map(({ predictedHz }) => predictedHz ?? Number.NaN);
  const alone = VESSEL.replace(BODY, "vessel: { volume: 113 }");

  // The shapes themselves are held to finite elements in test/acoustics/vessel.test.ts.
  it.each([
    "shape: ellipsoid, length: 2, width: 1",
    "shape: ellipsoid, length: 2, width: 1, mouthAt: side",
    "shape: tube, length: 1.3, diameter: 1",
    "shape: tube, length: 2, diameter: 1",
    "shape: box, length: 2, width: 1",
  ])("has a band that covers %s", (shape) => {
    const known = pitches(VESSEL.replace(BODY, `vessel: { volume: 113, ${shape} }`));
    const sphere = pitches(alone);
    bandsOfText(alone).forEach((band, i) => {
      const off = Math.abs(cents(known[i] ?? Number.NaN, sphere[i] ?? Number.NaN));
      expect(off).toBeLessThan(band?.cents ?? 0);
    });
  });

  it("is less certain than a chamber of known shape, and says that the shape is why", () => {
    const [byVolume, byShape] = [bandsOfText(alone)[0], bandsOfText(VESSEL)[0]];
    expect(byVolume?.cents).toBeGreaterThan((byShape?.cents ?? 0) + 30);
    expect([byVolume?.mostly, byShape?.mostly]).toEqual(["shape", "mouth"]);
  });

  it("of a measured vessel keeps its notes apart by less", () => {
    const measured = bandsOfText(alone.replace("labium: 1 }", "labium: 1 }, extra: 0.3"))[0];
    expect(measured?.cents).toBeLessThan(bandsOfText(alone)[0]?.cents ?? 0);
  });
});

describe("a vessel like a tube", () => {
  it("whose note needs a tube too short for its holes is reported without a size", () => {
    const text = `borewright: 1
family: vessel
key: C6
mouth: { window: { width: 10, cutUp: 5 } }
vessel: { volume: 80, shape: tube, length: 2, diameter: 1.3 }
wall: 3
holes: [{ at: 20, diameter: 5 }, { at: 50, diameter: 6 }]
fingerings: [{ note: C6, holes: ●● }]
`;
    const [finding] = tune(text);
    expect(finding?.message).toMatch(/^C6 sounds .* flat/);
    expect(finding?.message).not.toMatch(/Make the/);
  });
});

describe("the chamber", () => {
  it("of one volume sounds one note however it is given", () => {
    const volume = (Math.PI / 6) * 6 ** 3;
    const byVolume = VESSEL.replace(BODY, `vessel: { volume: ${volume} }`);
    expect(cents(lowest(byVolume), lowest(VESSEL))).toBeCloseTo(0, 3);
    const inches = VESSEL.replace(BODY, `vessel: { volume: ${volume} }\nunits: in`)
      .replace("wall: 4", `wall: ${4 / 25.4}`)
      .replace("width: 8, cutUp: 5", `width: ${8 / 25.4}, cutUp: ${5 / 25.4}`)
      .replace(/diameter: ([\d.]+)/g, (_, d) => `diameter: ${Number(d) / 25.4}`);
    expect(cents(lowest(inches), lowest(VESSEL))).toBeCloseTo(0, 3);
    const ball = VESSEL.replace(BODY, "vessel: { shape: ellipsoid, length: 60, width: 60, height: 60 }");
    expect(cents(lowest(ball), lowest(VESSEL))).toBeCloseTo(0, 3);
  });

  it("that is long sounds flatter, most where it is blown at its end", () => {
    const long = (mouthAt: string) =>
      lowest(
        VESSEL.replace(BODY, `vessel: { volume: 113, shape: ellipsoid, length: 2, width: 1, mouthAt: ${mouthAt} }`),
      );
    const round = lowest(VESSEL.replace(BODY, "vessel: { volume: 113 }"));
    expect(cents(long("end"), round)).toBeLessThan(-20);
    expect(long("side")).toBeGreaterThan(long("end"));
  });

  it("of 1 % more volume is 8.6 cents flatter", () => {
    // f ∝ V^−½: 600 log₂ 1.01 = 8.6 cents (Rayleigh's resonator).
    const text = VESSEL.replace(BODY, "vessel: { volume: 113 }");
    const { analysis } = checked(text);
    const found = sensitivitiesOf(documentOf(fileOf(text)).resolution, analysis);
    const perPercent = 1.13 * (found.get(pathKey(["vessel", "volume"]))?.centsPerUnit[0] ?? 0);
    expect(perPercent).toBeGreaterThan(-9);
    expect(perPercent).toBeLessThan(-8);
  });
});

it("is surer of its notes against each other than of the whole, which the breath bends", () => {
  const bands = bandsOf(documentOf(fileOf(VESSEL)).resolution, checked(VESSEL).analysis);
  expect(bands[0]?.mostly).toBe("mouth");
  for (const band of bands) {
    expect(band?.together).toBeGreaterThan(band?.against ?? 99);
  }
});

describe("what is wrong with a vessel", () => {
  it("has a finding on a place along an axis in a round chamber, and none in a tube", () => {
    const placed = VESSEL.replace("angle: 120", "angle: 120, [[at]]: 30");
    expect(placed).not.toBe(VESSEL);
    expectFinding(placed, "vessel/hole-place", "`angle` and `elevation` say where a hole lies");
    const text = placed.replace(BODY, "vessel: { shape: tube, length: 80, diameter: 44 }").replace("[[at]]", "at");
    expect(codesOf(text)).not.toContain("vessel/hole-place");
  });

  it("is reported at its place, with what to do", () => {
    expectFinding(
      "[[borewright]]: 1\nfamily: vessel\nkey: C5\n",
      "design/incomplete",
      /needs `mouth: .*`, `vessel` and `wall: 4`/,
    );
    const body = (text: string) => VESSEL.replace(BODY, text);
    expectFinding(body("[[vessel]]: { }"), "vessel/size", "Give its `volume` in cm³");
    expectFinding(body("vessel: { [[shape]]: ellipsoid, length: 60 }"), "vessel/size", "An ellipsoid is measured by");
    expectFinding(body("vessel: { volume: [[113]] }"), "vessel/shape-assumed", "a sphere of 59.98 mm", {
      alone: false,
    });
    expectFinding(body("vessel: { shape: [[box]], length: 60, width: 50 }"), "vessel/shape-assumed", "ellipsoid", {
      alone: false,
    });
    const wide = VESSEL.replace("diameter: 6.1", "diameter: [[61]]");
    expectFinding(wide, "vessel/opening-too-wide", "A is 61 mm wide and the chamber itself only 60 mm", {
      alone: false,
    });
    const crossed = VESSEL.replace("{ name: B, diameter: 7, angle: 120", "{ name: B, diameter: [[7]], angle: 62");
    expectFinding(crossed, "hole/overlap", "B and A run into each other", { alone: false });
    const mouth = (text: string) => VESSEL.replace("{ window: { width: 8, cutUp: 5, labium: 1 } }", text);
    expectFinding(mouth("[[ideal]]"), "mouth/kind", "no open end", { alone: false });
    expectFinding(mouth("{ [[correction]]: 40 }"), "mouth/kind", "how wide and how deep", { alone: false });
    expectFinding(mouth("{ window: { width: 8, cutUp: 5, labium: 1 }, extra: [[-50]] }"), "mouth/extra", "", {
      alone: false,
    });
  });

  it("has no second register", () => {
    const text = VESSEL.replace("holes: ○○● }", "holes: ○○●, register: 2 }");
    const finding = checked(text).findings.find(({ code }) => code === "pitch/no-resonance");
    expect(finding?.message).toContain("one register only");
  });

  it("never throws, whatever is written for a number", () => {
    const places = ["diameter: 60", "wall: 4", "width: 8", "cutUp: 5", "diameter: 6.1", "angle: 60"];
    for (const place of places) {
      for (const bad of ["0", "-4", "1e308", "=1/0", '"x"', ".nan", ".inf", "null", "[1]", "{ }"]) {
        const text = VESSEL.replace(place, `${place.split(":")[0]}: ${bad}`);
        for (const { predictedHz } of checked(text).analysis.fingerings)
          expect(
            predictedHz === undefined || (Number.isFinite(predictedHz) && predictedHz > 0),
            `${place} ${bad}`,
          ).toBe(true);
      }
    }
    for (const holes of ["3", "null", "[null]", "[[1]]"])
      expect(() => checked(VESSEL.replace(/holes:\n( {2}- .*\n)+/, `holes: ${holes}\n`))).not.toThrow();
  });

  it("nothing, where holes have no direction: they are spread evenly", () => {
    const spread = VESSEL.replace(/, angle: -?\d+/g, "");
    expect(codesOf(spread)).toEqual([]);
    expect(checked(spread).analysis.fingerings.every(({ predictedHz }) => predictedHz !== undefined)).toBe(true);
  });
});
