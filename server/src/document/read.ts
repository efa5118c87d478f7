/** Reads a design file: text in, instruments and findings out. */
import { resolveInstrument } from "../instrument/check.js";
import type { DesignDocument, DesignFile, PlacedFinding, Syntax } from "./designFile.js";
import { parseJson } from "./jsonText.js";
import { MOST_TOKENS, unfit } from "./nesting.js";
import type { ParsedDocument, TextProblem } from "./parsed.js";
import { placeFinding } from "./place.js";
import { dataOf } from "./treeData.js";
import { parseYaml } from "./yamlText.js";

/** A design of hundreds of holes and fingerings is 50 kB; beyond this size, a file is something else. In UTF-16 units. */
export const LARGEST_FILE = 1_000_000;

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
  const tooDeep =
    "Values stand inside one another too deep to be read. A design needs four or five levels: is a bracket or quote not closed?";
  const why = unfit(text, syntax);
  if (why === "too deep") return refused("file/too-deep", tooDeep);
  if (why === "too much") {
    const message = `This file has more than ${MOST_TOKENS} words and signs and is not read: no design has half as many. Put several designs into several files.`;
    return refused("file/too-large", message);
  }
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
  const fromDesign = told ? [] : resolution.findings;
  // Each is looked up in the tree: a file of nothing but faults must not be placed whole.
  const placed = fromDesign.slice(0, MOST_FINDINGS).map((finding) => placeFinding({ root, span }, finding));
  const findings = capped([...fromText, ...placed], fromText.length + fromDesign.length);
  return { index, span, text, syntax, root, resolution, findings };
}

function capped(findings: readonly PlacedFinding[], count: number): readonly PlacedFinding[] {
  const first = findings[0];
  if (count <= MOST_FINDINGS || first === undefined) return findings;
  const message = `${count - MOST_FINDINGS} more findings are not shown. Put these right first.`;
  const note = { code: "file/more-findings", severity: "information", message, path: [], span: first.span } as const;
  return [...findings.slice(0, MOST_FINDINGS), note];
}
