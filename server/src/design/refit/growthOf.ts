/** The share of the length's growth that a design lets its bore, mouth and holes take in another key. */
import type { DesignDocument } from "../../document/designFile.js";

/** The power of `refit.growth`, 0 … 1; 0 where nothing is said. */
export function growthOf({ resolution }: DesignDocument): number {
  const said = resolution.draft.numbers.at(["refit", "growth"]);
  return said !== undefined && said >= 0 && said <= 1 ? said : 0;
}
