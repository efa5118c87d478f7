/** A file that was made, before it has a place. */
export interface MadeFile {
  /** Goes before the ending of the name that was asked for: `-head`; empty for one that holds everything. */
  readonly suffix: string;
  readonly bytes: Uint8Array;
}

/** The name that was asked for, with the suffix before its ending. */
export function suffixed(name: string, suffix: string): string {
  const dot = name.lastIndexOf(".");
  return `${name.slice(0, dot)}${suffix}${name.slice(dot)}`;
}
