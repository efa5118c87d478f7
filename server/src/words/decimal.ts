/** Numbers of prose. */
import { t } from "./translation.js";

/** With the sign that the language has between units and tenths; not for a number that a design could be written with. */
export function decimal(number: string): string {
  return number.replace(".", t("."));
}
