/**
 * How far the prediction was checked: the same numbers for findings, for refits, which keep within them, and for the pages
 * that quote them (a test holds these). Evidence: docs/coupled-model.md, "Range of validity".
 */
export const CHECKED = {
  /** Hole's width over the bore's, from finite elements of single holes. A smaller hole does less in every way. */
  holeOverBore: [0.2, 0.8],
  /** Length of an oval hole over its width, from single holes. */
  lengthOverWidth: [0.5, 2],
  /** Undercut on one side over the chimney's length, from single holes (to 0.4) and tubes (to 0.33). */
  undercutSlope: 0.35,
  /** Length of the closed space between a window and its plug, in bore radii, from tubes (`test/reference/fem-stub.json`). */
  windowSpace: 4,
  /** Wave number times bore radius: tubes go to 0.4, an open end alone beyond; the first higher mode comes at 1.84. */
  waveNumberTimesBore: 0.5,
  /** Opening's radius over the narrowest half-axis of a vessel, from vessels with up to 0.22. */
  openingOverHalfAxis: 0.25,
  /** Wave number times the longest half-axis of a vessel. */
  waveNumberTimesHalfAxis: 0.8,
} as const;

/** What a refit keeps to: far enough inside these bounds that rounding to the drawing's steps does not exceed them. */
export const KEPT_BY_REFITS = {
  holeOverBore: [0.21, 0.78],
  undercutSlope: 0.33,
  openingOverHalfAxis: 0.24,
} as const;
