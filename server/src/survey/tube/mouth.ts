/** The mouth of a tube, and what of it the mesh leaves to be asked. */
import type { Mesh } from "../mesh/mesh.js";
import type { Loose } from "../parts/loose.js";
import { length, type SurveyedMouth } from "../surveyed.js";
import { type Look, turnedRound } from "./look.js";
import type { Scan } from "./scan.js";
import { openChannel, plugAbove, plugBeside, slowChamber, windwayAt } from "./upstream.js";

/** Chimneys that differ less from the wall are the wall, mm. */
export const SAME_WALL = 0.1;

export interface AtMouth {
  readonly mesh: Mesh;
  readonly scanned: Scan;
  readonly look: Look;
  /** Diameter of the bore. */
  readonly usual: number;
  readonly roughness: number;
  readonly loose: readonly Loose[];
}

export function mouthOf(at: AtMouth, notes: string[], questions: string[]): SurveyedMouth {
  const { scanned, look, usual, roughness, loose } = at;
  const { main, window, embouchure, notch } = look;
  if (window !== undefined) {
    const plug = main.closedFrom ? undefined : plugBeside(look, window.up, usual, loose, scanned.low);
    const stopper = main.closedFrom ? plugAbove(scanned, main.from, window.up, usual) : plug?.stopper;
    if (plug !== undefined) notes.push(plug.note);
    else if (stopper === undefined)
      questions.push(
        look.exit !== undefined
          ? "How far above the window does the plug end? No plug is in the bore; it is taken to end at the window."
          : "Where does the block end? The bore is open above the window; the block is taken to end there.",
      );
    const doubt = Math.max(2 * roughness, 2 * (window.upScatter + window.downScatter));
    const ears = window.sideTop - usual / 2 - look.wall.mm;
    const slow = slowChamber(scanned, main, window.up, look.exit);
    return {
      kind: "window",
      isTwoChamber: look.exit !== undefined || slow !== undefined,
      window: {
        width: length(window.width, doubt),
        cutUp: length(window.down - window.up, doubt),
        chimney: ears > SAME_WALL ? window.sideTop - usual / 2 : undefined,
        stopper: stopper === undefined || stopper < 0.02 ? undefined : length(stopper, doubt),
      },
      windway: windwayOf(at, slow?.to),
      chamber: slow && { length: slow.length, diameter: slow.diameter },
    };
  }
  if (embouchure !== undefined) {
    if (!main.closedFrom)
      questions.push(
        "How far is the stopper's face from the embouchure's middle? No stopper is in the file; a bore's width is taken.",
      );
    const doubt = Math.max(0.01, roughness, 2 * embouchure.scatter);
    return {
      kind: "hole",
      length: length(embouchure.isRound ? embouchure.diameter : embouchure.length, doubt),
      width: length(embouchure.isRound ? embouchure.diameter : embouchure.width, doubt),
      chimney: Math.abs(embouchure.chimney - look.wall.mm) > SAME_WALL ? embouchure.chimney : undefined,
      undercut: embouchure.undercut > 0 ? embouchure.undercut : undefined,
      stopper: main.closedFrom ? length(embouchure.z - main.from, roughness) : undefined,
    };
  }
  const cut = notch && { depth: length(notch.depth, 2 * roughness), width: length(notch.width, 2 * roughness) };
  return { kind: "rim", notch: cut };
}

/** @param plug where a plug begins that is in its place, of a two-chamber flute */
function windwayOf({ mesh, scanned, look }: AtMouth, plug: number | undefined) {
  const { window, exit, main } = look;
  if (window === undefined) return undefined;
  if (exit !== undefined && !main.closedFrom)
    return openChannel(scanned.sense === 1 ? mesh : turnedRound(mesh), exit, window);
  const found = windwayAt(scanned, look, window);
  // The exit hole before it is none of its length.
  return found && plug !== undefined ? { ...found, length: window.up - plug } : found;
}
