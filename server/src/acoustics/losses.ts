import type { AirState } from "./airState.js";
import { wallLayer } from "./besselRatio.js";

/** Numbers one entry of `waveConstants` takes: Γ (re, im), then Zc·S/(ρc) (re, im). */
export const WAVE_CONSTANTS = 4;

const layers = new Float64Array(4);

/**
 * Propagation constant Γ, 1/m, and characteristic impedance as a multiple of ρc/S, of a round duct, exact for plane waves with
 * friction and heat conduction at the wall (Zwikker & Kosten 1949; Kirchhoff's theory in ducts wider than the free path).
 * Waves go as exp(jωt − Γx).
 * @param radius m; for ducts that are not round the hydraulic radius, 2 × area / perimeter
 * @param k ω/c, 1/m
 * @param out receives four numbers at `at`: Re Γ, Im Γ, Re and Im of the impedance ratio
 */
export function waveConstants(air: AirState, radius: number, k: number, out: Float64Array, at = 0): void {
  if (!air.losses) {
    out[at] = 0;
    out[at + 1] = k;
    out[at + 2] = 1;
    out[at + 3] = 0;
    return;
  }
  const s = radius * Math.sqrt((air.density * k * air.soundSpeed) / air.viscosity);
  wallLayer(s, layers, 0);
  wallLayer(s * Math.sqrt(air.prandtl), layers, 2);
  // Series impedance ∝ 1/(1 − F_v) = v, shunt admittance ∝ 1 + (γ−1)F_t = h; Γ = jk√(vh), ratio = v/√(vh).
  const dr = 1 - (layers[0] as number);
  const di = -(layers[1] as number);
  const norm = dr * dr + di * di;
  const vr = dr / norm;
  const vi = -di / norm;
  const g = air.heatCapacityRatio - 1;
  const hr = 1 + g * (layers[2] as number);
  const hi = g * (layers[3] as number);
  const pr = vr * hr - vi * hi;
  const pi = vr * hi + vi * hr;
  const size = Math.hypot(pr, pi);
  const qr = Math.sqrt((size + pr) / 2);
  const qi = pi / (2 * qr);
  out[at] = -k * qi;
  out[at + 1] = k * qr;
  const q2 = qr * qr + qi * qi;
  out[at + 2] = (vr * qr + vi * qi) / q2;
  out[at + 3] = (vi * qr - vr * qi) / q2;
}

/** Remembers the wave constants of one frequency by radius, for columns that differ slightly. */
export class WaveCache {
  private air: AirState | undefined;
  private k = Number.NaN;
  private readonly byRadius = new Map<number, Float64Array>();

  /** As `waveConstants`. */
  constants(air: AirState, radius: number, k: number, out: Float64Array, at: number): void {
    if (air !== this.air || k !== this.k) {
      this.air = air;
      this.k = k;
      this.byRadius.clear();
    }
    let known = this.byRadius.get(radius);
    if (known === undefined) {
      known = new Float64Array(WAVE_CONSTANTS);
      waveConstants(air, radius, k, known);
      this.byRadius.set(radius, known);
    }
    out.set(known, at);
  }
}
