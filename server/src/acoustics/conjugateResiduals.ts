/** Writes what a matrix makes of a vector over it. */
export type Operator = (re: Float64Array, im: Float64Array) => void;

/**
 * Complex linear systems solved by products of the matrix with vectors, without its entries: generalized conjugate residuals, S. C. Eisenstat,
 * H. C. Elman, M. H. Schultz, SIAM J. Numer. Anal. 20 (1983) 345. Each iteration applies the matrix to the residual, and subtracts
 * the combination of all products so far that leaves the smallest one. Where the matrix is near the identity a few iterations suffice, however
 * large it is.
 */
export class ConjugateResiduals {
  /** The residual before each iteration. */
  private readonly leftRe: readonly Float64Array[];
  private readonly leftIm: readonly Float64Array[];
  /** Its product with the matrix, made orthonormal to those before… */
  private readonly madeRe: readonly Float64Array[];
  private readonly madeIm: readonly Float64Array[];
  /** …by subtracting this much of each, by rows of `most`; its length then… */
  private readonly shareRe: Float64Array;
  private readonly shareIm: Float64Array;
  private readonly length: Float64Array;
  /** …and the right-hand side's component along it. */
  private readonly heldRe: Float64Array;
  private readonly heldIm: Float64Array;

  /** @param size of the system @param most rounds */
  constructor(
    size: number,
    private readonly most: number,
  ) {
    const vectors = (count: number) => Array.from({ length: count }, () => new Float64Array(size));
    this.leftRe = vectors(most + 1);
    this.leftIm = vectors(most + 1);
    this.madeRe = vectors(most);
    this.madeIm = vectors(most);
    this.shareRe = new Float64Array(most * most);
    this.shareIm = new Float64Array(most * most);
    this.length = new Float64Array(most);
    this.heldRe = new Float64Array(most);
    this.heldIm = new Float64Array(most);
  }

  /**
   * Writes the solution over the right-hand side; the residual is at most the share `tolerance` of that.
   * @returns how many iterations it took; undefined, and nothing written, where `most` do not suffice or a number is not finite
   */
  solve(apply: Operator, re: Float64Array, im: Float64Array, tolerance: number): number | undefined {
    const { leftRe, leftIm, madeRe, madeIm, most } = this;
    const enough = tolerance * norm(re, im);
    vectorAt(leftRe, 0).set(re);
    vectorAt(leftIm, 0).set(im);
    for (let n = 0; n < most; n++) {
      const toRe = vectorAt(madeRe, n);
      const toIm = vectorAt(madeIm, n);
      toRe.set(vectorAt(leftRe, n));
      toIm.set(vectorAt(leftIm, n));
      apply(toRe, toIm);
      for (let i = 0; i < n; i++) {
        const at = i * most + n;
        takeOff(toRe, toIm, vectorAt(madeRe, i), vectorAt(madeIm, i), this.shareRe, this.shareIm, at);
      }
      const length = norm(toRe, toIm);
      this.length[n] = length;
      scale(toRe, toIm, 1 / length);
      const nextRe = vectorAt(leftRe, n + 1);
      const nextIm = vectorAt(leftIm, n + 1);
      nextRe.set(vectorAt(leftRe, n));
      nextIm.set(vectorAt(leftIm, n));
      takeOff(nextRe, nextIm, toRe, toIm, this.heldRe, this.heldIm, n);
      const left = norm(nextRe, nextIm);
      if (!Number.isFinite(left)) return undefined;
      if (left <= enough) {
        this.combine(n + 1, re, im);
        return n + 1;
      }
    }
    return undefined;
  }

  /** The vector of which the matrix makes what all rounds took off. */
  private combine(rounds: number, re: Float64Array, im: Float64Array): void {
    const { shareRe, shareIm, length, heldRe, heldIm, most } = this;
    re.fill(0);
    im.fill(0);
    for (let n = rounds - 1; n >= 0; n--) {
      const factorRe = (heldRe[n] as number) / (length[n] as number);
      const factorIm = (heldIm[n] as number) / (length[n] as number);
      add(re, im, vectorAt(this.leftRe, n), vectorAt(this.leftIm, n), factorRe, factorIm);
      for (let i = 0; i < n; i++) {
        const r = shareRe[i * most + n] as number;
        const v = shareIm[i * most + n] as number;
        heldRe[i] = (heldRe[i] as number) - r * factorRe + v * factorIm;
        heldIm[i] = (heldIm[i] as number) - r * factorIm - v * factorRe;
      }
    }
  }
}

const vectorAt = (vectors: readonly Float64Array[], n: number): Float64Array => vectors[n] as Float64Array;

/** Subtracts from a vector its component along another of length 1, and writes how much that is. */
function takeOff(
  fromRe: Float64Array,
  fromIm: Float64Array,
  unitRe: Float64Array,
  unitIm: Float64Array,
  shareRe: Float64Array,
  shareIm: Float64Array,
  at: number,
): void {
  let sumRe = 0;
  let sumIm = 0;
  for (let j = 0; j < fromRe.length; j++) {
    const ur = unitRe[j] as number;
    const ui = unitIm[j] as number;
    const vr = fromRe[j] as number;
    const vi = fromIm[j] as number;
    sumRe += ur * vr + ui * vi;
    sumIm += ur * vi - ui * vr;
  }
  shareRe[at] = sumRe;
  shareIm[at] = sumIm;
  add(fromRe, fromIm, unitRe, unitIm, -sumRe, -sumIm);
}

/** Adds a vector `factorRe` + j `factorIm` times. */
function add(
  toRe: Float64Array,
  toIm: Float64Array,
  re: Float64Array,
  im: Float64Array,
  factorRe: number,
  factorIm: number,
): void {
  for (let j = 0; j < toRe.length; j++) {
    const r = re[j] as number;
    const i = im[j] as number;
    toRe[j] = (toRe[j] as number) + factorRe * r - factorIm * i;
    toIm[j] = (toIm[j] as number) + factorRe * i + factorIm * r;
  }
}

function scale(re: Float64Array, im: Float64Array, factor: number): void {
  for (let j = 0; j < re.length; j++) {
    re[j] = (re[j] as number) * factor;
    im[j] = (im[j] as number) * factor;
  }
}

function norm(re: Float64Array, im: Float64Array): number {
  let sum = 0;
  for (let j = 0; j < re.length; j++) sum += (re[j] as number) ** 2 + (im[j] as number) ** 2;
  return Math.sqrt(sum);
}
