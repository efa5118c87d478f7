/** A design made into files: the solid, the drawing, the chart. */
import packageJson from "../../../../package.json";
import { outlineOf } from "../../design/outline/index.js";
import { analyse } from "../../design/predict/analyse.js";
import type { AnalysisSettings } from "../../design/settings.js";
import type { DesignDocument, Syntax } from "../../document/designFile.js";
import { placeFinding } from "../../document/place.js";
import { readDesign } from "../../document/read.js";
import type { Span } from "../../document/span.js";
import { chartSheet } from "../../make/drawing/chart.js";
import { drawSheets } from "../../make/drawing/draw.js";
import { type SheetFormat, sheetFiles } from "../../make/drawing/files.js";
import type { MadeFile } from "../../make/file/madeFile.js";
import { CannotMake, makeSolid } from "../../make/solid/build.js";
import { type SolidFormat, solidFiles } from "../../make/solid/files.js";
import type { Mesh } from "../../make/solid/kernel.js";
import { inPlace } from "../../make/solid/together.js";
import { t } from "../../words/translation.js";

/** The instrument that is worked on. */
export interface DesignText {
  readonly text: string;
  readonly syntax: Syntax;
  readonly documentIndex: number;
  readonly settings: AnalysisSettings;
}

export type MakeWork = { readonly do: "make" } & (
  | { readonly what: "solid"; readonly format: SolidFormat }
  | { readonly what: "drawing" | "chart"; readonly format: SheetFormat }
);

/** The solid to be looked at: its parts together. */
export interface ShowWork {
  readonly do: "show";
}

export type ShowOutcome = { readonly parts: readonly (Mesh & { readonly name: string })[] } | Refused;

interface Refused {
  /** Why not, each reason with its place where it has one. */
  readonly refused: readonly { readonly message: string; readonly span?: Span }[];
}

export type MakeOutcome =
  | {
      readonly files: readonly MadeFile[];
      /** For the maker, beside the files; undefined where they say it themselves. */
      readonly sheet: string | undefined;
    }
  | Refused;

/** Rejects with Cancelled. */
export async function made(
  { text, syntax, documentIndex, settings }: DesignText,
  work: MakeWork,
  shouldStop: () => boolean,
): Promise<MakeOutcome> {
  const document = readDesign(text, syntax).documents[documentIndex];
  if (document === undefined) return refusal(t("There is no such instrument in the file."));
  const errors = document.findings.filter(({ severity }) => severity === "error");
  if (errors.length > 0) return { refused: errors };
  switch (work.what) {
    case "solid":
      return solid(document, work.format, shouldStop);
    case "drawing": {
      const { resolution } = document;
      const outline = outlineOf(resolution);
      if (outline === undefined) return refusal(t("The design does not say enough about its body to be drawn."));
      const { unitMillimetres: unit } = resolution.instrument;
      const sheets = drawSheets(outline, { paper: "A4", unit, unitName: resolution.draft.unit });
      return { files: sheetFiles(sheets, work.format), sheet: undefined };
    }
    case "chart": {
      const analysis = analyse(document.resolution.instrument, settings, { shouldStop });
      if (analysis.fingerings.length === 0)
        return refusal(t("The design has no fingerings to show: list some under `fingerings`."));
      const chart = chartSheet(analysis, { cents: false, notes: "staff", outline: outlineOf(document.resolution) });
      return { files: sheetFiles([chart], work.format), sheet: undefined };
    }
  }
}

async function solid(document: DesignDocument, format: SolidFormat, shouldStop: () => boolean): Promise<MakeOutcome> {
  try {
    return await solidFiles(document, format, `Borewright ${packageJson.version}`, shouldStop);
  } catch (error) {
    if (!(error instanceof CannotMake)) throw error;
    return { refused: error.findings.map((finding) => placeFinding(document, finding)) };
  }
}

/** Rejects with Cancelled. */
export async function shown(
  { text, syntax, documentIndex }: DesignText,
  shouldStop: () => boolean,
): Promise<ShowOutcome> {
  const document = readDesign(text, syntax).documents[documentIndex];
  if (document === undefined) return refusal(t("There is no such instrument in the file."));
  const errors = document.findings.filter(({ severity }) => severity === "error");
  if (errors.length > 0) return { refused: errors };
  try {
    const { parts } = await makeSolid(document.resolution, shouldStop);
    return { parts: parts.map((part) => ({ name: part.name, ...inPlace(part) })) };
  } catch (error) {
    if (!(error instanceof CannotMake)) throw error;
    return { refused: error.findings.map((finding) => placeFinding(document, finding)) };
  }
}

function refusal(message: string): Refused {
  return { refused: [{ message }] };
}
