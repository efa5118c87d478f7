/** Below this argument the continued fraction, above it the asymptotic series; both agree to 1e-14 around it. */
const SERIES_FROM = 28;
const SERIES_TERMS = 18;

/**
 * Coefficients of I1(ζ)/I0(ζ) = Σ c_m ζ^−m. From the Riccati equation w′ = 1 − w/ζ − w² of that ratio:
 * 2c_m = (m−2)c_(m−1) − Σ c_i c_(m−i), i = 1…m−1. What is left out is of the order exp(−√2 s).
 */
const SERIES = (() => {
  const c = [1];
  for (let m = 1; m < SERIES_TERMS; m++) {
    let sum = (m - 2) * (c[m - 1] as number);
    for (let i = 1; i < m; i++) sum -= (c[i] as number) * (c[m - i] as number);
    c.push(sum / 2);
  }
  return Float64Array.from(c);
})();

/**
 * The wall-layer function F = 2 J1(z) / (z J0(z)) at z = s·e^(−jπ/4), s > 0, the only ray needed for friction and heat conduction
 * in a round duct (Zwikker & Kosten 1949). Written to `out[at]`, `out[at+1]` (real, imaginary).
 */
export function wallLayer(s: number, out: Float64Array, at = 0): void {
  if (s < SERIES_FROM) wallLayerByFraction(s, out, at);
  else wallLayerBySeries(s, out, at);
}

/** 1/ζ with ζ = jz = s·e^(jπ/4): F = (2/ζ)·I1(ζ)/I0(ζ). */
const inverseOf = (s: number): number => Math.SQRT1_2 / s;

/** The ratio has no unit: `s` is the radius over the layer's thickness, `out` receives real and imaginary part. By I1/I0 = 1/(2/ζ + 1/(4/ζ + 1/(6/ζ + …))), from the end backward. */
export function wallLayerByFraction(s: number, out: Float64Array, at = 0): void {
  const u = inverseOf(s);
  let re = 0;
  let im = 0;
  for (let n = Math.ceil(20 + 1.6 * s); n >= 1; n--) {
    const dr = 2 * n * u + re;
    const di = -2 * n * u + im;
    const norm = dr * dr + di * di;
    re = dr / norm;
    im = -di / norm;
  }
  out[at] = 2 * u * (re + im);
  out[at + 1] = 2 * u * (im - re);
}

/** By the asymptotic series in 1/ζ; only for large `s`. */
export function wallLayerBySeries(s: number, out: Float64Array, at = 0): void {
  const u = inverseOf(s);
  let re = 0;
  let im = 0;
  for (let m = SERIES_TERMS - 1; m >= 0; m--) {
    const next = u * (re + im) + (SERIES[m] as number);
    im = u * (im - re);
    re = next;
  }
  out[at] = 2 * u * (re + im);
  out[at + 1] = 2 * u * (im - re);
}
