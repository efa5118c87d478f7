/** Notes of one pitch in one run: tongued repeats, and slurs to the octave over a room's tail of the lower note. */

import type { FrameTone, Run, ToneFrame } from "./frames.js";
import { medianOver } from "./median.js";

/** A tongued repeat: the level dips by this much, dB, below both sides, over this many seconds. */
const DIP = 8;
const DIP_SIDE = 0.2;
/** How far, in frames, no other frame is quieter. */
const DIP_WIDTH = 4;
/** A slur to the octave: the odd harmonics fall at once by so much, dB, while the tone's level falls by less. */
const ODD_FALL = 10;
const LEVEL_KEPT = 6;
/** Frames compared before and after a slur, and left out between. */
const SLUR_SIDE = 10;
const SLUR_GAP = 3;
/** No piece is shorter, seconds. */
const SHORTEST_PIECE = 0.25;

type Cut = Pick<Run, "tongued" | "octaveAbove"> & { readonly at: number };

/** @param hop seconds from frame to frame */
export function splitRun(run: readonly ToneFrame[], hop: number): readonly Run[] {
  const cuts: Cut[] = [{ at: 0, tongued: false, octaveAbove: false }];
  const least = SHORTEST_PIECE / hop;
  const side = Math.round(DIP_SIDE / hop);
  for (let at = SLUR_GAP; at < run.length - SLUR_GAP; at++) {
    if (at - (cuts.at(-1) as Cut).at < least || run.length - at < least) continue;
    if (dipsAt(run, at, side)) cuts.push({ at, tongued: true, octaveAbove: false });
    else if (slursAt(run, at)) cuts.push({ at, tongued: true, octaveAbove: true });
  }
  return cuts.map(({ at, tongued, octaveAbove }, i) => ({
    frames: run.slice(at, cuts[i + 1]?.at),
    tongued,
    octaveAbove,
  }));
}

function dipsAt(run: readonly ToneFrame[], at: number, side: number): boolean {
  const here = level(run, at);
  for (let i = Math.max(0, at - DIP_WIDTH); i <= Math.min(run.length - 1, at + DIP_WIDTH); i++)
    if (level(run, i) < here) return false;
  const around = Math.min(middle(run, at - side, at, "level"), middle(run, at + 1, at + 1 + side, "level"));
  return around - here >= DIP;
}

function slursAt(run: readonly ToneFrame[], at: number): boolean {
  const fall = oddFall(run, at);
  if (!(fall >= ODD_FALL && fall >= oddFall(run, at + 1))) return false;
  const before = middle(run, at - SLUR_SIDE, at, "level");
  return middle(run, at + SLUR_GAP, at + SLUR_GAP + SLUR_SIDE, "level") > before - LEVEL_KEPT;
}

function oddFall(run: readonly ToneFrame[], at: number): number {
  return middle(run, at - SLUR_SIDE, at, "odd") - middle(run, at + SLUR_GAP, at + SLUR_GAP + SLUR_SIDE, "odd");
}

function level(run: readonly ToneFrame[], at: number): number {
  return (run[at] as ToneFrame).tone.level;
}

function middle(run: readonly ToneFrame[], from: number, to: number, what: keyof FrameTone): number {
  const first = Math.max(0, from);
  const count = Math.max(0, Math.min(to, run.length) - first);
  return medianOver(count, (i) => (run[first + i] as ToneFrame).tone[what]);
}
