/** How bores follow lengths from one size of an instrument to another. */

/**
 * The power of the length's growth by which bores usually grow: high whistles in D have 12 to 14 mm, low ones, twice as long, 21 to 23
 * (log₂(22/13) = 0.76); a piccolo 11 and a flute 19 (0.79), a flute 19 and one an octave lower 32 (0.75). Common practice, no source.
 */
export const USUAL_GROWTH = 0.75;
