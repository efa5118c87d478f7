/** Throws a RangeError, shown to the maker, where a dimension makes no sense. */
import { t } from "../words/translation.js";
export function demand(condition: boolean, message: string): asserts condition {
  if (!condition) throw new RangeError(t(message));
}
