/** The standing wave in the bore as a shape to be filled, and its pressure nodes. */

export interface WaveShape {
  readonly path: string;
  /** Shares of the way from mouth to foot at which the pressure vanishes. */
  readonly nodes: readonly number[];
}

/**
 * @param pressure evenly spread from mouth to foot, ±1
 * @param at pixels along and the half height there, by the share of the way
 */
export function waveShape(
  pressure: readonly number[],
  at: (share: number) => { readonly x: number; readonly half: number },
  middle: number,
): WaveShape {
  const points = pressure.map((value, i) => {
    const { x, half } = at(i / (pressure.length - 1));
    return { x, reach: Math.abs(value) * half };
  });
  const line = (side: number) => points.map(({ x, reach }) => `${x.toFixed(1)},${(middle + side * reach).toFixed(1)}`);
  const nodes = pressure.flatMap((value, i) => {
    const before = pressure[i - 1];
    if (before === undefined || before * value >= 0) return [];
    return [(i - 1 + before / (before - value)) / (pressure.length - 1)];
  });
  return { path: `M${line(-1).join("L")}L${line(1).reverse().join("L")}Z`, nodes };
}
