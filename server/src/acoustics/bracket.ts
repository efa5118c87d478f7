/**
 * Zero of a continuous function between two points where its signs differ: T. R. Chandrupatla, Adv. Eng. Software 28 (1997) 145,
 * inverse quadratic steps where they are safe, halving elsewhere.
 * @param tolerance relative, on x
 * @param lower, upper each abscissa and value; the signs of the values differ
 */
export function zeroBetween(
  f: (x: number) => number,
  lower: readonly [x: number, y: number],
  upper: readonly [x: number, y: number],
  tolerance: number,
): number {
  let [b, fb] = lower;
  let [a, fa] = upper;
  let c = b;
  let fc = fb;
  let t = fa / (fa - fb);
  for (let n = 0; n < 100; n++) {
    const x = a + t * (b - a);
    const fx = f(x);
    if (fx === 0) return x;
    if (fx > 0 === fa > 0) {
      c = a;
      fc = fa;
    } else {
      c = b;
      fc = fb;
      b = a;
      fb = fa;
    }
    a = x;
    fa = fx;
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const slack = (tolerance * Math.abs(best)) / Math.abs(b - a);
    if (slack > 0.5) return best;
    const xi = (a - b) / (c - b);
    const phi = (fa - fb) / (fc - fb);
    const safe = 1 - Math.sqrt(1 - xi) < phi && phi < Math.sqrt(xi);
    t = safe ? (fa / (fb - fa)) * (fc / (fb - fc)) + (((c - a) / (b - a)) * (fa / (fc - fa)) * fb) / (fc - fb) : 0.5;
    t = Math.min(1 - slack, Math.max(slack, t));
  }
  return Math.abs(fa) < Math.abs(fb) ? a : b;
}
