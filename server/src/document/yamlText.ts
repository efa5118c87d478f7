/** Reads YAML text. The parser is tolerant: whatever it made out is delivered beside what it complains of. */
import { Composer, type CST, type Document, type ParsedNode, Parser } from "yaml";
import type { ParsedDocument, TextProblem } from "./parsed.js";
import type { Span } from "./span.js";
import { yamlMessage } from "./yamlMessages.js";
import { YamlTreeBuilder } from "./yamlTree.js";

/** One fault often makes many complaints; more than these help nobody. */
const MOST_COMPLAINTS = 10;

/** Designs of one file that are read. */
const MOST_DOCUMENTS = 50;

/** After so many signs that cannot stand where they do, the rest of the text is not looked at. */
const MOST_STRAY_SIGNS = 100;

/** The documents of a file that hold something; one without a value where none does. */
export function parseYaml(text: string): readonly ParsedDocument[] {
  const parsed: ParsedDocument[] = [];
  // The library's own check for duplicate keys takes a time that grows with the square of them.
  const composer = new Composer({ merge: true, uniqueKeys: false, logLevel: "silent" });
  for (const document of composer.compose(withFewErrors(new Parser().parse(text)), false, text.length)) {
    const read = readDocument(document, text);
    if (read.root === undefined && read.problems.length === 0) continue;
    if (parsed.length === MOST_DOCUMENTS) {
      parsed[0] = withProblem(parsed[0] ?? read, tooMany(read.span));
      break;
    }
    parsed.push(read);
  }
  return parsed.length > 0 ? parsed : [{ span: { start: 0, end: text.length }, root: undefined, problems: [] }];
}

/** The library's time grows with the square of the stray signs that it complains of. */
function* withFewErrors(tokens: Iterable<CST.Token>): Iterable<CST.Token> {
  let errors = 0;
  for (const token of tokens) {
    if (token.type === "error" && ++errors > MOST_STRAY_SIGNS) return;
    yield token;
  }
}

function tooMany({ start }: Span): TextProblem {
  const message = `A file holds at most ${MOST_DOCUMENTS} designs; those from here on are not read. Put them into other files.`;
  return { code: "file/too-many-designs", severity: "error", message, span: { start, end: start + 1 } };
}

function withProblem(document: ParsedDocument, problem: TextProblem): ParsedDocument {
  return { ...document, problems: [...document.problems, problem] };
}

function readDocument(document: Document.Parsed<ParsedNode>, text: string): ParsedDocument {
  const clamp = (offset: number) => Math.max(0, Math.min(offset, text.length));
  const span = { start: clamp(document.range[0]), end: clamp(document.range[2]) };
  const complaints = [...document.errors, ...document.warnings].slice(0, MOST_COMPLAINTS).map(
    (error): TextProblem => ({
      code: "file/syntax",
      severity: error.name === "YAMLWarning" ? "warning" : "error",
      message: yamlMessage(error),
      span: visible({ start: clamp(error.pos[0]), end: clamp(error.pos[1]) }, text),
    }),
  );
  const { contents } = document;
  const empty = contents === null || (contents.range?.[0] === contents.range?.[1] && complaints.length === 0);
  if (empty) return { span, root: undefined, problems: complaints };
  const builder = new YamlTreeBuilder(text);
  const root = builder.build(contents, span.start);
  return { span, root, problems: [...complaints, ...builder.problems] };
}

/** A mark of no length, or of a line break only, is moved back to the last letter before it, so that it can be seen. */
function visible({ start, end }: Span, text: string): Span {
  if (text.slice(start, end).trim() !== "" || text.charAt(start) === "\t") return { start, end: Math.max(end, start) };
  let at = start;
  while (at > 0 && /\s/.test(text.charAt(at - 1))) at--;
  return at > 0 ? { start: at - 1, end: at } : { start, end };
}
