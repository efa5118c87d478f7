/** The share of mutants that tests notice, and how sure it is. */

/** Of a normal distribution, two-sided 95 %. */
const Z = 1.959964;

/**
 * Wilson's interval of a share, 95 %.
 * @source E. B. Wilson, "Probable inference, the law of succession, and statistical inference", J. Am. Stat. Assoc. 22 (1927)
 */
export function wilson(hits: number, trials: number): { readonly least: number; readonly greatest: number } {
  if (trials === 0) return { least: 0, greatest: 1 };
  const share = hits / trials;
  const grown = 1 + Z ** 2 / trials;
  const middle = (share + Z ** 2 / (2 * trials)) / grown;
  const half = (Z / grown) * Math.sqrt((share * (1 - share)) / trials + Z ** 2 / (4 * trials ** 2));
  return { least: middle - half, greatest: middle + half };
}
