/** When a calibration asks whether the air was another: where that explains far more than the mouth, and measuring does not. */
import { describe, expect, it } from "vitest";
import { calibrate } from "../../../server/src/design/calibrate/calibrate.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { panPipe } from "../../support/families.js";
import { played } from "../../support/played.js";

/** Pipes long and short, which a mouth and the air move unlike. */
const PIPES = panPipe("air: { temperature: 22 }\nwall: 2").replace(
  "length: 124, diameter: 13 }",
  "length: 124, diameter: 13 }\n  - { note: C6, length: 72, diameter: 10 }\n  - { note: E6, length: 55, diameter: 9 }",
);
/** Measured in air of another temperature, with a mouth 3 mm longer. */
type Uncertainty = number | ((i: number) => number) | undefined;
const warm = (temperature: number, uncertainty: Uncertainty, count: number) => {
  const thing = `${PIPES.replace("temperature: 22", `temperature: ${temperature}`)}mouth: { extra: 3 }\n`;
  const sure = (i: number) => (typeof uncertainty === "function" ? uncertainty(i) : uncertainty);
  const notes = played(thing)
    .slice(-count)
    .map(({ note, hz }, i) => {
      const stated = sure(i);
      return `  - { note: ${note}, hz: ${hz}${stated === undefined ? "" : `, uncertainty: ${stated}`} }\n`;
    });
  const { resolution } = documentOf(fileOf(`${PIPES}measured:\n${notes.join("")}`));
  return calibrate(resolution, analyse(resolution.instrument));
};
const rms = (cents: readonly number[]) => Math.sqrt(cents.reduce((sum, each) => sum + each ** 2, 0) / cents.length);

describe("another air", () => {
  it.each<readonly [string, boolean, number, Uncertainty, number]>([
    ["is asked for where notes are sure", true, 31.5, 1, 5],
    ["is asked for where nothing is said of them", true, 31.5, undefined, 5],
    ["is asked for where it was colder", true, 12.5, 1, 5],
    ["is not, where measuring is no surer than what is left", false, 31.5, 40, 5],
    // The root of the mean square of what is stated: 36 cents.
    ["is not, where one of them is as unsure as that", false, 31.5, (i) => (i === 0 ? 80 : 1), 5],
    ["is not, where it differs by hardly more than measuring can tell", false, 23, 1, 5],
    ["is not, where nobody takes it to be so warm", false, 36, 1, 5],
    ["is not, where nobody takes it to be so cold", false, 7, 1, 5],
    ["is asked for by three notes", true, 33, 1, 3],
    ["is not by two", false, 33, 1, 2],
  ])("%s", (_, asks, temperature, uncertainty, count) => {
    const { withAir, fitted } = warm(temperature, uncertainty, count);
    expect(fitted.map(({ quantity }) => quantity)).toEqual(["mouth"]);
    expect(withAir?.fitted.map(({ quantity }) => quantity)).toEqual(asks ? ["mouth", "temperature"] : undefined);
    if (asks) expect(Math.abs((withAir?.fitted[1]?.after ?? 0) - temperature)).toBeLessThan(1);
  });
});

it("a calibration tells what was off before, and what is left, as root mean squares of its notes", () => {
  const found = warm(24, 1, 5);
  expect(found.rmsBeforeCents).toBeCloseTo(rms(found.notes.map(({ beforeCents }) => beforeCents)), 9);
  expect(found.rmsResidualCents).toBeCloseTo(rms(found.notes.map(({ residualCents }) => residualCents)), 9);
  expect(found.rmsBeforeCents).toBeGreaterThan(found.rmsResidualCents);
  expect(found.earlier).toBeUndefined();
});

it("each note is compared in the air that it was measured in", () => {
  const at = (temperature: number) => played(PIPES.replace("temperature: 22", `temperature: ${temperature}`));
  const notes = [at(15)[0], at(28)[1]].map((each, i) => ({ ...each, temperature: [15, 28][i] }));
  const measured = notes.map(
    (each) => `  - { note: ${each.note}, hz: ${each.hz}, temperature: ${each.temperature} }\n`,
  );
  const { resolution } = documentOf(fileOf(`${PIPES}measured:\n${measured.join("")}`));
  const { rmsBeforeCents, rmsResidualCents } = calibrate(resolution, analyse(resolution.instrument));
  expect(rmsBeforeCents).toBeLessThan(0.01);
  expect(rmsResidualCents).toBeLessThan(0.01);
});
