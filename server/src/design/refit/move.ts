/** A dimension that a refit has changed. */
import type { Path } from "../../instrument/finding.js";

export interface Move {
  readonly path: Path;
  /** As drawn, in the file's unit. */
  readonly from: number;
  readonly to: number;
}
