/** Running dimensions from the mouth (ISO 129-1, running dimensioning), and names of the holes below. */
import type { BoreViewData, TubeOutline } from "../../../server/src/protocol/boreView.js";
import { staggered, type TubeLayout } from "../layout/tubeLayout.js";
import { number } from "../words.js";

interface Props {
  readonly view: BoreViewData;
  readonly tube: TubeOutline;
  readonly layout: TubeLayout;
  readonly y: number;
  readonly hole: number | undefined;
  /** Where the projection lines begin and end. */
  readonly from: number;
  readonly to: number;
}

/** Width of a number with the gap to the next, px. */
const LABEL = 40;
const ALL_FROM = 600;

export function Dimensions({ view, tube, layout, y, hole, from, to }: Props) {
  const { x, width, columns } = layout;
  const end = tube.bore.at(-1)?.at ?? tube.to;
  const inHand = hole === undefined ? undefined : tube.holes[hole];
  const all = width >= ALL_FROM ? tube.holes.map(({ at }) => at) : inHand ? [inHand.at] : [];
  const marks = [...all, end];
  const lower = staggered(marks.map(x), LABEL);
  return (
    <g>
      {tube.holes.map(({ at }, i) => (
        <line key={`l${i}`} x1={x(at)} x2={columns[i]} y1={from} y2={to} class="guide" />
      ))}
      <circle cx={x(0)} cy={y} r={3} class="origin" />
      <line x1={x(0) + 3} x2={x(end)} y1={y} y2={y} class="thin" />
      {marks.map((at, i) => (
        <g key={`m${i}`}>
          <path d={`M${x(at) - 6},${y - 3}L${x(at)},${y}L${x(at) - 6},${y + 3}`} class="thin" />
          <text x={x(at) - 3} y={lower[i] ? y + 14 : y - 5} class="small end">
            {number(at, view.unit)}
          </text>
        </g>
      ))}
      <text x={x(0) - 8} y={y + 4} class="small end">
        0
      </text>
    </g>
  );
}
