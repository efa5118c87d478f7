/**
 * Radiation of a pipe's blunt open end alone, by finite elements: axisymmetric Helmholtz equation, nine-node elements on a grid that narrows toward both
 * edges, absorbing layers around. Pipe of radius 1 and outer radius `outer`, driven 4 radii before its end. Writes blunt-end.json, rows of ka,
 * outer radius, |R|, end correction over the radius: `node test/reference/cylinder/bluntEnd.mjs`, some minutes. No code of this project.
 */
import { writeFileSync } from "node:fs";

const LENGTH = 4;
const GAUSS = [-Math.sqrt(0.6), 0, Math.sqrt(0.6)];
const WEIGHTS = [5 / 9, 8 / 9, 5 / 9];
const shapes = (t) => [(t * (t - 1)) / 2, 1 - t * t, (t * (t + 1)) / 2];
const slopes = (t) => [t - 0.5, -2 * t, t + 0.5];

/** Points from `from` to `to`, the first step about `first`, growing by `ratio`, none above `most`. */
function graded(from, to, first, ratio, most) {
  const steps = [];
  const span = Math.abs(to - from);
  for (let sum = 0, step = first; sum < span; step = Math.min(step * ratio, most)) {
    steps.push(step);
    sum += step;
  }
  const scale = span / steps.reduce((a, b) => a + b, 0);
  let x = from;
  return [from, ...steps.map((step) => (x += Math.sign(to - from) * step * scale))];
}
const joined = (...parts) => [...new Set(parts.flat().map((x) => Number(x.toFixed(12))))].sort((a, b) => a - b);

export function end(k, outer, fine = 1) {
  const first = 0.02 / fine;
  const ratio = 1 + 0.6 / fine;
  const layer = 3 / k;
  const far = Math.max(3 * outer, 2.5 / k);
  const coarse = 0.4 / k / fine;
  const middle = (1 + outer) / 2;
  const rs = joined(
    graded(1, 0, first, ratio, 0.4),
    graded(1, middle, first, ratio, 1),
    graded(outer, middle, first, ratio, 1),
    graded(outer, far, first, ratio, coarse),
    graded(far, far + layer, layer / (12 * fine), 1, 1e9),
  );
  const zs = joined(
    graded(0, far, first, ratio, coarse),
    graded(far, far + layer, layer / (12 * fine), 1, 1e9),
    graded(0, -LENGTH, first, ratio, 0.8),
    graded(-LENGTH, -far - LENGTH, 0.8, ratio, coarse),
    graded(-far - LENGTH, -far - LENGTH - layer, layer / (12 * fine), 1, 1e9),
  );
  const nr = 2 * (rs.length - 1) + 1;
  const nz = 2 * (zs.length - 1) + 1;
  const n = nr * nz;
  const band = 2 * nr + 3;
  const re = new Float64Array(n * band);
  const im = new Float64Array(n * band);
  const fr = new Float64Array(n);
  const fi = new Float64Array(n);
  const used = new Uint8Array(n);
  // Stretch s = 1 − jσ/k, σ quadratic over the layer, six nepers in all.
  const sigma = (depth) => (depth <= 0 ? 0 : ((3 * 6) / layer) * (depth / layer) ** 2);
  const integral = (depth) => (depth <= 0 ? 0 : 6 * (depth / layer) ** 3);
  const depthZ = (z) => Math.max(z - far, -far - LENGTH - z);
  const mul = (a, b) => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];
  const div = (a, b) => {
    const d = b[0] ** 2 + b[1] ** 2;
    return [(a[0] * b[0] + a[1] * b[1]) / d, (a[1] * b[0] - a[0] * b[1]) / d];
  };
  for (let j = 0; j + 1 < zs.length; j++)
    for (let i = 0; i + 1 < rs.length; i++) {
      const [r0, r1, z0, z1] = [rs[i], rs[i + 1], zs[j], zs[j + 1]];
      const [r, z] = [(r0 + r1) / 2, (z0 + z1) / 2];
      if ((r > 1 && r < outer && z < 0) || (r < 1 && z < -LENGTH)) continue;
      const nodes = [];
      for (let q = 0; q < 3; q++) for (let p = 0; p < 3; p++) nodes.push((2 * j + q) * nr + 2 * i + p);
      for (const node of nodes) used[node] = 1;
      GAUSS.forEach((gz, b) => {
        GAUSS.forEach((gr, a) => {
          const [rr, zz] = [r + (gr * (r1 - r0)) / 2, z + (gz * (z1 - z0)) / 2];
          const sr = [1, -sigma(rr - far) / k];
          const sz = [1, -sigma(depthZ(zz)) / k];
          const radius = [rr, -integral(rr - far) / k];
          const w = (WEIGHTS[a] * WEIGHTS[b] * (r1 - r0) * (z1 - z0)) / 4;
          const cr = mul(radius, div(sz, sr));
          const cz = mul(radius, div(sr, sz));
          const cm = mul(radius, mul(sr, sz));
          const [nrS, nzS, drS, dzS] = [shapes(gr), shapes(gz), slopes(gr), slopes(gz)];
          const value = nodes.map((_, t) => nrS[t % 3] * nzS[(t / 3) | 0]);
          const dr = nodes.map((_, t) => (drS[t % 3] * nzS[(t / 3) | 0] * 2) / (r1 - r0));
          const dz = nodes.map((_, t) => (nrS[t % 3] * dzS[(t / 3) | 0] * 2) / (z1 - z0));
          for (let s = 0; s < 9; s++)
            for (let t = 0; t < 9; t++) {
              if (nodes[t] > nodes[s]) continue;
              const at = nodes[s] * band + nodes[s] - nodes[t];
              const [x, y, m] = [dr[s] * dr[t], dz[s] * dz[t], -k * k * value[s] * value[t]];
              re[at] += w * (cr[0] * x + cz[0] * y + cm[0] * m);
              im[at] += w * (cr[1] * x + cz[1] * y + cm[1] * m);
            }
        });
      });
      if (r < 1 && Math.abs(z0 + LENGTH) < 1e-9)
        GAUSS.forEach((gr, a) => {
          const w = (WEIGHTS[a] * (r1 - r0) * (r + (gr * (r1 - r0)) / 2)) / 2;
          shapes(gr).forEach((value, p) => {
            fi[nodes[p]] += k * w * value;
          });
        });
    }
  for (let i = 0; i < n; i++) if (!used[i]) re[i * band] = 1;
  const source = fi.slice();
  solve(n, band, re, im, fr, fi);
  // Mean pressure over the drive: ∫ p r dr · 2; the source is jk times its weights.
  let [pr, pi] = [0, 0];
  for (let i = 0; i < n; i++) {
    pr += (2 * source[i] * fr[i]) / k;
    pi += (2 * source[i] * fi[i]) / k;
  }
  const t = Math.tan(k * LENGTH);
  const zr = div([pr, pi - t], [1 + pi * t, -pr * t]);
  const reflection = div([zr[0] - 1, zr[1]], [zr[0] + 1, zr[1]]);
  return { modulus: Math.hypot(...reflection), length: -Math.atan2(-reflection[1], -reflection[0]) / (2 * k), n };
}

/** Symmetric complex band matrix: L D Lᵀ in place, row i holds columns i, i−1, … */
function solve(n, band, re, im, fr, fi) {
  for (let i = 0; i < n; i++) {
    const low = Math.max(0, i - band + 1);
    for (let j = low; j < i; j++) {
      let [a, b] = [re[i * band + i - j], im[i * band + i - j]];
      for (let m = Math.max(low, j - band + 1); m < j; m++) {
        const [x, y] = [re[i * band + i - m], im[i * band + i - m]];
        if (x === 0 && y === 0) continue;
        const [u, v] = [re[j * band + j - m], im[j * band + j - m]];
        a -= x * u - y * v;
        b -= x * v + y * u;
      }
      re[i * band + i - j] = a;
      im[i * band + i - j] = b;
    }
    for (let j = low; j < i; j++) {
      const [a, b] = [re[i * band + i - j], im[i * band + i - j]];
      if (a === 0 && b === 0) continue;
      const [d, e] = [re[j * band], im[j * band]];
      const norm = d * d + e * e;
      const [x, y] = [(a * d + b * e) / norm, (b * d - a * e) / norm];
      re[i * band] -= a * x - b * y;
      im[i * band] -= a * y + b * x;
      re[i * band + i - j] = x;
      im[i * band + i - j] = y;
    }
    // The stored rows below are L·D until divided; row i is L from here on, and the sums above take L of row j with L·D of row i.
    for (let j = low; j < i; j++) {
      const [x, y] = [re[i * band + i - j], im[i * band + i - j]];
      fr[i] -= x * fr[j] - y * fi[j];
      fi[i] -= x * fi[j] + y * fr[j];
    }
  }
  for (let i = 0; i < n; i++) {
    const [d, e] = [re[i * band], im[i * band]];
    const norm = d * d + e * e;
    [fr[i], fi[i]] = [(fr[i] * d + fi[i] * e) / norm, (fi[i] * d - fr[i] * e) / norm];
  }
  for (let i = n - 1; i >= 0; i--)
    for (let j = Math.max(0, i - band + 1); j < i; j++) {
      const [x, y] = [re[i * band + i - j], im[i * band + i - j]];
      fr[j] -= x * fr[i] - y * fi[i];
      fi[j] -= x * fi[i] + y * fr[i];
    }
}

if (process.argv[1]?.endsWith("bluntEnd.mjs")) {
  const rows = [];
  for (const outer of [1.03, 1.1, 1.25, 1.45, 1.7, 2, 2.6])
    for (const ka of [0.1, 0.25, 0.4, 0.6, 1]) {
      const { modulus, length } = end(ka, outer);
      rows.push([ka, outer, Number(modulus.toFixed(5)), Number(length.toFixed(5))]);
    }
  writeFileSync(
    new URL("blunt-end.json", import.meta.url),
    `[\n${rows.map((row) => `  ${JSON.stringify(row).replaceAll(",", ", ")}`).join(",\n")}\n]\n`,
  );
}
