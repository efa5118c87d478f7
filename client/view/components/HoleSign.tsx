/** A hole in a row of the chart: filled closed, empty open, half for half. */
export function HoleSign({
  x,
  y,
  r,
  cover,
  first,
}: {
  x: number;
  y: number;
  r: number;
  cover: number;
  first?: boolean;
}) {
  return (
    <g>
      <circle cx={x} cy={y} r={r} class={cover === 1 ? "sign closed" : first ? "sign open first" : "sign open"} />
      {cover > 0 && cover < 1 && <path d={`M${x},${y - r}A${r},${r} 0 0 0 ${x},${y + r}Z`} class="sign closed" />}
    </g>
  );
}
