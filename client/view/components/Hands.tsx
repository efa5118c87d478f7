/** Distances of neighbouring fingers as dimensions under the holes; those beyond the hand's reach or too near stand out by form. */
import type { BoreViewData, TubeOutline } from "../../../server/src/protocol/boreView.js";
import { decimal } from "../../../server/src/words/decimal.js";
import { t } from "../../../server/src/words/translation.js";
import { staggered, type TubeLayout } from "../layout/tubeLayout.js";

interface Props {
  readonly view: BoreViewData;
  readonly tube: TubeOutline;
  readonly layout: TubeLayout;
  readonly y: number;
  readonly hole: number | undefined;
}

/** Width of a number on its dimension, of each of its signs, and between two numbers, px. */
const LABEL = 30;
const SIGN = 6.6;
const APART = 4;
/** Of a number over its dimension, and of one that would touch it, under it, px. */
const OVER = -4;
const UNDER = 13;

export function Hands({ view, tube, layout: { x, scale }, y, hole }: Props) {
  const { unit } = view;
  /** A hundredth of an inch is a fourth of a millimetre. */
  const inUnit = (mm: number, decimals: number) =>
    (mm / unit.millimetres).toFixed(unit.millimetres === 1 ? decimals : decimals + 1);
  const spans = view.fingers.flatMap((span) => {
    const { thumb, from, to, far, near, apart } = span;
    const inHand = from === hole || to === hole;
    const [a, b] = [tube.holes[from], tube.holes[to]];
    if (a === undefined || b === undefined || (thumb && !far && !near && !inHand)) return [];
    const fits = (b.at - a.at) * scale >= LABEL;
    const label = `${far || near ? "△ " : ""}${inUnit(apart, fits ? 1 : 0)}`;
    const shown = fits || far || near || inHand;
    return [{ ...span, names: [a.name, b.name], left: x(a.at), right: x(b.at), label: shown ? label : "" }];
  });
  const labelled = spans.filter(({ label }) => label !== "");
  const lower = staggered(
    labelled.map(({ left, right }) => (left + right) / 2),
    labelled.map(({ label }) => label.length * SIGN + APART),
  );
  return (
    <g>
      {spans.map((span) => {
        const { from, to, left, right, label, apart, far, near, most, least, names } = span;
        const wrong = far || near;
        const limit = near
          ? t`two fingers need ${inUnit(least, 0)} ${unit.name}: too near`
          : far
            ? t`the hand reaches ${inUnit(most, 0)} ${unit.name}: too far`
            : t`the hand reaches ${inUnit(most, 0)} ${unit.name}`;
        return (
          <g key={`${from}-${to}`} class={wrong ? "reach far" : "reach"}>
            <title>{t`${names.join(t(" to "))}: ${decimal(inUnit(apart, 1))} ${unit.name}; ${limit}`}</title>
            <path d={`M${left},${y - 4}v8M${left},${y}H${right}M${right},${y - 4}v8`} class="thin" />
            {label !== "" && (
              <text
                x={(left + right) / 2}
                y={y + (lower[labelled.indexOf(span)] ? UNDER : OVER)}
                class={wrong ? "small middle strong" : "small middle"}
              >
                {label}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}
