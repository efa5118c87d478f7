/** Cautions for a maker wherever a printed instrument is handed over. Common practice; local rules and data sheets decide. */
import type { Outline } from "../../design/outline/outline.js";

export const PRINT_AS_IT_IS =
  "Print at 100 %, with no compensation of holes or shrinkage in the slicer: the file is the design times its print scale, and the prediction has shrinkage and undersize in it already.";

/** For work on a finished instrument: drilling, files, hot tools, dust, and what comes to the mouth again. */
export function benchCautions(): readonly string[] {
  return [
    "Hold it in padded jaws, never in the hand, while drilling or reaming: a bit that catches spins it. Wear eye protection; no gloves and no loose sleeves near a turning tool.",
    "Cut slowly: printed plastic melts and grabs. Hot tools burn and give off fumes: ventilate, and keep them off skin and off plastic you cannot identify.",
    "Dust of plastic, wood and bamboo harms the lungs: wear a mask, wet what you sand, and clean up by vacuum rather than by blowing through.",
    TOUCHES_THE_MOUTH,
    WASH,
    "Seal the glue of a sleeve off from breath and lips, and cure it as its data sheet says.",
    "Local rules and qualified advice take precedence over this list.",
  ];
}

const TOUCHES_THE_MOUTH =
  "It touches the mouth: use plain filament that its maker sells for food contact and follow its data sheet; seal the lip area with a coating meant for such use.";
const WASH =
  "Layers hold germs: wash it warm, not hot (PLA softens near 55 °C), let it dry, and do not share it unwashed.";

const SMALL_PARTS =
  "Small parts can be swallowed: fix block, plug and stoppers for good, and keep loose ones from small children.";

interface Instrument {
  readonly hasSmallParts: boolean;
}

export function cautions({ hasSmallParts }: Instrument): readonly string[] {
  return [
    TOUCHES_THE_MOUTH,
    WASH,
    "Take off strings and burrs, and break sharp edges, before it comes near lips. Wear a mask and eye protection when sanding or cutting.",
    "Ventilate while printing, gluing and coating: follow the safety data sheets of filament, glue and finish.",
    ...(hasSmallParts ? [SMALL_PARTS] : []),
    "Checked for its geometry, not for its strength. Local rules and qualified advice take precedence over this list.",
  ];
}

/** For a player who does not make it. */
export function playersCautions({ hasSmallParts }: Instrument): readonly string[] {
  return [
    "It touches the mouth: play it only if its material and coating are meant for that, and if no edge or burr is sharp.",
    WASH,
    ...(hasSmallParts ? [SMALL_PARTS] : []),
    "Local rules and qualified advice take precedence over this list.",
  ];
}

/** Whether a block, a plug or a stopper is made beside the body. */
export function hasSmallParts({ body }: Outline): boolean {
  if (body.kind !== "tube") return body.kind === "pipes";
  const { mouth } = body;
  return mouth !== undefined && mouth.kind !== "rim" && (mouth.kind !== "embouchure" || mouth.stopper !== undefined);
}
