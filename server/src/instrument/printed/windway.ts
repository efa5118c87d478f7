/** What a design says about the jet: the channel to the window as printed, the player's lips, and the breath. No prediction of pitch reads it. */
import type { Draft } from "../draft/draft.js";
import type { Printing } from "./printing.js";

/** m; undefined where the design is silent. */
export interface StatedWindway {
  readonly length: number | undefined;
  readonly width: number | undefined;
  /** Height where the breath comes in, and at its exit. */
  readonly entry: number | undefined;
  readonly height: number | undefined;
  /** By how much the labium's edge lies off the middle of the exit. */
  readonly labium: number | undefined;
}

/** m; undefined where the design is silent. */
export interface StatedLips {
  readonly gap: number | undefined;
  readonly width: number | undefined;
  /** From the lips to the edge. */
  readonly distance: number | undefined;
}

/** The breath it is played with. */
export interface StatedBreath {
  /** Pa in the mouth, on the lowest note. */
  readonly ordinary: number | undefined;
  /** Power of the frequency by which it rises from there. */
  readonly exponent: number | undefined;
}

export function statedWindway({ numbers }: Draft, { printedUnit }: Printing): StatedWindway {
  const size = (name: string) => {
    const value = numbers.at(["mouth", "windway", name]);
    return value !== undefined && value > 0 ? value * printedUnit : undefined;
  };
  const labium = numbers.at(["mouth", "windway", "labium"]);
  return {
    length: size("length"),
    width: size("width"),
    entry: size("entry"),
    height: size("height"),
    labium: labium === undefined ? undefined : Math.abs(labium) * printedUnit,
  };
}

/** Lips do not grow with the print. */
export function statedLips({ numbers }: Draft, { unitMillimetres }: Printing): StatedLips {
  const size = (name: string) => {
    const value = numbers.at(["mouth", "lips", name]);
    return value !== undefined && value > 0 ? (value * unitMillimetres) / 1000 : undefined;
  };
  return { gap: size("gap"), width: size("width"), distance: size("distance") };
}

export function statedBreath({ numbers }: Draft): StatedBreath {
  const ordinary = numbers.at(["breath", "ordinary"]);
  return {
    ordinary: ordinary !== undefined && ordinary > 0 ? ordinary : undefined,
    exponent: numbers.at(["breath", "exponent"]),
  };
}
