/** A round length on the sheet's own scale, since a screen's is not known. */

import { scaleBar } from "../layout/tubeLayout.js";

/** @param scale px of a millimetre @param least px of the bar */
export function ScaleBar({
  right,
  y,
  scale,
  least,
}: {
  right: number;
  y: number;
  scale: number;
  least?: number | undefined;
}) {
  const bar = scaleBar(scale, least);
  return (
    <g class="scale-bar">
      <path d={`M${right - bar * scale},${y}v4h${bar * scale}v-4`} class="thin" />
      <text x={right - bar * scale - 6} y={y + 5} class="small end">
        {bar} mm
      </text>
    </g>
  );
}
