/** A sheet as SVG 1.1, one unit of which is a millimetre on paper. */
import { xmlText } from "../../escape/xml.js";
import {
  AXIS_DASHES,
  type Fill,
  GREY,
  LINE_WIDTH,
  type LineKind,
  type Mark,
  type Sheet,
  shortNumber,
} from "./sheet.js";

export function svg({ width, height, title, marks }: Sheet): string {
  return [
    '<?xml version="1.0" encoding="UTF-8"?>\n',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">\n`,
    `<title>${xmlText(title)}</title>\n<rect width="${width}" height="${height}" fill="#fff"/>\n`,
    '<g font-family="Helvetica, Arial, sans-serif" stroke-linejoin="round">\n',
    ...marks.map((mark) => `${markText(mark)}\n`),
    "</g>\n</svg>\n",
  ].join("");
}

function markText(mark: Mark): string {
  switch (mark.kind) {
    case "path": {
      const path = mark.points.map(([x, y], i) => `${i === 0 ? "M" : "L"}${n(x)} ${n(y)}`).join("");
      return `<path d="${path}${mark.closed ? "Z" : ""}" ${strokeText(mark.line)} ${fillText(mark.fill)}/>`;
    }
    case "circle":
      return `<circle cx="${n(mark.at[0])}" cy="${n(mark.at[1])}" r="${n(mark.radius)}" ${strokeText(mark.line)} ${fillText(mark.fill)}/>`;
    case "text": {
      const [x, y] = mark.at;
      const turn = mark.upward ? ` transform="rotate(-90 ${n(x)} ${n(y)})"` : "";
      return `<text x="${n(x)}" y="${n(y)}" font-size="${n(mark.size)}" text-anchor="${mark.anchor}"${turn}>${xmlText(mark.text)}</text>`;
    }
  }
}

function strokeText(line: LineKind): string {
  if (line === "none") return 'stroke="none"';
  const dashes = line === "axis" ? ` stroke-dasharray="${AXIS_DASHES.join(" ")}"` : "";
  return `stroke="#000" stroke-width="${LINE_WIDTH[line]}"${dashes}`;
}

function fillText(fill: Fill): string {
  if (fill === "none") return 'fill="none"';
  const level = Math.round(GREY[fill] * 255)
    .toString(16)
    .padStart(2, "0");
  return `fill="#${level}${level}${level}"`;
}

function n(value: number): string {
  return shortNumber(value, 3);
}
