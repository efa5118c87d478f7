/** Findings as the protocol's diagnostics: code, link to the rule's page, related places, and the numbers a fix needs. */

import { type Diagnostic, DiagnosticSeverity, DiagnosticTag } from "vscode-languageserver";
import type { DesignDocument, PlacedFinding } from "../document/designFile.js";
import { visible } from "../escape/visible.js";
import type { Path, Severity } from "../instrument/finding.js";
import { t } from "../words/translation.js";
import { type DesignContext, rangeOf } from "./designContext.js";

export const DIAGNOSTIC_SOURCE = "borewright";

/** What an editor fades. */
const UNUSED = "parameter/unused";

/** What a diagnostic carries back to the server when a fix is asked for. */
export interface DiagnosticData {
  readonly documentIndex: number;
  readonly path: Path;
  /** The rule's own numbers. */
  readonly data?: unknown;
}

/** Nobody reads more findings of a file this broken; the rest would only slow the editor. */
export const MOST_DIAGNOSTICS = 500;

/** Every finding of every instrument of the file, in the order of the text. */
export function diagnostics(context: DesignContext): Diagnostic[] {
  return sorted(
    context,
    context.file.documents.flatMap((document) =>
      context.findings(document).map((finding) => toDiagnostic(context, document, finding)),
    ),
  );
}

/** What a diagnostic is made from. */
type Place = Pick<DesignContext, "client" | "uri" | "text">;

/** The same of a file that is not open: nothing is asked about its diagnostics, so that they carry no numbers for fixes. */
export function closedDiagnostics(place: Place, findings: readonly PlacedFinding[]): Diagnostic[] {
  return sorted(
    place,
    findings.map((finding) => plainDiagnostic(place, finding)),
  );
}

function sorted(place: Place, all: Diagnostic[]): Diagnostic[] {
  all.sort((a, b) => a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character);
  if (all.length <= MOST_DIAGNOSTICS) return all;
  return [...all.slice(0, MOST_DIAGNOSTICS), tooMany(place, all.length)];
}

function toDiagnostic(place: Place, document: DesignDocument, finding: PlacedFinding): Diagnostic {
  const data: DiagnosticData = {
    documentIndex: document.index,
    path: finding.path,
    ...(finding.data === undefined ? {} : { data: finding.data }),
  };
  return { ...plainDiagnostic(place, finding), data };
}

function plainDiagnostic(place: Place, finding: PlacedFinding): Diagnostic {
  const { client, uri } = place;
  const href = client.codeDescription ? rulePage(client.rulePages, finding.code) : undefined;
  const related = client.relatedInformation ? (finding.related ?? []) : [];
  return {
    range: rangeOf(place, finding.span),
    severity: SEVERITIES[finding.severity],
    code: finding.code,
    ...(href === undefined ? {} : { codeDescription: { href } }),
    source: DIAGNOSTIC_SOURCE,
    ...(finding.code === UNUSED ? { tags: [DiagnosticTag.Unnecessary] } : {}),
    message: visible(finding.message),
    ...(related.length === 0
      ? {}
      : {
          relatedInformation: related.map(({ span, message }) => ({
            location: { uri, range: rangeOf(place, span) },
            message: visible(message),
          })),
        }),
  };
}

/** The page that explains a rule: `pitch/out-of-tune` has docs/rules/pitch-out-of-tune.md. */
export function rulePage(base: string | undefined, code: string): string | undefined {
  return base === undefined ? undefined : `${base}${code.replaceAll("/", "-")}.md`;
}

const SEVERITIES: Record<Severity, DiagnosticSeverity> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

function tooMany(place: Place, count: number): Diagnostic {
  return {
    range: rangeOf(place, { start: 0, end: 0 }),
    severity: DiagnosticSeverity.Information,
    source: DIAGNOSTIC_SOURCE,
    message: t`${count} findings in this file; the first ${MOST_DIAGNOSTICS} are shown.`,
  };
}
