import { ovalInner } from "./ellipse.js";
import { holeLengths } from "./hole.js";
import { FLANGED_LENGTH, rectangleFactor } from "./radiation.js";

/** The outer end is separate: the depth is the wall's. */
const DEEP = Number.POSITIVE_INFINITY;

/**
 * What corners take from the inner length of a rectangle beside the oval of its area and proportions, over the radius of that area,
 * by its ratio to the bore's radius: static finite elements of one window alone (test/reference/fem/single.py, group `window`: ratios
 * 0.2 to 0.65, 2 × cut-up 0.7 to 1.4 of the width), which the whole inner end meets within 0.002.
 */
const corners = (ratio: number): number => 0.0034 + 0.0387 * ratio;

/**
 * Inner length of a window cut from a rigid block on, m: the block is a mirror, and the window half of one twice as long
 * (docs/coupled-model.md §6). @param a radius of the bore, m
 */
export function windowInner(a: number, width: number, cutUp: number, chimney: number) {
  const b = Math.sqrt((2 * width * cutUp) / Math.PI);
  const ratio = b / a;
  const proportions = (2 * cutUp) / width;
  const round = holeLengths(a, b, chimney);
  const flat = FLANGED_LENGTH * (1 - rectangleFactor(width, 2 * cutUp));
  const curved = ovalInner(0, proportions, DEEP) - ovalInner(ratio, proportions, DEEP);
  return {
    inner: round.inner - b * (flat + curved + corners(ratio)),
    innerGrowth: round.innerGrowth,
    seriesOpen: round.seriesOpen,
  };
}
