/** Another text of an open design, compared with it: note by note for a page, and the steps of its notes for the hints. */
import { LineIndex } from "../document/lineIndex.js";
import { compareDesigns, type Design } from "../review/compareDesigns.js";
import type { Compared } from "../review/compared.js";
import { NOTICEABLE } from "../review/notes.js";
import { markdownReport } from "../review/reports/markdown.js";
import { step } from "../review/verdict.js";
import { analysedVersion } from "../review/version.js";
import { t } from "../words/translation.js";
import type { DesignContext } from "./designContext.js";
import { designContext } from "./designs.js";

/** What a client sends of the other text. */
export interface OtherText {
  /** Names its syntax by its ending. */
  readonly name: string;
  readonly text: string;
  /** When or where it was, in words: `since the last commit`. */
  readonly since: string;
}

/** Undefined for anything that is none. */
export function readOtherText(given: unknown): OtherText | undefined {
  const { name, text, since } = (typeof given === "object" && given !== null ? given : {}) as Record<string, unknown>;
  if (typeof name !== "string" || typeof text !== "string") return undefined;
  return { name, text, since: typeof since === "string" ? since : "" };
}

/** The other text read by the settings of the design that it is compared with. */
export function otherDesign({ settings, client }: DesignContext, { name, text }: OtherText): DesignContext {
  return designContext(
    { uri: `other:/${encodeURIComponent(name)}`, version: 0, getText: () => text },
    settings,
    client,
  );
}

/** The analyses of both are worked out here where they are not yet; so are the findings, if `names` of a report are given. @throws Cancelled */
export function comparedWith(
  design: DesignContext,
  other: DesignContext,
  shouldStop: () => boolean,
  names?: readonly [old: string, next: string],
): readonly Compared[] {
  return compareDesigns(designsOf(other, names?.[0], shouldStop), designsOf(design, names?.[1], shouldStop), true);
}

export function comparisonPage(compared: readonly Compared[]): string {
  return [`# ${t("Comparison")}`, "", ...markdownReport(compared, true)].join("\n");
}

/** By document and place in its list of fingerings: `−3 → +12`, of notes that changed. */
export function noteSteps(compared: readonly Compared[]): ReadonlyMap<string, string> {
  const steps = new Map<string, string>();
  for (const each of compared) {
    if (each.kind !== "both") continue;
    const { notes, next } = each.comparison;
    for (const note of notes) {
      if (note.pair.next === undefined || Math.abs(note.change ?? 0) < NOTICEABLE) continue;
      steps.set(stepKey(next.document.index, note.pair.next), step(note, next.analysis.tolerance));
    }
  }
  return steps;
}

export function stepKey(document: number, fingering: number): string {
  return `${document} ${fingering}`;
}

function designsOf(context: DesignContext, file: string | undefined, shouldStop: () => boolean): readonly Design[] {
  const lines = new LineIndex(context.file.text);
  return context.file.documents.map((document, index) => {
    const { name } = document.resolution.instrument;
    const version = () =>
      analysedVersion(
        document,
        context.analysis(document, shouldStop),
        file === undefined ? [] : context.findings(document, shouldStop),
      );
    return { path: "", index, name, text: "", side: { file: file ?? "", lines, name }, version };
  });
}
