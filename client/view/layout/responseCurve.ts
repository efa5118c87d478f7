/** The impedance curve on paper: frequency on a scale of equal intervals, decibels upward. */
export interface CurveLayout {
  readonly path: string;
  readonly x: (hz: number) => number;
  readonly y: (decibels: number) => number;
  /** Round numbers along the axes. */
  readonly hz: readonly number[];
  readonly decibels: readonly number[];
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const ROUND_HZ = [100, 200, 300, 500, 700, 1000, 1500, 2000, 3000, 5000, 7000, 10000];
const STEP = 20;

/** Undefined where there is no curve. */
export function curveLayout(
  curve: readonly (readonly [hz: number, decibels: number])[],
  { left, right, top, bottom }: Box,
): CurveLayout | undefined {
  const [first, last] = [curve[0]?.[0], curve.at(-1)?.[0]];
  if (first === undefined || last === undefined || last <= first) return undefined;
  const levels = curve.map(([, decibels]) => decibels);
  const low = Math.floor(Math.min(...levels) / STEP) * STEP;
  const high = Math.max(low + STEP, Math.ceil(Math.max(...levels) / STEP) * STEP);
  const x = (hz: number) => left + (Math.log(hz / first) / Math.log(last / first)) * (right - left);
  const y = (decibels: number) => bottom - ((decibels - low) / (high - low)) * (bottom - top);
  return {
    path: `M${curve.map(([hz, decibels]) => `${x(hz).toFixed(1)},${y(decibels).toFixed(1)}`).join("L")}`,
    x,
    y,
    hz: apart(
      ROUND_HZ.filter((hz) => hz >= first && hz <= last),
      x,
    ),
    decibels: Array.from({ length: (high - low) / STEP + 1 }, (_, i) => low + i * STEP),
  };
}

/** px between numbers along an axis. */
const LABEL = 38;

/** Those that do not touch the one before. */
function apart(values: readonly number[], at: (value: number) => number): readonly number[] {
  let free = Number.NEGATIVE_INFINITY;
  return values.filter((value) => {
    const fits = at(value) - free >= LABEL;
    if (fits) free = at(value);
    return fits;
  });
}
