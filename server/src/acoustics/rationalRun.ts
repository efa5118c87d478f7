/** The last points of a smooth complex function, and the rational function through them at others. */
export class RationalRun {
  private readonly x: Float64Array;
  private readonly re: Float64Array;
  private readonly im: Float64Array;
  private count = 0;
  /** How far the point asked about lies beyond each. */
  private readonly away: Float64Array;
  /** Columns of the tableau: this one, the one before, and the one before that, by row. */
  private readonly nowRe: Float64Array;
  private readonly nowIm: Float64Array;
  private readonly oldRe: Float64Array;
  private readonly oldIm: Float64Array;
  /** What `at` has found. */
  valueRe = Number.NaN;
  valueIm = Number.NaN;

  /** @param most points that it remembers @param enough points that make it full */
  constructor(
    private readonly most: number,
    private readonly enough = most,
  ) {
    const vector = () => new Float64Array(most);
    this.x = vector();
    this.re = vector();
    this.im = vector();
    this.away = vector();
    this.nowRe = vector();
    this.nowIm = vector();
    this.oldRe = vector();
    this.oldIm = vector();
  }

  get isFull(): boolean {
    return this.count >= this.enough;
  }

  /** Adds a point, and drops the oldest where there are too many. */
  add(x: number, re: number, im: number): void {
    if (this.count === this.most) {
      for (const values of [this.x, this.re, this.im]) values.copyWithin(0, 1);
      this.count--;
    }
    this.x[this.count] = x;
    this.re[this.count] = re;
    this.im[this.count] = im;
    this.count++;
  }

  /**
   * Writes `valueRe` and `valueIm`: NaN where no rational function goes through all points, and at those points themselves.
   * J. Stoer, R. Bulirsch, Introduction to Numerical Analysis, 2.2.3 (from memory), in complex numbers.
   */
  at(x: number): void {
    const { count, re, im, away, nowRe, nowIm, oldRe, oldIm } = this;
    for (let i = 0; i < count; i++) {
      away[i] = x - (this.x[i] as number);
      nowRe[i] = re[i] as number;
      nowIm[i] = im[i] as number;
      oldRe[i] = 0;
      oldIm[i] = 0;
    }
    for (let k = 1; k < count; k++) {
      for (let i = count - 1; i >= k; i--) {
        const ratio = (away[i - k] as number) / (away[i] as number);
        const tr = nowRe[i] as number;
        const ti = nowIm[i] as number;
        const dr = tr - (nowRe[i - 1] as number);
        const di = ti - (nowIm[i - 1] as number);
        // Two columns back, in the row above.
        const er = tr - (oldRe[i - 1] as number);
        const ei = ti - (oldIm[i - 1] as number);
        // d / (ratio · (1 − d/e) − 1) = d·e / (ratio · (e − d) − e)
        const nr = dr * er - di * ei;
        const ni = dr * ei + di * er;
        const qr = ratio * (er - dr) - er;
        const qi = ratio * (ei - di) - ei;
        const norm = qr * qr + qi * qi;
        // For the row below in the next pass.
        oldRe[i] = tr;
        oldIm[i] = ti;
        nowRe[i] = tr + (nr * qr + ni * qi) / norm;
        nowIm[i] = ti + (ni * qr - nr * qi) / norm;
      }
    }
    this.valueRe = nowRe[count - 1] as number;
    this.valueIm = nowIm[count - 1] as number;
  }
}
