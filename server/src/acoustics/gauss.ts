/**
 * Last component of the solution of a complex linear system by elimination with row pivoting; matrix and right side are used up.
 * @param re matrix by rows, n × n, real parts; `im` likewise; `bRe`, `bIm` right side
 * @param out receives real and imaginary part; infinity and 0 where the last pivot vanishes, as at an undamped resonance met exactly
 */
export function solveLast(
  n: number,
  re: Float64Array,
  im: Float64Array,
  bRe: Float64Array,
  bIm: Float64Array,
  out: Float64Array,
): void {
  eliminate(n, re, im, bRe, bIm);
  const pr = re[n * n - 1] as number;
  const pi = im[n * n - 1] as number;
  const norm = pr * pr + pi * pi;
  if (norm === 0) {
    out[0] = Number.POSITIVE_INFINITY;
    out[1] = 0;
    return;
  }
  const br = bRe[n - 1] as number;
  const bi = bIm[n - 1] as number;
  out[0] = (br * pr + bi * pi) / norm;
  out[1] = (bi * pr - br * pi) / norm;
}

/**
 * All components of the solution, written over the right side; arguments as above. Not numbers where a pivot vanishes.
 */
export function solveAll(n: number, re: Float64Array, im: Float64Array, bRe: Float64Array, bIm: Float64Array): void {
  eliminate(n, re, im, bRe, bIm);
  for (let row = n - 1; row >= 0; row--) {
    let br = bRe[row] as number;
    let bi = bIm[row] as number;
    for (let j = row + 1; j < n; j++) {
      const er = re[row * n + j] as number;
      const ei = im[row * n + j] as number;
      const xr = bRe[j] as number;
      const xi = bIm[j] as number;
      br -= er * xr - ei * xi;
      bi -= er * xi + ei * xr;
    }
    const pr = re[row * n + row] as number;
    const pi = im[row * n + row] as number;
    const norm = pr * pr + pi * pi;
    bRe[row] = (br * pr + bi * pi) / norm;
    bIm[row] = (bi * pr - br * pi) / norm;
  }
}

/** Zeroes below the diagonal by row pivoting (those zeroes are not written). */
function eliminate(n: number, re: Float64Array, im: Float64Array, bRe: Float64Array, bIm: Float64Array): void {
  for (let column = 0; column < n; column++) {
    pivot(n, column, re, im, bRe, bIm);
    const at = column * n;
    const pr = re[at + column] as number;
    const pi = im[at + column] as number;
    const norm = pr * pr + pi * pi;
    const ir = pr / norm;
    const ii = -pi / norm;
    for (let row = column + 1; row < n; row++) {
      const to = row * n;
      const er = re[to + column] as number;
      const ei = im[to + column] as number;
      if (er === 0 && ei === 0) continue;
      const fr = er * ir - ei * ii;
      const fi = er * ii + ei * ir;
      for (let j = column + 1; j < n; j++) {
        const sr = re[at + j] as number;
        const si = im[at + j] as number;
        re[to + j] = (re[to + j] as number) - fr * sr + fi * si;
        im[to + j] = (im[to + j] as number) - fr * si - fi * sr;
      }
      const sr = bRe[column] as number;
      const si = bIm[column] as number;
      bRe[row] = (bRe[row] as number) - fr * sr + fi * si;
      bIm[row] = (bIm[row] as number) - fr * si - fi * sr;
    }
  }
}

/** Brings the row with the largest entry of `column` up to it. */
function pivot(
  n: number,
  column: number,
  re: Float64Array,
  im: Float64Array,
  bRe: Float64Array,
  bIm: Float64Array,
): void {
  let best = column;
  let size = -1;
  for (let row = column; row < n; row++) {
    const r = re[row * n + column] as number;
    const i = im[row * n + column] as number;
    const s = r * r + i * i;
    if (s > size) {
      size = s;
      best = row;
    }
  }
  if (best === column) return;
  for (let j = column; j < n; j++) {
    swap(re, column * n + j, best * n + j);
    swap(im, column * n + j, best * n + j);
  }
  swap(bRe, column, best);
  swap(bIm, column, best);
}

function swap(values: Float64Array, i: number, j: number): void {
  const kept = values[i] as number;
  values[i] = values[j] as number;
  values[j] = kept;
}
