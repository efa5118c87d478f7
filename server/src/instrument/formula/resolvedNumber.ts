/** A number of a design, and of what kind it is. */
import type { Path } from "../finding.js";

/** A number of the design and where it came from. */
export interface ResolvedNumber {
  readonly path: Path;
  /** In the file's own unit. */
  readonly value: number;
  readonly quantity: Quantity;
  /** The text of the expression after `=`, where the value is one. */
  readonly expression?: string;
}

/** What kind of number a property holds: decides its unit and whether rescaling changes it. */
export type Quantity = "length" | "volume" | "number" | "cents" | "frequency" | "temperature" | "percent" | "speed";
