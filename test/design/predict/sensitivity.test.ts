/** Cents a unit by implicit differentiation, held to differences of whole analyses of edited texts. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { AIR_TEMPERATURE, sensitivitiesOf } from "../../../server/src/design/predict/sensitivity.js";
import { DEFAULT_SETTINGS } from "../../../server/src/design/settings.js";
import type { DesignDocument } from "../../../server/src/document/designFile.js";
import { readDesign, syntaxOf } from "../../../server/src/document/read.js";
import { nodeAt } from "../../../server/src/document/tree.js";
import type { ResolvedNumber } from "../../../server/src/instrument/formula/resolvedNumber.js";
import { pathKey, pathText } from "../../../server/src/instrument/path.js";
import { centsAbove } from "../../../server/src/music/cents.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { panPipe, vessel } from "../../support/families.js";
import { tube } from "../../support/marked.js";

/** Of the number's own unit: far above the rounding of a frequency, far below what bends the curve. A cover is a share. */
const STEP = 0.01;
const SHARE_STEP = 1e-4;
/** The issue's own demand. */
const AGREEMENT = 1e-4;

const EXAMPLES = join(import.meta.dirname, "../../../examples");
const example = (name: string) => documentOf(readDesign(readFileSync(join(EXAMPLES, name), "utf8"), syntaxOf(name)));

/** Frequencies after the text of one number has become something else. */
function frequencies(document: DesignDocument, { path, value, expression, quantity }: ResolvedNumber, by: number) {
  const node = nodeAt(document.root, path);
  if (node === undefined) throw new Error(`no ${pathText(path)}`);
  const percent = quantity === "percent" ? " %" : "";
  const written = JSON.stringify(expression === undefined ? `=${value} + ${by}` : `=(${expression}) + ${by}`);
  const plain = percent === "" ? written : JSON.stringify(`${value + by}${percent}`);
  const text = document.text.slice(0, node.span.start) + plain + document.text.slice(node.span.end);
  const changed = documentOf(readDesign(text, document.syntax));
  return analyse(changed.resolution.instrument).fingerings.map(({ predictedHz }) => predictedHz ?? Number.NaN);
}

/** A step between bore and foot joint, a chimney and a stopper of their own, and dimensions hanging on one another. */
const STEPPED = `borewright: 1
family: transverse
key: D4
parameters: { wall: 4, reach: 28 }
mouth: { hole: { diameter: 10.5 }, cover: 0.4 }
bore:
  - { at: -19, diameter: 19 }
  - { at: 300, diameter: 19 }
  - { at: 300, diameter: 18 }
  - { name: end, at: 531, diameter: "=bore[2].diameter - 1" }
wall: =wall
holes:
  - { name: A, at: 308, diameter: 8, chimney: 5 }
  - { name: B, at: =A.at + reach, diameter: 8.5 }
  - { name: C, at: "=B.at + reach*1.2", diameter: =A.diameter, side: back }
fingerings:
  - { degree: 1, holes: ●●● }
  - { degree: 2, holes: ●●○ }
  - { degree: 3, holes: ●○◐ }
  - { degree: 8, holes: ○●●, register: 2 }
print: { scale: 98 %, shrinkage: 0.3 %, holeUndersize: 0.1 }
`;

describe("sensitivities", () => {
  it.each([
    ["quay-whistle.bore.yaml", example("quay-whistle.bore.yaml")],
    ["ferry-flute.bore.yaml", example("ferry-flute.bore.yaml")],
    ["pier-notch-flute.bore.json", example("pier-notch-flute.bore.json")],
    ["a stepped bore with expressions", documentOf(fileOf(STEPPED))],
  ])("are the differences of whole analyses of the edited text: %s", (_, document) => {
    const { resolution } = document;
    const analysis = analyse(resolution.instrument);
    const found = sensitivitiesOf(resolution, analysis);
    let compared = 0;
    for (const number of resolution.numbers) {
      const own = found.get(pathKey(number.path));
      // Two stations in one place: neither may pass the other, and the difference is one-sided.
      const atStep = /bore\[[12]\]\.at/.test(pathText(number.path)) && document.text === STEPPED;
      // The first station may stand above the mouth but not below it.
      const atMouth = pathText(number.path) === "bore[0].at" && number.value === 0;
      if (own === undefined || atStep || atMouth) continue;
      const step = number.path[1] === "cover" ? SHARE_STEP : STEP;
      const more = frequencies(document, number, step);
      const less = frequencies(document, number, -step);
      own.centsPerUnit.forEach((cents, i) => {
        const whole = centsAbove(more[i] ?? Number.NaN, less[i] ?? Number.NaN) / (2 * step);
        const message = `${pathText(number.path)}, fingering ${i + 1}: ${cents} against ${whole}`;
        expect(Math.abs((cents ?? Number.NaN) - whole), message).toBeLessThan(AGREEMENT * Math.max(1, Math.abs(whole)));
        compared++;
      });
    }
    expect(compared).toBeGreaterThan(40);
  });

  it("include the air's temperature, stated or not: about 3 cents a degree", () => {
    const silent = documentOf(fileOf(WHISTLE.replace("temperature: 22, ", "")));
    for (const document of [silent, documentOf(fileOf(WHISTLE))]) {
      const analysis = analyse(document.resolution.instrument);
      const own = sensitivitiesOf(document.resolution, analysis).get(pathKey(AIR_TEMPERATURE));
      const warmer = analyse(
        { ...analysis.instrument, air: { ...analysis.instrument.air, temperature: analysis.temperature + STEP } },
        DEFAULT_SETTINGS,
      );
      own?.centsPerUnit.forEach((cents = Number.NaN, i) => {
        // acoustics.md A2 of the reference works: 2.95 (dry) to 3.14 (half damp) cents a degree at 20 °C, computed by Cramer 1993.
        expect(cents).toBeGreaterThan(2.9);
        expect(cents).toBeLessThan(3.3);
        const [hot, cool] = [warmer.fingerings[i]?.predictedHz, analysis.fingerings[i]?.predictedHz];
        expect(cents).toBeCloseTo(centsAbove(hot ?? Number.NaN, cool ?? Number.NaN) / STEP, 2);
      });
      expect(own?.centsPerUnit).toHaveLength(7);
    }
  });

  it("carry along what refers to a number as an edit does, and nothing for one part of a print", () => {
    const document = documentOf(fileOf(STEPPED));
    const analysis = analyse(document.resolution.instrument);
    const key = pathKey(["holes", 0, "at"]);
    const [edit, part] = (["edit", "part"] as const).map((of) =>
      sensitivitiesOf(document.resolution, analysis, { of }).get(key),
    );
    // Fingering 2 opens the last hole alone, whose place hangs on the first one's.
    expect(edit?.centsPerUnit[1]).toBeLessThan(-1);
    expect(Math.abs(part?.centsPerUnit[1] ?? Number.NaN)).toBeLessThan(0.2);
  });

  it("are one-sided where a number can change one way only", () => {
    const document = documentOf(fileOf(STEPPED.replace("cover: 0.4", "cover: 0")));
    const analysis = analyse(document.resolution.instrument);
    const found = sensitivitiesOf(document.resolution, analysis);
    for (const path of [
      ["mouth", "cover"],
      ["bore", 1, "at"],
      ["bore", 2, "at"],
    ]) {
      expect(found.get(pathKey(path))?.centsPerUnit.every(Number.isFinite)).toBe(true);
    }
  });

  it("are none of a number that can change neither way, though a note cannot be predicted", () => {
    // Three holes round the tube at one place: the second can pass neither the first nor the third.
    const text = STEPPED.replace("parameters: {", "parameters: { held: 0,")
      .replace("=A.at + reach", "=A.at + held, angle: 90")
      .replace("=B.at + reach*1.2", "=A.at")
      .replace("fingerings:\n", "fingerings:\n  - { note: D6, holes: ●● }\n");
    const { resolution } = documentOf(fileOf(text));
    const analysis = analyse(resolution.instrument);
    expect(analysis.fingerings.map(({ predictedHz }) => predictedHz !== undefined)).toEqual([
      false,
      true,
      true,
      true,
      true,
    ]);
    const found = sensitivitiesOf(resolution, analysis);
    expect(found.has(pathKey(["parameters", "held"]))).toBe(false);
    expect(found.get(pathKey(["parameters", "wall"]))?.centsPerUnit[0]).toBeUndefined();
    for (const { centsPerUnit } of found.values()) expect(centsPerUnit).not.toContain(Number.NaN);
  });

  it("are of every number that the column is made of, of the air whether stated or not, and of no other", () => {
    const kinds = (text: string) => {
      const { resolution } = documentOf(fileOf(text));
      const found = [...sensitivitiesOf(resolution, analyse(resolution.instrument)).values()];
      return Object.fromEntries(found.map(({ path, quantity }) => [pathText(path), quantity]));
    };
    const air = { "air.temperature": "temperature", "air.humidity": "percent", "air.carbonDioxide": "percent" };
    const printed = { "print.scale": "percent", "print.shrinkage": "percent", "print.holeUndersize": "length" };
    const lengths = (...paths: readonly string[]) => Object.fromEntries(paths.map((path) => [path, "length"]));
    const more =
      "tolerance: 7\nhands: { reach: 60 }\nprint: { scale: 100 %, shrinkage: 0 %, holeUndersize: 0.1, bed: [200, 200, 200], nozzle: 0.4 }\n";
    expect(
      kinds(
        tube(
          `parameters: { wide: 7 }\nmouth: { window: { width: 9, cutUp: 4 } }\nholes: [{ at: 200, diameter: =wide, angle: 10 }]\nfingerings: [{ note: G4, holes: ○ }]\n${more}`,
        ),
      ),
    ).toEqual({
      ...lengths("mouth.window.width", "mouth.window.cutUp", "wall", "holes[0].at", "holes[0].diameter"),
      ...lengths("bore[0].at", "bore[0].diameter", "bore[1].at", "bore[1].diameter"),
      "parameters.wide": "number",
      "holes[0].angle": "number",
      ...printed,
      ...air,
    });
    expect(
      kinds(
        panPipe("wall: 2")
          .replace(/ {2}- \{ note: [DE].*\n/g, "")
          .replace("family:", "key: C5\nfamily:"),
      ),
    ).toEqual({ ...lengths("pipes[0].length", "pipes[0].diameter", "wall"), ...air });
    expect(kinds(vessel("fingerings: [{ note: C5, holes: '' }]", "volume: 100"))).toEqual({
      ...lengths("mouth.window.width", "mouth.window.cutUp", "wall"),
      "vessel.volume": "volume",
      ...air,
    });
  });

  it("do not exist where nothing can be predicted", () => {
    const { resolution } = documentOf(fileOf("borewright: 1\nfamily: duct\n"));
    expect(sensitivitiesOf(resolution, analyse(resolution.instrument)).size).toBe(0);
  });
});
