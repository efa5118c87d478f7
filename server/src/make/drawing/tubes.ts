/** A pan pipe's tubes from the front, as a chart shows them. */
import type { PanPipe } from "../../instrument/body.js";
import type { Pen, Point } from "./sheet.js";

/** mm on paper. */
export interface Tube {
  readonly width: number;
  readonly length: number;
}

/** mm on paper of the longest pipe. */
const LONGEST = 90;

/** To one scale, so that the row looks as it does in the hand. Undefined for a pipe that is not described. @param widest mm on paper */
export function tubesOf(pipes: readonly PanPipe[], widest: number): readonly (Tube | undefined)[] {
  const sizes = pipes.map(({ column }): Tube | undefined => {
    const [first, last] = [column?.bore[0], column?.bore.at(-1)];
    return first && last && { length: last.x - first.x, width: 2 * last.radius };
  });
  const most = (size: keyof Tube) => Math.max(...sizes.map((tube) => tube?.[size] ?? 0));
  const scale = Math.min(LONGEST / most("length"), widest / most("width"));
  return sizes.map((tube) => tube && { width: scale * tube.width, length: scale * tube.length });
}

/** Open above. @param number below it, from the row's beginning */
export function drawTube(pen: Pen, { width, length }: Tube, [x, y]: Point, number: number): void {
  pen.line(
    [
      [x - width / 2, y],
      [x - width / 2, y + length],
      [x + width / 2, y + length],
      [x + width / 2, y],
    ],
    "outline",
  );
  pen.text([x, y + length + 5], String(number), { size: 3, anchor: "middle" });
}
