/** A vessel worked out from one that differs slightly: what it takes over must not be seen. */
import { describe, expect, it } from "vitest";
import { Resonator } from "../../server/src/acoustics/vessel.js";
import type { Vessel } from "../../server/src/acoustics/vesselShape.js";
import { roundMouth } from "../accuracy/vessels.js";
import { losslessAir } from "./instruments.js";

const air = { ...losslessAir, losses: true };
const hole = (angle: number, rest: Partial<Vessel["holes"][number]> = {}) => ({
  radius: 0.003,
  chimney: 0.004,
  angle,
  elevation: 0.2,
  ...rest,
});
const whole: Vessel = {
  semiAxes: [0.03, 0.024, 0.028],
  wall: 0.004,
  mouth: roundMouth(0.007, 0.004),
  holes: [hole(0.9), hole(-1.2), hole(2)],
};
const withSecond = (rest: Partial<Vessel["holes"][number]>): Vessel => ({
  ...whole,
  holes: whole.holes.with(1, hole(-1.2, rest)),
});

const CHANGED: Readonly<Record<string, Vessel>> = {
  "nothing at all": { ...whole },
  "its first half axis": { ...whole, semiAxes: [0.0301, 0.024, 0.028] },
  "its second half axis": { ...whole, semiAxes: [0.03, 0.0241, 0.028] },
  "its third half axis": { ...whole, semiAxes: [0.03, 0.024, 0.0281] },
  "its wall": { ...whole, wall: 0.0041 },
  "the width of its mouth": { ...whole, mouth: roundMouth(0.0071, 0.004) },
  "the depth of its mouth": { ...whole, mouth: roundMouth(0.007, 0.0041) },
  "the width of a hole": withSecond({ radius: 0.0031 }),
  "the depth of a hole": withSecond({ chimney: 0.0041 }),
  "the direction of a hole": withSecond({ angle: -1.3 }),
  "the elevation of a hole": withSecond({ elevation: 0.3 }),
  "the side of a hole": withSecond({ elevation: -0.2 }),
  "the hand of a hole": withSecond({ angle: 1.2 }),
  "one hole less": { ...whole, holes: whole.holes.slice(0, 2) },
  "one hole more": { ...whole, holes: [...whole.holes, hole(-2)] },
};

describe("a vessel like another but for", () => {
  it.each(Object.entries(CHANGED))("%s sounds to the last bit as worked out alone", (_, vessel) => {
    const like = new Resonator(whole, air);
    for (const open of [0, 1, 0.5]) {
      const covers = vessel.holes.map((_, i) => (i === 1 ? open : i % 2));
      const alone = new Resonator(vessel, air).sounding(covers);
      expect(alone?.frequency).toBeGreaterThan(100);
      expect(new Resonator(vessel, air, like).sounding(covers)).toEqual(alone);
    }
  });
});
