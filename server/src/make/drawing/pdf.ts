/**
 * Sheets as PDF 1.4 (ISO 32000-1), one per page, all vectors, the same bytes every time. Text is Helvetica, one of the fonts that
 * every reader has (9.6.2.2), in WinAnsiEncoding: signs beyond Latin 1 become `?`, which the SVG keeps.
 */
import { AXIS_DASHES, GREY, LINE_WIDTH, type Mark, type Point, type Sheet, shortNumber } from "./sheet.js";

/** Points of 1/72 inch in a millimetre. */
const POINT = 72 / 25.4;

export function pdf(sheets: readonly Sheet[]): Uint8Array {
  const pages = sheets.map((_, i) => 4 + 2 * i);
  const objects = [
    "<< /Type /Catalog /Pages 2 0 R >>",
    `<< /Type /Pages /Count ${sheets.length} /Kids [${pages.map((page) => `${page} 0 R`).join(" ")}] >>`,
    "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>",
    ...sheets.flatMap((sheet, i) => {
      const content = contentOf(sheet);
      const box = `[0 0 ${n(sheet.width * POINT)} ${n(sheet.height * POINT)}]`;
      return [
        `<< /Type /Page /Parent 2 0 R /MediaBox ${box} /Resources << /Font << /F1 3 0 R >> >> /Contents ${5 + 2 * i} 0 R >>`,
        `<< /Length ${content.length} >>\nstream\n${content}\nendstream`,
      ];
    }),
  ];
  let text = "%PDF-1.4\n";
  const places = objects.map((object, i) => {
    const place = text.length;
    text += `${i + 1} 0 obj\n${object}\nendobj\n`;
    return place;
  });
  const table = places.map((place) => `${String(place).padStart(10, "0")} 00000 n \n`).join("");
  text += `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${table}`;
  text += `trailer\n<< /Size ${objects.length + 1} /Root 1 0 R >>\nstartxref\n${text.indexOf("xref\n0 ")}\n%%EOF\n`;
  // One byte a sign: everything above is Latin 1.
  return Uint8Array.from(text, (sign) => sign.charCodeAt(0));
}

function contentOf({ height, marks }: Sheet): string {
  // From millimetres downward to points upward.
  const start = `${n(POINT)} 0 0 ${n(-POINT)} 0 ${n(height * POINT)} cm 1 j`;
  return [start, ...marks.map(markText)].join("\n");
}

function markText(mark: Mark): string {
  if (mark.kind === "text") return textOf(mark);
  const { line, fill } = mark;
  const paint = fill === "none" ? (line === "none" ? "n" : "S") : line === "none" ? "f" : "B";
  const dashes = line === "axis" ? `[${AXIS_DASHES.join(" ")}] 0 d` : "[] 0 d";
  const grey = fill === "none" ? "" : `${GREY[fill]} g `;
  const shape = mark.kind === "circle" ? circle(mark.at, mark.radius) : path(mark.points, mark.closed);
  return `${grey}0 G ${LINE_WIDTH[line]} w ${dashes} ${shape} ${paint}`;
}

function path(points: readonly Point[], closed: boolean): string {
  const steps = points.map(([x, y], i) => `${n(x)} ${n(y)} ${i === 0 ? "m" : "l"}`);
  return `${steps.join(" ")}${closed ? " h" : ""}`;
}

/** Four Bézier curves whose handles are this share of the radius: off by less than 0.03 % of it. */
const HANDLE = 0.5523;

function circle([x, y]: Point, r: number): string {
  const h = HANDLE * r;
  const curve = (...at: number[]) => `${at.map(n).join(" ")} c`;
  return [
    `${n(x + r)} ${n(y)} m`,
    curve(x + r, y + h, x + h, y + r, x, y + r),
    curve(x - h, y + r, x - r, y + h, x - r, y),
    curve(x - r, y - h, x - h, y - r, x, y - r),
    curve(x + h, y - r, x + r, y - h, x + r, y),
    "h",
  ].join(" ");
}

function textOf({ at: [x, y], text, size, anchor, upward }: Extract<Mark, { kind: "text" }>): string {
  const latin = winAnsi(text);
  const back = anchor === "start" ? 0 : (anchor === "middle" ? 0.5 : 1) * widthOf(latin) * size;
  const matrix = upward ? [0, -1, -1, 0, x, y + back] : [1, 0, 0, -1, x - back, y];
  const literal = latin.replace(/[\\()]/g, "\\$&");
  return `0 g BT /F1 ${n(size)} Tf ${matrix.map(n).join(" ")} Tm (${literal}) Tj ET`;
}

/** Signs of ours that WinAnsiEncoding has at another place or not at all. */
const STAND_INS: Readonly<Record<string, string>> = {
  "−": "-",
  "–": "-",
  "⌀": "\u00d8",
  "♯": "#",
  "♭": "b",
  "“": '"',
  "”": '"',
  "’": "'",
  "…": "...",
};

function winAnsi(text: string): string {
  return [...text]
    .map((sign) => STAND_INS[sign] ?? sign)
    .join("")
    .replace(/[^\u0020-\u007e\u00a0-\u00ff]/gu, "?");
}

/** Roughly, of Helvetica's advance widths (Adobe's font metrics, from memory), in letter sizes: enough to centre a line. */
function widthOf(text: string): number {
  return [...text].reduce((sum, sign) => sum + advance(sign), 0);
}

function advance(sign: string): number {
  if (/[ijlI.,:;'|!]/.test(sign)) return 0.25;
  if (/[ \-()/ftr[\]]/.test(sign)) return 0.3;
  if (/[A-Z%mwMW#@]/.test(sign)) return 0.7;
  return 0.556;
}

function n(value: number): string {
  return shortNumber(value, 4);
}
