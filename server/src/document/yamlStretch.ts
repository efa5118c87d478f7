/** Reads a YAML file stretch by stretch: as a rule one document, from its `---` to the next. */
import { Composer, CST, type Document, Lexer, type ParsedNode, Parser } from "yaml";
import type { Steps } from "../acoustics/steps.js";
import { MOST_LEXEMES, MOST_NESTED, tooDeep, tooLarge, type UnplacedProblem, unreadable } from "./nesting.js";
import type { ParsedDocument } from "./parsed.js";
import { readYamlDocument } from "./yamlDocument.js";

/** After this many misplaced characters the rest is not read: the library's time grows with their square. */
const MOST_STRAY_SIGNS = 100;

/** Lexemes read in one piece: about a millisecond. */
const LEXEMES_IN_A_PIECE = 500;

export interface ParsedStretch {
  readonly end: number;
  /** Those that hold something. */
  readonly documents: readonly ParsedDocument[];
  /** Whether the same text means the same in any place: not with a directive, which may hold for what follows. */
  readonly standsAlone: boolean;
}

/** What may precede a document without beginning one. */
const BEFORE_ANY: ReadonlySet<string | null> = new Set([
  "byte-order-mark",
  "doc-mode",
  "comment",
  "newline",
  "space",
  "directive-line",
  "doc-end",
]);

/** Tokens that the lexer inserts, which are not part of the text. */
const UNWRITTEN: ReadonlySet<string | null> = new Set(["doc-mode", "flow-error-end", "scalar"]);

/** Reads the stretch that begins at `start`: the beginning of the text, or a `---`. Yields between pieces of the work. */
export function* readStretch(text: string, start: number): Steps<ParsedStretch> {
  const reader = new StretchReader(start);
  let end = start;
  do {
    const from = end;
    end = nextMark(text, from);
    yield* lexed(text.slice(from, end), reader);
  } while (end < text.length && !reader.isOver);
  reader.finish(end);
  yield;
  const documents: ParsedDocument[] = [];
  for (const document of reader.composed) {
    documents.push(readYamlDocument(document, text));
    yield;
  }
  documents.push(...reader.refused);
  return { end, documents: documents.filter(holdsSomething), standsAlone: !reader.directives };
}

/**
 * Where the next line begins with `---`. No document holds such a line, be it in quotes or in a block scalar, whose text is indented
 * (YAML 1.2.2, production 206, c-forbidden). The library's lexer does without the rule behind a quote that is not closed: it would
 * take all that follows for quoted.
 */
function nextMark(text: string, from: number): number {
  MARK.lastIndex = from;
  const found = MARK.exec(text);
  return found === null ? text.length : found.index + 1;
}

const MARK = /\n---(?![^ \t\r\n])/g;

function* lexed(text: string, reader: StretchReader): Steps<void> {
  let scalarFollows = false;
  let lexemes = 0;
  for (const lexeme of new Lexer().lex(text)) {
    const type: string | null = scalarFollows ? "value" : CST.tokenType(lexeme);
    scalarFollows = type === "scalar";
    reader.take(lexeme, type);
    if (++lexemes % LEXEMES_IN_A_PIECE === 0) yield;
  }
  reader.pause();
  yield;
}

function holdsSomething({ root, problems }: ParsedDocument): boolean {
  return root !== undefined || problems.length > 0;
}

class StretchReader {
  readonly composed: Document.Parsed<ParsedNode>[] = [];
  readonly refused: ParsedDocument[] = [];
  directives = false;
  private readonly parser = new Parser();
  // The library's own check for duplicate keys takes a time that grows with the square of them.
  private readonly composer = new Composer({ merge: true, uniqueKeys: false, logLevel: "silent" });
  private begun = false;
  private count = 0;
  private strays = 0;
  /** Why the rest of the stretch is not read, given how many words, signs and gaps it has. */
  private refusal: ((count: number) => UnplacedProblem) | undefined;

  constructor(private readonly start: number) {
    this.parser.offset = start;
  }

  /** Whether a `---` here begins another stretch. Below a directive it does not, since the directive may apply to what follows. */
  get isOver(): boolean {
    return this.begun && !this.directives;
  }

  take(lexeme: string, type: string | null): void {
    if (type === "directive-line") this.directives = true;
    if (!BEFORE_ANY.has(type)) this.begun = true;
    if (type === "doc-start" && this.refusal === undefined) this.count = 0;
    if (!UNWRITTEN.has(type)) this.count++;
    if (this.count > MOST_LEXEMES) this.refusal ??= tooLarge;
    if (this.refusal !== undefined || this.strays > MOST_STRAY_SIGNS) return;
    this.compose(this.parser.next(lexeme));
    if (this.parser.stack.length > MOST_NESTED) this.refusal = tooDeep;
  }

  /** Before a `---`, or at the end. */
  pause(): void {
    if (this.refusal === undefined) this.compose(this.parser.end());
  }

  finish(end: number): void {
    for (const document of this.composer.end()) this.composed.push(document);
    if (this.refusal === undefined) return;
    const span = { start: this.start, end };
    const mark = { start: this.start, end: Math.min(this.start + 1, end) };
    this.refused.push({ span, root: undefined, problems: [{ ...this.refusal(this.count), span: mark }] });
  }

  private compose(tokens: Iterable<CST.Token>): void {
    try {
      for (const token of tokens) {
        if (token.type === "error" && ++this.strays > MOST_STRAY_SIGNS) return;
        for (const document of this.composer.next(token)) this.composed.push(document);
      }
    } catch (error) {
      this.refusal = () => unreadable(error);
    }
  }
}
