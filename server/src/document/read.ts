/** Reads a design file: text in, instruments and findings out. */
import { resolveInstrument } from "../instrument/check.js";
import type { Finding } from "../instrument/finding.js";
import type { DesignDocument, DesignFile, PlacedFinding, Syntax } from "./designFile.js";
import { parseJson } from "./jsonText.js";
import type { ParsedDocument, TextProblem } from "./parsed.js";
import { placeFinding } from "./place.js";
import { dataOf } from "./treeData.js";
import { parseYaml } from "./yamlText.js";

/** A design of hundreds of holes and fingerings is 50 kB; beyond this size, a file is something else. In UTF-16 units. */
export const LARGEST_FILE = 1_000_000;

/** Open brackets within one another at any place, at most: the parsers are recursive, and the stack is finite. */
const MOST_OPEN_BRACKETS = 200;

/** Findings of one document that are shown; beyond, they hide rather than help. */
const MOST_FINDINGS = 200;

/** The syntax a file is read in, by its name: JSON for `….json`, YAML for anything else. */
export function syntaxOf(fileName: string): Syntax {
  return /\.json$/i.test(fileName) ? "json" : "yaml";
}

/**
 * Reads the text of a design file. Never throws and never hangs: what is wrong becomes findings, and as much as can be
 * made out of the rest is resolved. There is always at least one document.
 */
export function readDesign(text: string, syntax: Syntax): DesignFile {
  const documents = parse(text, syntax).map((parsed, index) => readDocument(parsed, index, text, syntax));
  return { text, syntax, documents };
}

function parse(text: string, syntax: Syntax): readonly ParsedDocument[] {
  const refused = (code: TextProblem["code"], message: string): readonly ParsedDocument[] => {
    const span = { start: 0, end: text.length };
    const problem: TextProblem = {
      code,
      severity: "error",
      message,
      span: { start: 0, end: Math.min(1, text.length) },
    };
    return [{ span, root: undefined, problems: [problem] }];
  };
  if (text.length > LARGEST_FILE) {
    return refused(
      "file/too-large",
      `This file is larger than ${LARGEST_FILE / 1e6} MB and is not read: no design is so large.`,
    );
  }
  const tooDeep = "Brackets stand inside one another too deep to be read. Close those that are done with.";
  if (deepestBrackets(text) > MOST_OPEN_BRACKETS) return refused("file/too-deep", tooDeep);
  try {
    return syntax === "json" ? [parseJson(text)] : parseYaml(text);
  } catch (error) {
    if (error instanceof RangeError) return refused("file/too-deep", tooDeep);
    return refused(
      "file/syntax",
      `This file cannot be read: ${error instanceof Error ? error.message : String(error)}.`,
    );
  }
}

/** Those in quotes and comments are counted too: no design has so many of them there. */
function deepestBrackets(text: string): number {
  let depth = 0;
  let deepest = 0;
  for (const [bracket] of text.matchAll(/[[\]{}]/g)) {
    depth = Math.max(0, depth + (bracket === "[" || bracket === "{" ? 1 : -1));
    deepest = Math.max(deepest, depth);
  }
  return deepest;
}

function readDocument(
  { span, root, problems }: ParsedDocument,
  index: number,
  text: string,
  syntax: Syntax,
): DesignDocument {
  const resolution = resolveInstrument(dataOf(root));
  const fromText = problems.map((problem): PlacedFinding => ({ ...problem, path: [] }));
  // What cannot be read is told once; that nothing was found in it is no news then.
  const told = root === undefined && problems.length > 0;
  const fromDesign = told ? [] : resolution.findings.map((finding: Finding) => placeFinding({ root, span }, finding));
  return { index, span, text, syntax, root, resolution, findings: capped([...fromText, ...fromDesign]) };
}

function capped(findings: readonly PlacedFinding[]): readonly PlacedFinding[] {
  const first = findings[0];
  if (findings.length <= MOST_FINDINGS || first === undefined) return findings;
  const more = findings.length - MOST_FINDINGS;
  const message = `${more} more findings are not shown. Put these right first.`;
  const note: PlacedFinding = {
    code: "file/more-findings",
    severity: "information",
    message,
    path: [],
    span: first.span,
  };
  return [...findings.slice(0, MOST_FINDINGS), note];
}
