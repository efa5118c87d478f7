/**
 * A window whose plug stands upstream of it. Source of the numbers: finite elements, test/reference/fem/window.json;
 * whole tubes with it are held by finiteElements.test.ts. */
import { describe, expect, it } from "vitest";
import { chaigneKergomardAir } from "../../server/src/acoustics/air.js";
import type { Mouth } from "../../server/src/acoustics/column.js";
import { registersOf } from "../../server/src/acoustics/resonance.js";
import { holdEach } from "../accuracy/hold.js";
import { plugTable } from "../accuracy/windowStub.js";
import { cents, refusal, tube } from "./instruments.js";

holdEach(plugTable);

describe("a window's plug", () => {
  const air = chaigneKergomardAir(20);
  const window = (stopper?: number): Mouth => ({
    kind: "window",
    width: 0.009,
    cutUp: 0.0045,
    chimney: 0.003,
    ...(stopper === undefined ? {} : { stopper }),
  });
  const registers = (mouth: Mouth) => registersOf(tube(300, 16, { mouth }), air, [], 3).map((each) => each.frequency);

  it("flush with the window is the block of a whistle, to the last bit", () => {
    expect(registers(window(0))).toEqual(registers(window()));
  });

  it("leaves the window without a jump", () => {
    registers(window(1e-9)).forEach((frequency, i) => {
      expect(Math.abs(cents(frequency, registers(window())[i] ?? Number.NaN))).toBeLessThan(1e-3);
    });
  });

  it("far off leaves a closed tube, which shorts the mouth where it is a quarter wave long", () => {
    // Between the bore's second and third mode the closed piece has no impedance: 343 m/s / (4 · 0.1 m) = 858 Hz (a quarter wave).
    const [first = 0, second = 0] = registers(window(0.1));
    const [flush1 = 0, flush2 = 0] = registers(window());
    expect(first).toBeLessThan(flush1);
    expect(second / first).toBeLessThan(flush2 / flush1);
  });

  it("under the window is refused", () => {
    for (const stopper of [-0.001, Number.NaN])
      expect(refusal(() => registers(window(stopper)))).toContain(
        "the stopper must stand at the window's upstream end",
      );
  });
});
