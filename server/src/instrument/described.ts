import type { Instrument } from "./model.js";

/** Whether the design says enough of the instrument's body for any of its notes to be predicted. */
export function isDescribed({ column, pipes, vessel }: Pick<Instrument, "column" | "pipes" | "vessel">): boolean {
  return column !== undefined || vessel !== undefined || (pipes ?? []).some((pipe) => pipe.column !== undefined);
}
