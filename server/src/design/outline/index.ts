/** From a design to its geometry. */
import { bodyKindOf } from "../../instrument/families/index.js";
import type { Resolution } from "../../instrument/model.js";
import type { Outline } from "./outline.js";
import { pipesOutline } from "./pipes.js";
import { Sizes, type Sizing } from "./sizes.js";
import { tubeOutline } from "./tube.js";
import { vesselOutline } from "./vessel.js";

const OUTLINES = { tube: tubeOutline, pipes: pipesOutline, vessel: vesselOutline } as const;

/**
 * The geometry of an instrument in millimetres: `drawn` as the design says, `laid` as it lies on the printer's bed, the print scale on
 * every dimension of the instrument and none of the printer's. Undefined while a number that it needs is missing; the design's
 * findings say which.
 */
export function outlineOf({ draft, instrument }: Resolution, sizing: Sizing = "drawn"): Outline | undefined {
  const sizes = new Sizes(draft, sizing);
  const body = OUTLINES[bodyKindOf(draft)](draft, sizes);
  return body && { family: draft.family, name: instrument.name, body, assumed: sizes.assumed };
}
