/** How resonances are counted into registers, event by event: the rules of registers.ts, which say what is in doubt and what the other count would give. */
import { describe, expect, it } from "vitest";
import type { Sounding } from "../../server/src/acoustics/answer.js";
import { Registers } from "../../server/src/acoustics/registers.js";

/** A resonance at so many Hz with so much resistance over ρc/S: 1 is the limit of what sounds, 0.8 to 1.25 a close call. */
const at = (frequency: number, resistance = 0.1): Sounding => ({ frequency, resistance, quality: 20 });
const done = (registers: Registers) => {
  registers.isDone = true;
  return registers;
};
const hz = (registers: Registers, register: number) => {
  const sounding = registers.sounding(register);
  return typeof sounding === "object" ? [sounding.frequency, sounding.rival?.frequency] : sounding;
};

describe("registers", () => {
  it("end where the reactance goes away from zero, not before, and the last where nothing more comes", () => {
    const registers = new Registers();
    expect(registers.sounding(1)).toBe("later");
    registers.gap(true, false);
    expect(registers.sounding(1)).toBe("later");
    registers.rises(at(300));
    expect(registers.sounding(1)).toBe("later");
    registers.gap(true, false);
    expect(hz(registers, 1)).toEqual([300, undefined]);
    expect(registers.sounding(2)).toBe("later");
    registers.rises(at(600));
    expect(registers.sounding(2)).toBe("later");
    done(registers);
    expect(hz(registers, 2)).toEqual([600, undefined]);
    expect(registers.sounding(3)).toBeUndefined();
  });

  it("hold two resonances between which the phase turns back: the stronger sounds, the other is its rival", () => {
    for (const [first, second] of [
      [at(300, 0.1), at(320, 0.3)],
      [at(300, 0.3), at(320, 0.1)],
    ] as const) {
      const registers = new Registers();
      registers.rises(first);
      registers.gap(false, false);
      registers.rises(second);
      registers.gap(true, false);
      const expected = first.resistance < second.resistance ? [300, 320] : [320, 300];
      expect(hz(registers, 1)).toEqual(expected);
    }
  });

  it("do not count what is surely too weak", () => {
    const registers = new Registers();
    registers.rises(at(200, 1.3));
    registers.gap(true, false);
    registers.rises(at(300));
    registers.gap(true, false);
    expect(hz(registers, 1)).toEqual([300, undefined]);
  });

  it.each([
    ["counts, though it might not", 0.9, [200, 300]],
    ["does not count, though it might", 1.1, [300, 200]],
  ])("a weak resonance that %s leaves the other count's as a rival, in every register above too", (_, weak, first) => {
    const registers = new Registers();
    registers.rises(at(200, weak));
    registers.gap(true, false);
    registers.rises(at(300));
    registers.gap(true, false);
    registers.rises(at(400));
    registers.gap(true, false);
    expect(hz(registers, 1)).toEqual(first);
    const counts = weak < 1;
    // By the other count the second register is one farther up, or down.
    expect(hz(registers, 2)).toEqual(counts ? [300, 400] : [400, 300]);
    expect(hz(done(registers), 3)).toEqual(counts ? [400, undefined] : undefined);
  });

  it("wait for what the other count needs, and do without it where nothing more comes", () => {
    const registers = new Registers();
    registers.rises(at(200, 0.9));
    registers.gap(true, false);
    // Were it not counted, the first register would be the next one, not known yet.
    expect(registers.sounding(1)).toBe("later");
    expect(hz(done(registers), 1)).toEqual([200, undefined]);
  });

  it("parted in doubt are each other's rivals", () => {
    const parted = new Registers();
    parted.rises(at(300, 0.3));
    parted.gap(true, true);
    parted.rises(at(320, 0.1));
    parted.gap(true, false);
    expect(hz(parted, 1)).toEqual([300, 320]);
    const joined = new Registers();
    joined.rises(at(300, 0.1));
    joined.gap(false, true);
    joined.rises(at(320, 0.3));
    joined.gap(true, false);
    joined.rises(at(600));
    joined.gap(true, false);
    expect(hz(joined, 1)).toEqual([300, 320]);
    // Were they two registers, the second would be the weaker of them.
    expect(hz(joined, 2)).toEqual([600, 320]);
  });

  it("name the strongest of several rivals", () => {
    const registers = new Registers();
    for (const [frequency, resistance] of [
      [300, 0.4],
      [310, 0.2],
      [320, 0.1],
    ] as const) {
      registers.rises(at(frequency, resistance));
      registers.gap(frequency === 320, false);
    }
    expect(hz(registers, 1)).toEqual([320, 310]);
  });

  it("do not end anew while the reactance stays away", () => {
    const registers = new Registers();
    registers.rises(at(300));
    registers.gap(true, false);
    registers.gap(true, false);
    // After a sure end one in doubt changes nothing.
    registers.gap(true, true);
    registers.rises(at(600));
    registers.gap(true, false);
    expect(hz(registers, 1)).toEqual([300, undefined]);
    expect(hz(registers, 2)).toEqual([600, undefined]);
  });
});
