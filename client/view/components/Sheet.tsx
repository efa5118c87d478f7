/** What section and rows share: hatchings, and the marks of holes. */
export function Hatchings() {
  return (
    <defs>
      <pattern id="wood" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <line x1="0" y1="0" x2="0" y2="5" class="hatch" />
      </pattern>
      <pattern id="block" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
        <line x1="0" y1="0" x2="0" y2="5" class="hatch" />
      </pattern>
    </defs>
  );
}

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
