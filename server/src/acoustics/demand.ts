/** Throws a RangeError, told to the maker, where a dimension cannot be meant. */
export function demand(condition: boolean, message: string): asserts condition {
  if (!condition) throw new RangeError(message);
}
