/** How the chosen note answers: input impedance with its minimum, and the cut-off of the open holes. */
import type { BoreViewData, ResponseAnswer, Row } from "../../../server/src/protocol/boreView.js";
import { t } from "../../../server/src/words/translation.js";
import { curveLayout } from "../layout/responseCurve.js";
import { responseWords } from "../words.js";

interface Props {
  readonly view: BoreViewData;
  readonly row: Row;
  readonly response: ResponseAnswer | undefined;
  readonly width: number;
}

const HEIGHT = 220;
const PAD = { left: 52, right: 18, top: 26, bottom: 34 };

export function Response({ view, row, response, width }: Props) {
  const wide = Math.min(width, 1160) - 44;
  const box = { left: PAD.left, right: wide - PAD.right, top: PAD.top, bottom: HEIGHT - PAD.bottom };
  const layout = response && curveLayout(response.curve, box);
  if (response === undefined) return <p class="second">{t("Calculating…")}</p>;
  const words = responseWords(response, isStopped(view));
  if (layout === undefined)
    return <p>{words === "" ? t("A vessel's one resonance has no curve of registers.") : words}</p>;
  const { path, x, y, hz, decibels } = layout;
  const { predictedHz } = row;
  const { cutOffHz } = response;
  return (
    <>
      <svg class="chart" width={wide} height={HEIGHT} role="img" aria-label={t`Impedance of ${row.note}: ${words}`}>
        {decibels.map((level) => (
          <g key={level}>
            <line x1={box.left} x2={box.right} y1={y(level)} y2={y(level)} class="guide" />
            <text x={box.left - 6} y={y(level) + 4} class="small end">
              {level}
            </text>
          </g>
        ))}
        {hz.map((each) => (
          <g key={each}>
            <line x1={x(each)} x2={x(each)} y1={box.top} y2={box.bottom} class="guide" />
            <text x={x(each)} y={box.bottom + 16} class="small middle">
              {each}
            </text>
          </g>
        ))}
        <text x={box.right} y={HEIGHT - 2} class="small end">
          Hz
        </text>
        <text x={box.left - 6} y={14} class="small end">
          dB
        </text>
        {cutOffHz !== undefined && x(cutOffHz) <= box.right && (
          <g>
            <rect
              x={x(cutOffHz)}
              y={box.top}
              width={box.right - x(cutOffHz)}
              height={box.bottom - box.top}
              class="beyond"
            />
            <line x1={x(cutOffHz)} x2={x(cutOffHz)} y1={box.top} y2={box.bottom} class="cut-off" />
            <text x={x(cutOffHz) - 4} y={box.top - 6} class="small end">{t`cut-off ${cutOffHz.toFixed(0)}`}</text>
          </g>
        )}
        <path d={path} class="curve" />
        {predictedHz !== undefined && (
          <g>
            <line x1={x(predictedHz)} x2={x(predictedHz)} y1={box.top} y2={box.bottom} class="note-line" />
            <text x={x(predictedHz) + 4} y={box.top - 6} class="small">
              {row.note}
            </text>
          </g>
        )}
      </svg>
      <p class="second">{words}</p>
      {response.breath !== undefined && <p class="second">{response.breath}</p>}
    </>
  );
}

function isStopped({ outline: { body } }: BoreViewData): boolean {
  return body.kind === "pipes" || (body.kind === "tube" && body.foot === "stopped");
}
