/**
 * Last component of the solution of a complex linear system by elimination with row pivoting; matrix and right-hand side are overwritten.
 * The solution has the unit of right-hand side over matrix.
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
 * All components of the solution, written over the right side; arguments as above. NaN where a pivot vanishes.
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

/**
 * Zeroes below the diagonal by row pivoting (those zeroes are not written), two columns at once: the rest of the matrix is then gone
 * through half as often.
 */
function eliminate(n: number, re: Float64Array, im: Float64Array, bRe: Float64Array, bIm: Float64Array): void {
  let column = 0;
  for (; column + 1 < n; column += 2) {
    pivot(n, column, column, re, im, bRe, bIm);
    const first = column * n;
    const second = first + n;
    divide(n, column, re, im);
    const nr = re[first + column + 1] as number;
    const ni = im[first + column + 1] as number;
    for (let row = column + 1; row < n; row++) {
      const at = row * n + column;
      const fr = re[at] as number;
      const fi = im[at] as number;
      if (fr === 0 && fi === 0) continue;
      re[at + 1] = (re[at + 1] as number) - fr * nr + fi * ni;
      im[at + 1] = (im[at + 1] as number) - fr * ni - fi * nr;
    }
    pivot(n, column + 1, column, re, im, bRe, bIm);
    const fr = re[second + column] as number;
    const fi = im[second + column] as number;
    if (fr !== 0 || fi !== 0) {
      for (let j = column + 2; j < n; j++) {
        const sr = re[first + j] as number;
        const si = im[first + j] as number;
        re[second + j] = (re[second + j] as number) - fr * sr + fi * si;
        im[second + j] = (im[second + j] as number) - fr * si - fi * sr;
      }
      const br = bRe[column] as number;
      const bi = bIm[column] as number;
      bRe[column + 1] = (bRe[column + 1] as number) - fr * br + fi * bi;
      bIm[column + 1] = (bIm[column + 1] as number) - fr * bi - fi * br;
    }
    divide(n, column + 1, re, im);
    takeOff(n, column, re, im, bRe, bIm);
  }
}

/** Writes what each row below has of the pivot's row over its entry of `column`. */
function divide(n: number, column: number, re: Float64Array, im: Float64Array): void {
  const pr = re[column * n + column] as number;
  const pi = im[column * n + column] as number;
  const norm = pr * pr + pi * pi;
  const ir = pr / norm;
  const ii = -pi / norm;
  for (let at = (column + 1) * n + column; at < n * n; at += n) {
    const er = re[at] as number;
    const ei = im[at] as number;
    if (er === 0 && ei === 0) continue;
    re[at] = er * ir - ei * ii;
    im[at] = er * ii + ei * ir;
  }
}

/** Takes two pivots' rows off all rows below them. */
function takeOff(
  n: number,
  column: number,
  re: Float64Array,
  im: Float64Array,
  bRe: Float64Array,
  bIm: Float64Array,
): void {
  const first = column * n;
  const second = first + n;
  const b0r = bRe[column] as number;
  const b0i = bIm[column] as number;
  const b1r = bRe[column + 1] as number;
  const b1i = bIm[column + 1] as number;
  for (let row = column + 2; row < n; row++) {
    const to = row * n;
    const fr = re[to + column] as number;
    const fi = im[to + column] as number;
    const gr = re[to + column + 1] as number;
    const gi = im[to + column + 1] as number;
    if (fr === 0 && fi === 0 && gr === 0 && gi === 0) continue;
    for (let j = column + 2; j < n; j++) {
      const sr = re[first + j] as number;
      const si = im[first + j] as number;
      const tr = re[second + j] as number;
      const ti = im[second + j] as number;
      re[to + j] = (re[to + j] as number) - fr * sr + fi * si - gr * tr + gi * ti;
      im[to + j] = (im[to + j] as number) - fr * si - fi * sr - gr * ti - gi * tr;
    }
    bRe[row] = (bRe[row] as number) - fr * b0r + fi * b0i - gr * b1r + gi * b1i;
    bIm[row] = (bIm[row] as number) - fr * b0i - fi * b0r - gr * b1i - gi * b1r;
  }
}

/** Brings the row with the largest entry of `column` up to it, from column `from` on. */
function pivot(
  n: number,
  column: number,
  from: number,
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
  for (let j = from; j < n; j++) {
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
