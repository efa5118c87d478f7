/** Distances of neighbouring fingers as dimensions under the holes; those beyond the hand's reach stand out by form. */
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
        .filter(({ thumb, from, to, far }) => !thumb || far || from === hole || to === hole)
        .map(({ from, to, apart, far, most }) => {
          const [a, b] = [tube.holes[from], tube.holes[to]];
          if (a === undefined || b === undefined) return null;
          const [left, right] = [x(a.at), x(b.at)];
          const fits = (b.at - a.at) * scale >= LABEL;
          const shown = fits || far || from === hole || to === hole;
          return (
            <g key={`${from}-${to}`} class={far ? "reach far" : "reach"}>
              <title>
                {`${a.name} to ${b.name}: ${apart.toFixed(1)} mm; the hand reaches ${most.toFixed(0)} mm${far ? ": too far" : ""}`}
              </title>
              <path d={`M${left},${y - 4}v8M${left},${y}H${right}M${right},${y - 4}v8`} class="thin" />
              {shown && (
                <text x={(left + right) / 2} y={y - 4} class={far ? "small middle strong" : "small middle"}>
                  {far ? "△ " : ""}
                  {apart.toFixed(fits ? 1 : 0)}
                </text>
              )}
            </g>
          );
        })}
    </g>
  );
}
