/** Sheets as files: a PDF holds all of them; SVG files are one per sheet, numbered from the second on. */
import type { MadeFile } from "../file/madeFile.js";
import { pdf } from "./pdf.js";
import type { Sheet } from "./sheet.js";
import { svg } from "./svg.js";

export type SheetFormat = "pdf" | "svg";

export function sheetFiles(sheets: readonly Sheet[], format: SheetFormat): readonly MadeFile[] {
  if (format === "pdf") return [{ suffix: "", bytes: pdf(sheets) }];
  return sheets.map((sheet, i) => ({
    suffix: i === 0 ? "" : `-${i + 1}`,
    bytes: new TextEncoder().encode(svg(sheet)),
  }));
}
