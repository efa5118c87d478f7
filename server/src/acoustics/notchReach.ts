/** Where a player's lip lies at a notch, in any unit of length: that stays as it is, whatever the size of the instrument. */
interface Lip {
  /** From the lip to the rim. */
  readonly gap?: number;
  /** From the lip to the blowing edge, where `gap` is not known. */
  readonly lipToEdge?: number;
}

/** From the lip to the edge of a notch `depth` deep, in their unit: at least the depth. */
export function notchReach(depth: number, { gap, lipToEdge = 0 }: Lip): number {
  return gap === undefined ? Math.max(depth, lipToEdge) : depth + gap;
}
