/** What the design says of the player's hands and of the printer, or what is usual: for the findings and for a refit alike. */
import { DEFAULTS, HANDS, SOLID_DEFAULTS } from "../defaults.js";
import type { Draft } from "../draft/draft.js";
import type { Path } from "../finding.js";
import type { FingersApart } from "../hands/fingers.js";
import { valueAt } from "../path.js";
import { printingOf } from "../printed/printing.js";
import type { Size } from "./laying.js";

/** mm, and whether the design states it or it is the usual one. */
export interface MakerLimit {
  readonly mm: number;
  readonly stated: boolean;
}

/** The limit at `path`; undefined where something is written there that cannot be used. Neither hands nor printers are scaled. */
export function limitAt(draft: Draft, path: Path, usual: number): MakerLimit | undefined {
  if (valueAt(draft.data, path) === undefined) return { mm: usual, stated: false };
  const mm = millimetresAt(draft, path);
  return mm === undefined ? undefined : { mm, stated: true };
}

/** A length of printer or player in mm. */
export function millimetresAt(draft: Draft, path: Path): number | undefined {
  const value = draft.numbers.at(path);
  return value === undefined ? undefined : value * printingOf(draft).unitMillimetres;
}

/** Whose hands the instrument is for. */
function handsOf({ data }: Draft): (typeof HANDS)[keyof typeof HANDS] {
  return valueAt(data, ["hands", "size"]) === "child" ? HANDS.child : HANDS.adult;
}

/** Greatest stretch between two neighbouring fingers of one hand: the pair's own, or that of all pairs. */
export function reachOf(draft: Draft, pair: Exclude<FingersApart, "hands">): MakerLimit | undefined {
  const all = limitAt(draft, ["hands", "reach"], handsOf(draft).reach[pair]);
  const own = all && limitAt(draft, ["hands", pair], all.mm);
  return own && { mm: own.mm, stated: own.stated || all.stated };
}

/** Least distance of two fingers that lie beside each other. */
export function spacingOf(draft: Draft, pair: FingersApart): MakerLimit | undefined {
  const usual = handsOf(draft).spacing;
  return limitAt(draft, ["hands", "spacing"], pair === "hands" ? usual.hands : usual.hand);
}

/** From the thumb to the nearest finger of its hand: its own, or the stated one of the fingers, or the usual one. */
export function thumbReachOf(draft: Draft): (MakerLimit & { readonly own: boolean }) | undefined {
  const reach = limitAt(draft, ["hands", "reach"], handsOf(draft).thumb);
  const thumb = reach && limitAt(draft, ["hands", "thumb"], reach.mm);
  return thumb && { mm: thumb.mm, stated: thumb.stated || reach.stated, own: thumb.stated };
}

/** What a fingertip closes. */
export function fingertipOf(draft: Draft): MakerLimit | undefined {
  return limitAt(draft, ["hands", "fingertip"], handsOf(draft).fingertip);
}

/** Wall between two holes' edges. */
export function holeGapOf(draft: Draft): MakerLimit | undefined {
  return limitAt(draft, ["print", "holeGap"], DEFAULTS.holeGapMillimetres);
}

/** From an opening's edge to a joint. */
export function jointClearanceOf(draft: Draft): MakerLimit | undefined {
  return limitAt(draft, ["print", "jointClearance"], DEFAULTS.jointClearanceMillimetres);
}

export function nozzleOf(draft: Draft): MakerLimit | undefined {
  return limitAt(draft, ["print", "nozzle"], DEFAULTS.nozzleMillimetres);
}

export function lineWidthOf(draft: Draft): number | undefined {
  return millimetresAt(draft, ["print", "lineWidth"]);
}

/** Thinnest wall that the printer can make airtight: stated, or a number of lines of the stated width or of the nozzle's. */
export function leastWallOf(draft: Draft): (MakerLimit & { readonly line: number }) | undefined {
  const line = lineWidthOf(draft) ?? nozzleOf(draft)?.mm;
  const least = line && limitAt(draft, ["print", "leastWall"], DEFAULTS.airtightLines * line);
  return line && least ? { ...least, line } : undefined;
}

/** Radial gap of a tenon in its socket. */
export function fitOf(draft: Draft): MakerLimit | undefined {
  return limitAt(draft, ["print", "fit"], SOLID_DEFAULTS.fit);
}

/** Whether a part may be printed leaning, on supports. */
export function mayLean({ data }: Draft): boolean {
  return valueAt(data, ["print", "leaning"]) === true;
}

/** What the printer reaches, mm; undefined where the design states none, or none that can be used. */
export function bedOf(draft: Draft): Size | undefined {
  const bed = valueAt(draft.data, ["print", "bed"]);
  if (!Array.isArray(bed) || bed.length !== 3) return undefined;
  const [x, y, z] = [0, 1, 2].map((i) => millimetresAt(draft, ["print", "bed", i]));
  return x === undefined || y === undefined || z === undefined ? undefined : [x, y, z];
}
