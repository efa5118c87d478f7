/** Which instrument of a file that holds several is meant. */
import { UnusableInput } from "./exitStatus.js";
import type { ReadFile } from "./files.js";

/** Index of the instrument meant, from the number a user counts. */
export function instrumentIn(read: ReadFile, instrument: number | undefined): number {
  const count = read.design.documents.length;
  if (instrument === undefined && count > 1)
    throw new UnusableInput(read.file, `holds ${count} instruments: say which with --instrument 1 … ${count}`);
  const index = (instrument ?? 1) - 1;
  if (index < 0 || index >= count || !Number.isInteger(index))
    throw new UnusableInput(read.file, `has no instrument ${instrument}: it holds ${count}`);
  return index;
}
