/** A pan pipe: tubes side by side, walls shared, rims in one plane, open below and closed by stoppers. */
import { DEFAULTS, SOLID_DEFAULTS as USUAL } from "../../instrument/defaults.js";
import type { Draft } from "../../instrument/draft/draft.js";
import { own } from "../../instrument/path.js";
import { allOf } from "../../instrument/printed/allOf.js";
import { pipeData } from "../../instrument/printed/pipes.js";
import { t } from "../../words/translation.js";
import type { PipeOutline, PipesOutline } from "./outline.js";
import type { Sizes } from "./sizes.js";

export function pipesOutline(draft: Draft, sizes: Sizes): PipesOutline | undefined {
  // The usual wall is in millimetres, whatever the print scale: it then grows with everything else.
  const usual = DEFAULTS.pipeWall * (sizes.unit / sizes.millimetres);
  const wall = own(draft.data, "wall") === undefined ? usual : sizes.mm(draft.wall);
  const stopperLength = sizes.or(["solid", "stopperLength"], USUAL.pipeStopperLength, t("Stoppers of"));
  let x = 0;
  let before: number | undefined;
  const pipes = allOf(pipeData(draft.data), (pipe): PipeOutline | undefined => {
    const index = pipeData(draft.data).indexOf(pipe);
    const length = sizes.at("pipes", index, "length");
    const diameter = sizes.at("pipes", index, "diameter");
    if (length === undefined || diameter === undefined || wall === undefined) return undefined;
    if (before !== undefined) x += before / 2 + wall + diameter / 2;
    before = diameter;
    const note = own(pipe, "note");
    const to = length + stopperLength;
    return {
      path: ["pipes", index],
      note: typeof note === "string" ? note : undefined,
      x,
      diameter,
      length,
      to,
      stopper: { from: length, to, radius: diameter / 2 - USUAL.stopperFit },
    };
  });
  return wall === undefined || pipes === undefined || pipes.length === 0 ? undefined : { kind: "pipes", wall, pipes };
}
