/** The one length of a mouth that measuring decides: what calibration fits and what a band of cents allows for. */

import type { Column, Mouth } from "../../acoustics/column.js";
import { type Body, columnsOf, roundShape } from "../../instrument/body.js";
import type { Path } from "../../instrument/finding.js";
import { mapBody } from "./body.js";

/** Where the length is written; undefined for a mouth that no measurement changes. */
export function mouthLengthPath(mouth: Mouth): Path | undefined {
  if (mouth.kind === "ideal") return undefined;
  return mouth.kind === "correction" ? ["mouth", "correction"] : ["mouth", "extra"];
}

/** m; 0 for the textbook's mouth. */
export function mouthLength(mouth: Mouth): number {
  if (mouth.kind === "ideal") return 0;
  return mouth.kind === "correction" ? mouth.length : (mouth.extra ?? 0);
}

/** The column with the mouth's length changed to `length`, m. */
function withMouthLength(column: Column, length: number): Column {
  const { mouth } = column;
  if (mouth.kind === "ideal") return column;
  return { ...column, mouth: mouth.kind === "correction" ? { ...mouth, length } : { ...mouth, extra: length } };
}

/** The mouth of an instrument of any family; all pipes of a pan pipe have the same. */
export function mouthOf(body: Body): Mouth | undefined {
  return roundShape(body)?.mouth ?? columnsOf(body)[0]?.mouth;
}

/** The body with the length of its mouth, or of all its mouths, changed by `change`, m. */
export function withMouthLengths(body: Body, change: (length: number) => number): Body {
  return mapBody(body, {
    column: (column) => withMouthLength(column, change(mouthLength(column.mouth))),
    vessel: (vessel) => ({ ...vessel, mouth: { ...vessel.mouth, extra: change(mouthLength(vessel.mouth)) } }),
  });
}
