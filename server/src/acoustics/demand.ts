/** Throws a RangeError, told to the maker, where a dimension cannot be meant. */
import { t } from "../words/translation.js";
export function demand(condition: boolean, message: string): asserts condition {
  if (!condition) throw new RangeError(t(message));
}
