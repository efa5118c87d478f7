/** Distances of neighbouring fingers as dimensions under the holes; those beyond the hand's reach or too near stand out by form. */
import type { BoreViewData, TubeOutline } from "../../../server/src/protocol/boreView.js";
import type { TubeLayout } from "../layout/tubeLayout.js";

interface Props {
  readonly view: BoreViewData;
  readonly tube: TubeOutline;
  readonly layout: TubeLayout;
  readonly y: number;
  readonly hole: number | undefined;
}

/** Width of a number on its dimension, px. */
const LABEL = 30;

export function Hands({ view, tube, layout: { x, scale }, y, hole }: Props) {
  return (
    <g>
      {view.fingers
        .filter(({ thumb, from, to, far, near }) => !thumb || far || near || from === hole || to === hole)
        .map(({ from, to, apart, far, near, most, least }) => {
          const [a, b] = [tube.holes[from], tube.holes[to]];
          if (a === undefined || b === undefined) return null;
          const [left, right] = [x(a.at), x(b.at)];
          const fits = (b.at - a.at) * scale >= LABEL;
          const wrong = far || near;
          const limit = near
            ? `two fingers need ${least.toFixed(0)} mm: too near`
            : `the hand reaches ${most.toFixed(0)} mm${far ? ": too far" : ""}`;
          const shown = fits || wrong || from === hole || to === hole;
          return (
            <g key={`${from}-${to}`} class={wrong ? "reach far" : "reach"}>
              <title>{`${a.name} to ${b.name}: ${apart.toFixed(1)} mm; ${limit}`}</title>
              <path d={`M${left},${y - 4}v8M${left},${y}H${right}M${right},${y - 4}v8`} class="thin" />
              {shown && (
                <text x={(left + right) / 2} y={y - 4} class={wrong ? "small middle strong" : "small middle"}>
                  {wrong ? "△ " : ""}
                  {apart.toFixed(fits ? 1 : 0)}
                </text>
              )}
            </g>
          );
        })}
    </g>
  );
}
