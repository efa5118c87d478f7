/**
 * Two openings on the wall of an endless rigid cylinder of radius 1, static, each giving out evenly over its area (a circle laid flat on the unrolled wall):
 * mean pressure at the one for a unit flow out of the other, over jkρc; inside less the plane wave's −z/2π. Sum over orders m and integral over wave
 * numbers κ of I_m/κI′_m (inside) and K_m/(−κK′_m) (outside) times the circles' means 2J₁(δw)/(δw), w² = κ² + m². By continued fractions; no code of
 * this project. Writes near-wall.json, rows of degrees, z, δ, inside, outside: `node test/reference/cylinder/nearWall.mjs`, 8 seconds.
 * Two opposite holes by finite elements (fem/opposite.json) lie 0.4 to 1.7 % above it at z = 0, 1.1 to 6 % at z = 1: flow is not even over a hole.
 */
import { writeFileSync } from "node:fs";

const ORDERS = 140;
const HIGHEST = 140;
const POINTS = 1400;

function besselJ1(x) {
  if (x < 8) {
    let term = x / 2;
    let sum = 0;
    for (let n = 0; n < 60; n++) {
      sum += term;
      term *= (-x * x) / 4 / ((n + 1) * (n + 2));
    }
    return sum;
  }
  // Abramowitz & Stegun 9.2.5, two terms of each: 1e-5 from 8 on.
  const angle = x - (3 * Math.PI) / 4;
  const p = 1 + 15 / (128 * x * x);
  const q = 3 / (8 * x) - 105 / (1024 * x ** 3);
  return Math.sqrt(2 / (Math.PI * x)) * (p * Math.cos(angle) - q * Math.sin(angle));
}

const mean = (x) => (x < 1e-6 ? 1 : (2 * besselJ1(x)) / x);

/** K₀/K₁ by their integrals ∫ exp(−x cosh t) cosh νt dt. */
function ratioOfK(x) {
  let [zero, one] = [0, 0];
  for (let i = 0; i < 1200; i++) {
    const cosh = Math.cosh(i * 0.02);
    const value = (i === 0 ? 0.5 : 1) * Math.exp(-x * (cosh - 1));
    zero += value;
    one += value * cosh;
  }
  return zero / one;
}

const waves = Array.from({ length: POINTS }, (_, i) => {
  const u = (i + 0.5) / POINTS;
  const kappa = HIGHEST * u ** 3;
  const above = new Float64Array(ORDERS + 62);
  let ratio = 0;
  for (let m = ORDERS + 60; m >= 1; m--) {
    ratio = 1 / ((2 * m) / kappa + ratio);
    above[m - 1] = ratio;
  }
  const inside = Array.from({ length: ORDERS + 1 }, (_, m) => 1 / (m + kappa * above[m]));
  const outside = [];
  let below = ratioOfK(kappa);
  for (let m = 0; m <= ORDERS; m++) {
    outside.push(m === 0 ? below / kappa : 1 / (m + kappa * below));
    if (m > 0) below = 1 / (below + (2 * m) / kappa);
  }
  return { kappa, width: (HIGHEST * 3 * u * u) / POINTS, inside, outside };
});

function coupling(degrees, z, size, side) {
  const angle = (degrees * Math.PI) / 180;
  let sum = 0;
  for (const wave of waves) {
    let orders = 0;
    wave[side].forEach((value, m) => {
      orders += (m === 0 ? 1 : 2 * Math.cos(m * angle)) * value * mean(size * Math.hypot(wave.kappa, m)) ** 2;
    });
    if (side === "inside") orders -= 2 / wave.kappa ** 2;
    sum += orders * Math.cos(wave.kappa * z) * wave.width;
  }
  // Of the plane wave's part, what lies beyond the highest wave number; at any other z it cancels.
  if (side === "inside" && z === 0) sum -= 2 / HIGHEST;
  return sum / (2 * Math.PI ** 2);
}

const rows = [];
for (const size of [0.15, 0.3, 0.45])
  for (const degrees of [0, 20, 38, 65, 90, 120, 150, 180])
    for (const z of [0, 0.3, 0.6, 0.9, 1.3, 1.8]) {
      if (Math.hypot((degrees * Math.PI) / 180, z) < 2 * size) continue;
      const [inside, outside] = ["inside", "outside"].map((side) => coupling(degrees, z, size, side).toFixed(5));
      rows.push([degrees, z, size, Number(inside), Number(outside)]);
    }
writeFileSync(
  new URL("near-wall.json", import.meta.url),
  `[\n${rows.map((row) => `  ${JSON.stringify(row).replaceAll(",", ", ")}`).join(",\n")}\n]\n`,
);
