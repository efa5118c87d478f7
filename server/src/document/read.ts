/** Reads a design file: text in, instruments and findings out. */
import { drained, type Steps } from "../acoustics/steps.js";
import { t } from "../words/translation.js";
import type { DesignDocument, DesignFile, PlacedFinding, Stretch, Syntax } from "./designFile.js";
import { parseJson } from "./jsonText.js";
import { latestOr } from "./latestReadings.js";
import {
  bracketsTooDeep,
  jsonLexemes,
  MOST_LEXEMES,
  tooDeep,
  tooLarge,
  type UnplacedProblem,
  unreadable,
} from "./nesting.js";
import { documentSteps } from "./readDocument.js";
import { stretchAt } from "./stretches.js";

/** A design of hundreds of holes and fingerings is 50 kB; beyond this size, a file is something else. In UTF-16 units. */
export const LARGEST_FILE = 1_000_000;

/** Designs of one file that are read. */
const MOST_DOCUMENTS = 50;

/** The syntax a file is read in, by its name: JSON for `….json`, YAML for anything else. */
export function syntaxOf(fileName: string): Syntax {
  return /\.json$/i.test(fileName) ? "json" : "yaml";
}

/**
 * Reads the text of a design file. Never throws and never hangs: what is wrong becomes findings, and as much as can be
 * made out of the rest is resolved. There is always at least one document. What stands in `before` as well is taken over
 * from it.
 */
export function readDesign(text: string, syntax: Syntax, before?: DesignFile): DesignFile {
  const read = () => drained(readingOf(text, syntax, before));
  return before === undefined ? latestOr(text, syntax, read) : read();
}

/** The same in pieces, between which it can wait or be left. */
export function* readingOf(text: string, syntax: Syntax, before?: DesignFile): Steps<DesignFile> {
  if (text.length > LARGEST_FILE) {
    const message = t`This file is larger than ${LARGEST_FILE / 1e6} MB and is not read: no design is that large.`;
    return refused(text, syntax, { code: "file/too-large", severity: "error", message });
  }
  return syntax === "json" ? yield* readJson(text) : yield* readYaml(text, before);
}

function* readJson(text: string): Steps<DesignFile> {
  if (bracketsTooDeep(text)) return refused(text, "json", tooDeep());
  const lexemes = jsonLexemes(text);
  if (lexemes > MOST_LEXEMES) return refused(text, "json", tooLarge(lexemes));
  try {
    const parsed = parseJson(text);
    yield;
    return { text, syntax: "json", documents: [yield* documentSteps(parsed, text, "json")], stretches: [] };
  } catch (error) {
    return refused(text, "json", unreadable(error));
  }
}

function* readYaml(text: string, before: DesignFile | undefined): Steps<DesignFile> {
  const stretches: Stretch[] = [];
  const documents: DesignDocument[] = [];
  for (let at = 0; at < text.length && documents.length <= MOST_DOCUMENTS; ) {
    const stretch = yield* stretchAt(text, at, before);
    stretches.push(stretch);
    for (const document of stretch.documents) documents.push({ ...document, index: documents.length });
    at = stretch.span.end;
    yield;
  }
  const [first] = documents;
  if (first === undefined) {
    const nothing = { span: { start: 0, end: text.length }, root: undefined, problems: [] };
    documents.push(yield* documentSteps(nothing, text, "yaml"));
  }
  const beyond = documents[MOST_DOCUMENTS];
  if (first !== undefined && beyond !== undefined) {
    documents.length = MOST_DOCUMENTS;
    documents[0] = { ...first, findings: [tooMany(beyond), ...first.findings] };
  }
  return { text, syntax: "yaml", documents, stretches };
}

function tooMany({ span: { start } }: DesignDocument): PlacedFinding {
  const message = t`A file holds at most ${MOST_DOCUMENTS} designs; those from here on are not read. Put them into other files.`;
  return { code: "file/too-many-designs", severity: "error", message, path: [], span: { start, end: start + 1 } };
}

/** A file of which nothing is read. */
function refused(text: string, syntax: Syntax, why: UnplacedProblem): DesignFile {
  const problem = { ...why, span: { start: 0, end: Math.min(1, text.length) } };
  const parsed = { span: { start: 0, end: text.length }, root: undefined, problems: [problem] };
  return { text, syntax, documents: [drained(documentSteps(parsed, text, syntax))], stretches: [] };
}
