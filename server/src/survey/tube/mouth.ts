/** The mouth of a tube, and the questions that the mesh leaves open about it. */
import type { Mesh } from "../mesh/mesh.js";
import type { Loose } from "../parts/loose.js";
import { length, type SurveyedMouth } from "../surveyed.js";
import type { HoleFound } from "./hole.js";
import { type Look, turnedRound } from "./look.js";
import type { Scan } from "./scan.js";
import { ENTRY, openChannel, plugAbove, plugBeside, slowChamber, windwayAt } from "./upstream.js";

/** Chimneys that differ from the wall by less are the wall, mm; or by less than this many times its roughness. */
const SAME_WALL = 0.1;
const ROUGH_WALL = 3;

export function sameWallWithin(roughness: number, facet = 0): number {
  return SAME_WALL + facet + ROUGH_WALL * roughness;
}

/** How much wider a hole is at the bore; undefined where it is straight or narrower there. */
export function undercutOf({ undercut, scatter, unsureSlope, chimney }: HoleFound, roughness: number) {
  if (!(undercut > 0)) return undefined;
  return length(undercut, Math.max(roughness, 2 * scatter, 4 * unsureSlope.radius * chimney));
}

/** Standard deviation of what lies anywhere in a stretch, as a share of it. */
const ANYWHERE = 1 / Math.sqrt(12);
/** mm of a labium's edge that may be lost. */
const WORTH_TELLING = 0.2;
/** Its height is drawn on from two places, twice the one less the other, each a distance of two bumpy sides. */
const DRAWN_ON = Math.hypot(2, 1);
/** Share of a labium's curve by which the mean of seven places may be off. */
const CURVED = 0.05;

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
          ? "How far above the window does the plug end? No plug is in the bore; it is assumed to end at the window."
          : "Where does the block end? The bore is open above the window; the block is assumed to end there.",
      );
    if (window.isCurved)
      notes.push(
        `The labium's edge is curved, by as much as ${window.unevenness.toFixed(1)} mm: the cut-up is the mean over the window's width.`,
      );
    // A curved edge scatters by its curve.
    const edge = window.isCurved ? CURVED * window.unevenness : window.downScatter;
    const doubt = Math.max(2 * roughness, 2 * (window.upScatter + edge));
    if (window.tip > WORTH_TELLING)
      notes.push(
        `The labium's edge is rounded, as scans leave it: drawn on along its ramp it would end up to ${window.tip.toFixed(1)} mm nearer the windway. Measure the cut-up on the instrument.`,
      );
    const ears = window.sideTop - usual / 2 - look.wall.mm;
    const slow = slowChamber(scanned, main, window.up, look.exit);
    return {
      kind: "window",
      isTwoChamber: look.exit !== undefined || slow !== undefined,
      window: {
        width: length(window.width, doubt),
        cutUp: length(window.down - window.up, Math.max(doubt, ANYWHERE * window.tip)),
        chimney: ears > sameWallWithin(roughness) ? length(window.sideTop - usual / 2, 2 * roughness) : undefined,
        stopper: stopper === undefined || stopper < 0.02 ? undefined : length(stopper, doubt),
      },
      windway: windwayOf(at, slow?.to),
      chamber: slow && { length: length(slow.length, 2 * roughness), diameter: length(slow.diameter, 2 * roughness) },
    };
  }
  if (embouchure !== undefined) {
    if (!main.closedFrom)
      questions.push(
        "How far is the stopper's face from the embouchure's middle? No stopper is in the file; a bore's width is assumed.",
      );
    const doubt = Math.max(0.01, roughness, 2 * embouchure.unsure.wave, 2 * embouchure.scatter);
    return {
      kind: "hole",
      length: length(embouchure.isRound ? embouchure.diameter : embouchure.length, doubt),
      width: length(embouchure.isRound ? embouchure.diameter : embouchure.width, doubt),
      chimney:
        Math.abs(embouchure.chimney - look.wall.mm) > sameWallWithin(roughness)
          ? length(embouchure.chimney, Math.max(roughness, embouchure.chimneyScatter))
          : undefined,
      undercut: undercutOf(embouchure, roughness),
      stopper: main.closedFrom ? length(embouchure.z - main.from, roughness) : undefined,
    };
  }
  const cut = notch && { depth: length(notch.depth, 2 * roughness), width: length(notch.width, 2 * roughness) };
  return { kind: "rim", notch: cut };
}

/** @param plug where a plug begins that is in its place, of a two-chamber flute */
function windwayOf(at: AtMouth, plug: number | undefined) {
  const found = channelOf(at, plug);
  const doubt = 2 * at.roughness;
  // Its entry is sought by steps.
  return (
    found && { length: length(found.length, Math.max(doubt, ENTRY)), height: length(found.height, DRAWN_ON * doubt) }
  );
}

function channelOf({ mesh, scanned, look }: AtMouth, plug: number | undefined) {
  const { window, exit, main } = look;
  if (window === undefined) return undefined;
  if (exit !== undefined && !main.closedFrom)
    return openChannel(scanned.sense === 1 ? mesh : turnedRound(mesh), exit, window);
  const found = windwayAt(scanned, look, window);
  // The exit hole before it is none of its length.
  return found && plug !== undefined ? { ...found, length: window.up - plug } : found;
}
