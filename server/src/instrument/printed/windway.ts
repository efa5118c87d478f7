/** What a design says of the channel to the window, as printed. */
import type { Draft } from "../draft/draft.js";
import type { Printing } from "./printing.js";

/** m; undefined where the design is silent. */
export interface StatedWindway {
  readonly length: number | undefined;
  readonly width: number | undefined;
  /** Height where the breath comes in, and at its exit. */
  readonly entry: number | undefined;
  readonly height: number | undefined;
}

export function statedWindway({ numbers }: Draft, { printedUnit }: Printing): StatedWindway {
  const size = (name: string) => {
    const value = numbers.at(["mouth", "windway", name]);
    return value !== undefined && value > 0 ? value * printedUnit : undefined;
  };
  return { length: size("length"), width: size("width"), entry: size("entry"), height: size("height") };
}
