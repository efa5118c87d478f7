import type { Station } from "./column.js";
import { boreRadiusAt } from "./column.js";

/** A length of bore between two planes, straight in section: a cylinder, or a cone with spherical waves. */
export interface Frustum {
  readonly length: number;
  readonly radius1: number;
  readonly radius2: number;
  /** Inertance over the air's density, 1/m, lumped at its upstream plane: of a step's near field there, and of a steep cone's own. */
  readonly step?: number;
}

/**
 * Inertance that a sudden step between two round ducts adds, over the air's density, 1/m. Fit within 1 % to static mode
 * matching for ratios of the radii from 0.3 up (test/reference/fem/step.py; the near field of F. C. Karal, J. Acoust. Soc. Am. 25 (1953) 327).
 */
export function stepInertance(radius1: number, radius2: number): number {
  const narrow = Math.min(radius1, radius2);
  const ratio = narrow / Math.max(radius1, radius2);
  if (ratio === 1) return 0;
  const l = -Math.log1p(-ratio);
  return ((1 - ratio) ** 2 * (0.835 + 0.5 * l + 0.018 * l * l)) / (Math.PI * narrow);
}

/** Slopes of a cone, radius by length: below the first its waves are spherical and nothing is added, above the second all of it is. */
const GENTLE = 0.05;
const STEEP = 0.1;

/**
 * Inertance that a cone's near field adds, over the air's density, 1/m: a step's where it has no length, ½ slope²·length/(π r₁ r₂) where it is long.
 * Fit within 2 % to static finite elements of one cone between two cylinders (test/reference/fem/cone.py; ratios of the radii from 0.3 to 0.85, lengths to 8
 * times their difference). Below a slope of 1 : 20 it is left out, less than 0.1 cent on a recorder's or a flute's taper; it fades in up to 1 : 10.
 * @param length m
 */
export function coneInertance(radius1: number, radius2: number, length: number): number {
  const narrow = Math.min(radius1, radius2);
  const difference = Math.abs(radius2 - radius1);
  if (difference <= GENTLE * length) return 0;
  const step = stepInertance(radius1, radius2);
  const away = 1 - narrow / Math.max(radius1, radius2);
  const run = length / difference;
  // Slope in `run` of the step's inertance over the cone's, where the cone is short and where it is long.
  const short = 0.171 + 0.656 * Math.sqrt(away);
  const long = (2 * step * Math.PI * narrow) / away;
  const felt = Math.min(1, (difference / length - GENTLE) / (STEEP - GENTLE));
  return (felt * felt * (3 - 2 * felt) * step) / (1 + run * (short + ((long - short) * run) / (run + 1.6)));
}

/**
 * A cone whose radius changes by more than this (natural logarithm) is cut into slices when the walls take energy, as one mean
 * radius must stand for the wall losses of each. At 0.1 what is left is 0.01 cent on a cone from 9.5 to 6 mm in 300 mm.
 */
const LOG_TAPER_OF_A_SLICE = 0.1;

/** The frusta of the bore from `from` to `to`, m; beyond the outline it goes on as a cylinder. Zero lengths (steps) drop out. */
export function frustaBetween(outline: readonly Station[], from: number, to: number, losses: boolean): Frustum[] {
  const bore = near(outline, from, to);
  const cuts = [from, ...new Set(bore.map((s) => s.x).filter((x) => x > from && x < to)), to];
  const frusta: Frustum[] = [];
  for (let i = 0; i + 1 < cuts.length; i++) {
    const x1 = cuts[i] as number;
    const x2 = cuts[i + 1] as number;
    if (x2 <= x1) continue;
    const radius1 = boreRadiusAt(bore, x1);
    const step = stepInertance(radiusBefore(bore, x1), radius1) + coneShare(bore, x1, x2);
    const [first, ...rest] = sliced({ length: x2 - x1, radius1, radius2: radiusBefore(bore, x2) }, losses);
    frusta.push({ ...(first as Frustum), ...(step > 0 ? { step } : {}) }, ...rest);
  }
  return frusta;
}

/** Stations listed out of order by no more than rounding are told apart by this, m. */
const ROUNDING = 1e-7;

/** The stations that make the outline between two places: of a thousand, each section between holes has some ten. */
function near(bore: readonly Station[], from: number, to: number): readonly Station[] {
  const last = bore.length - 1;
  return bore.slice(Math.max(0, beyond(bore, from - ROUNDING) - 1), Math.min(last, beyond(bore, to + ROUNDING)) + 1);
}

/** Index of the first station beyond `x`. */
function beyond(bore: readonly Station[], x: number): number {
  let [low, high] = [0, bore.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((bore[middle] as Station).x > x) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Radius at `x` seen from the upstream side: at a step, the upstream radius. */
function radiusBefore(bore: readonly Station[], x: number): number {
  const at = bore.find((s) => s.x === x);
  return at ? at.radius : boreRadiusAt(bore, x);
}

/** Share, by length, of the near field of the cone between two stations that belongs to the part from `x1` to `x2`. */
function coneShare(bore: readonly Station[], x1: number, x2: number): number {
  const after = bore.findIndex((s) => s.x >= x2);
  const [one, other] = [bore[after - 1], bore[after]];
  if (one === undefined || other === undefined || one.x > x1) return 0;
  const length = other.x - one.x;
  return (coneInertance(one.radius, other.radius, length) * (x2 - x1)) / length;
}

function sliced(whole: Frustum, losses: boolean): Frustum[] {
  const { length, radius1, radius2 } = whole;
  const n = losses ? Math.ceil(Math.abs(Math.log(radius2 / radius1)) / LOG_TAPER_OF_A_SLICE) : 1;
  if (n <= 1) return [whole];
  const radius = (i: number) => radius1 + ((radius2 - radius1) * i) / n;
  return Array.from({ length: n }, (_, i) => ({ length: length / n, radius1: radius(i), radius2: radius(i + 1) }));
}

/** The radius whose wall losses represent a frustum's: the logarithmic mean, m (Chaigne & Kergomard 2016, chapter 7). */
export function lossRadius({ radius1, radius2 }: Frustum): number {
  const taper = (radius2 - radius1) / radius1;
  return taper === 0 ? radius1 : (radius1 * taper) / Math.log1p(taper);
}

/** (z cosh z − sinh z)/z³ by its power series below this |z|², where the closed form cancels. */
const SERIES_BELOW = 0.25;

/**
 * Transmission matrix of a frustum: spherical waves from the cone's apex (Chaigne & Kergomard 2016, §7; Fletcher & Rossing, §8),
 * written without the apex's distance, so that it goes over smoothly into the cylinder's. Impedances in units of ρc/`area`.
 * @param wave Γ (1/m) and the impedance ratio at `waveAt`, as `waveConstants` writes them for `lossRadius`
 * @param area m²
 */
export function frustumMatrix(
  f: Frustum,
  area: number,
  wave: Float64Array,
  waveAt: number,
  out: Float64Array,
  at = 0,
): void {
  const { length, radius1: r1, radius2: r2 } = f;
  const zr = (wave[waveAt] as number) * length;
  const zi = (wave[waveAt + 1] as number) * length;
  const cos = Math.cos(zi);
  const sin = Math.sin(zi);
  const ch = zr === 0 ? 1 : Math.cosh(zr);
  const sh = zr === 0 ? 0 : Math.sinh(zr);
  const coshR = ch * cos;
  const coshI = sh * sin;
  const sinhR = sh * cos;
  const sinhI = ch * sin;
  const ratio = area / (Math.PI * r1 * r2);
  const qr = (wave[waveAt + 2] as number) * ratio;
  const qi = (wave[waveAt + 3] as number) * ratio;
  out[at + 2] = qr * sinhR - qi * sinhI;
  out[at + 3] = qr * sinhI + qi * sinhR;
  const taper = r2 - r1;
  let numR = sinhR;
  let numI = sinhI;
  if (taper === 0) {
    out[at] = out[at + 6] = coshR;
    out[at + 1] = out[at + 7] = coshI;
  } else {
    const z2 = zr * zr + zi * zi;
    const sincR = (sinhR * zr + sinhI * zi) / z2;
    const sincI = (sinhI * zr - sinhR * zi) / z2;
    out[at] = (r2 * coshR - taper * sincR) / r1;
    out[at + 1] = (r2 * coshI - taper * sincI) / r1;
    out[at + 6] = (r1 * coshR + taper * sincR) / r2;
    out[at + 7] = (r1 * coshI + taper * sincI) / r2;
    const weight = (taper * taper) / (r1 * r2);
    const [gr, gi] = z2 < SERIES_BELOW ? bulgeSeries(zr, zi) : bulge(zr, zi, coshR - sincR, coshI - sincI);
    numR += weight * gr;
    numI += weight * gi;
  }
  const q2 = qr * qr + qi * qi;
  out[at + 4] = (numR * qr + numI * qi) / q2;
  out[at + 5] = (numI * qr - numR * qi) / q2;
}

/** z·(z cosh z − sinh z)/z³ = (cosh z − sinh z / z)/z. */
function bulge(zr: number, zi: number, nr: number, ni: number): [number, number] {
  const z2 = zr * zr + zi * zi;
  return [(nr * zr + ni * zi) / z2, (ni * zr - nr * zi) / z2];
}

/** The same by z·Σ z^2n · 2(n+1)/(2n+3)!. */
function bulgeSeries(zr: number, zi: number): [number, number] {
  const sr = zr * zr - zi * zi;
  const si = 2 * zr * zi;
  let sumR = 0;
  let sumI = 0;
  for (let n = BULGE.length - 1; n >= 0; n--) {
    const next = sumR * sr - sumI * si + (BULGE[n] as number);
    sumI = sumR * si + sumI * sr;
    sumR = next;
  }
  return [sumR * zr - sumI * zi, sumR * zi + sumI * zr];
}

const BULGE = (() => {
  const terms: number[] = [];
  let factorial = 6;
  for (let n = 0; n < 8; n++) {
    terms.push((2 * (n + 1)) / factorial);
    factorial *= (2 * n + 4) * (2 * n + 5);
  }
  return terms;
})();
