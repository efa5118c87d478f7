/** Findings in SARIF 2.1.0 (OASIS standard), as far as GitHub's code scanning reads it ("SARIF support for code scanning"). */
import { createHash } from "node:crypto";
import { isAbsolute, relative, resolve, sep } from "node:path";
import { pathToFileURL } from "node:url";
import type {
  ArtifactLocation,
  Fix,
  Location,
  Log,
  PhysicalLocation,
  Region,
  ReportingDescriptor,
  Result,
} from "sarif";
import type { Span } from "../../document/span.js";
import { jsonText } from "../../escape/json.js";
import { sarifMessage } from "../../escape/sarifMessage.js";
import type { RuleCode, Severity } from "../../instrument/finding.js";
import { RULE_REGISTRY } from "../../make/ruleRegistry.js";
import type { CheckedFile, CheckedFinding } from "../check/checked.js";
import { rulePage } from "./rulePages.js";

const LEVEL: Record<Severity, "error" | "warning" | "note"> = {
  error: "error",
  warning: "warning",
  information: "note",
  hint: "note",
};

/** Where paths of the report begin: the folder the program runs in, in a workflow the repository's. */
const ROOT = "%SRCROOT%";

export interface SarifTool {
  readonly version: string;
  /** Address of the project, which a release writes into its package; a build from sources names none. */
  readonly homepage?: string | undefined;
  /** Folder of the pages that explain the rules. */
  readonly rulePages: string;
}

export function sarifReport(checked: readonly CheckedFile[], tool: SarifTool): string {
  const codes = [...new Set(checked.flatMap(({ findings }) => findings.map(({ code }) => code)))].sort();
  const { version, homepage } = tool;
  const log: Log = {
    $schema: "https://json.schemastore.org/sarif-2.1.0.json",
    version: "2.1.0",
    runs: [
      {
        tool: {
          driver: {
            name: "borewright",
            semanticVersion: version,
            ...(homepage === undefined ? {} : { informationUri: homepage }),
            rules: codes.map((code) => ruleOf(code, tool.rulePages)),
          },
        },
        originalUriBaseIds: { [ROOT]: { description: { text: "The folder that the check ran in." } } },
        // Columns count UTF-16 units, as in editors.
        columnKind: "utf16CodeUnits",
        results: checked.flatMap((file) => resultsOf(file, codes)),
      },
    ],
  };
  return jsonText(log);
}

/** Help is shown as it is written: it takes no arguments, so that braces in its examples stay single. */
function ruleOf(code: RuleCode, folder: string): ReportingDescriptor {
  const { summary, description, markdown } = rulePage(folder, code);
  return {
    id: code,
    name: code.replace(/(?:^|[/-])(\w)/g, (_, letter: string) => letter.toUpperCase()),
    shortDescription: { text: sarifMessage(summary) },
    fullDescription: { text: sarifMessage(description) },
    help: { text: sarifMessage(description), markdown },
    defaultConfiguration: { level: LEVEL[RULE_REGISTRY[code]?.severity ?? "warning"] },
    properties: { tags: ["instrument", code.replace(/\/.*/, "")] },
  };
}

function resultsOf(file: CheckedFile, codes: readonly string[]): Result[] {
  const seen = new Map<string, number>();
  return file.findings.map(({ code, severity, message, identity, span, related = [], fixes = [] }) => {
    const print = fingerprint(identity);
    const count = (seen.get(print) ?? 0) + 1;
    seen.set(print, count);
    return {
      ruleId: code,
      ruleIndex: codes.indexOf(code),
      level: LEVEL[severity],
      message: { text: sarifMessage(message) },
      locations: [{ physicalLocation: placeOf(file, span) }],
      ...(related.length === 0 ? {} : { relatedLocations: related.map((each, id) => relatedPlace(file, each, id)) }),
      ...(fixes.length === 0 ? {} : { fixes: fixes.map((fix) => fixOf(file, fix)) }),
      // By its rule and its place in the design, so that a finding is the same one when lines or numbers have changed.
      partialFingerprints: { primaryLocationLineHash: `${print}:${count}` },
    };
  });
}

function relatedPlace(file: CheckedFile, { span, message }: { span: Span; message: string }, index: number): Location {
  return { id: index + 1, message: { text: sarifMessage(message) }, physicalLocation: placeOf(file, span) };
}

function placeOf({ file, lines }: CheckedFile, span: Span): PhysicalLocation {
  return { artifactLocation: artifactOf(file), region: regionOf(lines, span) };
}

function regionOf(lines: CheckedFile["lines"], span: Span): Region {
  const [start, end] = [lines.position(span.start), lines.position(span.end)];
  return {
    startLine: start.line + 1,
    startColumn: start.column + 1,
    endLine: end.line + 1,
    endColumn: end.column + 1,
  };
}

/** One of several changes, each of which would do (§3.55). */
function fixOf({ file, lines }: CheckedFile, { title, edits }: NonNullable<CheckedFinding["fixes"]>[number]): Fix {
  const replacements = edits.map(({ span, text }) => ({
    deletedRegion: regionOf(lines, span),
    ...(text === "" ? {} : { insertedContent: { text } }),
  }));
  return {
    description: { text: sarifMessage(title) },
    artifactChanges: [{ artifactLocation: artifactOf(file), replacements }],
  };
}

/** Relative to where the program runs, which is what services match with a repository's files; else the whole address. */
function artifactOf(file: string): ArtifactLocation {
  const path = relative("", resolve(file));
  if (isAbsolute(path) || path === ".." || path.startsWith(`..${sep}`)) return { uri: pathToFileURL(file).href };
  return { uri: path.split(sep).map(encodeURIComponent).join("/"), uriBaseId: ROOT };
}

/** Sixteen hexadecimal digits, as GitHub's own are long. */
function fingerprint(text: string): string {
  return createHash("sha256").update(text).digest("hex").slice(0, 16);
}
