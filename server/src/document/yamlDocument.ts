/** From what the YAML library made of a document to the common tree, and what is wrong in a maker's words. */
import type { Document, ParsedNode } from "yaml";
import type { ParsedDocument, TextProblem } from "./parsed.js";
import type { Span } from "./span.js";
import { yamlMessage } from "./yamlMessages.js";
import { YamlTreeBuilder } from "./yamlTree.js";

/** One fault often makes many complaints; more than this many do not help. */
const MOST_COMPLAINTS = 10;

/** `text` is the whole file's. */
export function readYamlDocument(document: Document.Parsed<ParsedNode>, text: string): ParsedDocument {
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
