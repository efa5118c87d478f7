/** Edits made one after the other, each on the text so far, given as edits of the original text. */
import { pathKey } from "../instrument/path.js";
import { inOrder } from "./edits.js";
import type { Meant, TextEdit } from "./textEdit.js";

/** A stretch of the old text, or an insertion. */
type Piece = { readonly from: number; readonly to: number } | { readonly put: string };

export class TextChanges {
  private pieces: readonly Piece[];
  /** By `pathKey`; what was meant last counts. */
  private readonly meant = new Map<string, Meant>();
  private now: string;

  constructor(private readonly original: string) {
    this.pieces = [{ from: 0, to: original.length }];
    this.now = original;
  }

  /** What the text has become. */
  get text(): string {
    return this.now;
  }

  /** @throws RangeError where edits overlap */
  make(edits: readonly TextEdit[]): void {
    const made: Piece[] = [];
    const rest = [...this.pieces].reverse();
    let at = 0;
    const pass = (end: number, kept: boolean) => {
      while (at < end) {
        const piece = rest.pop();
        if (piece === undefined) throw new RangeError("an edit beyond the text");
        const [first, second] = split(piece, end - at);
        if (second !== undefined) rest.push(second);
        if (kept) made.push(first);
        at += lengthOf(first);
      }
    };
    for (const { span, text, meant } of inOrder(edits)) {
      pass(span.start, true);
      pass(span.end, false);
      if (text !== "") made.push({ put: text });
      for (const each of meant ?? []) this.meant.set(pathKey(each.path), each);
    }
    this.pieces = [...made, ...rest.reverse()];
    this.now = this.pieces.map((piece) => textOf(piece, this.original)).join("");
  }

  /** Edits of the old text; what was changed back is none of them. The first carries all that was meant. */
  get edits(): readonly TextEdit[] {
    const edits: TextEdit[] = [];
    let put = "";
    let from = 0;
    const end = (to: number) => {
      if (this.original.slice(from, to) !== put) edits.push({ span: { start: from, end: to }, text: put });
    };
    for (const piece of this.pieces) {
      if ("put" in piece) put += piece.put;
      else {
        if (piece.from > from || put !== "") end(piece.from);
        [put, from] = ["", piece.to];
      }
    }
    if (from < this.original.length || put !== "") end(this.original.length);
    const [first, ...others] = edits;
    return first === undefined ? [] : [{ ...first, meant: [...this.meant.values()] }, ...others];
  }
}

function lengthOf(piece: Piece): number {
  return "put" in piece ? piece.put.length : piece.to - piece.from;
}

function textOf(piece: Piece, original: string): string {
  return "put" in piece ? piece.put : original.slice(piece.from, piece.to);
}

/** The first `length` characters of a piece, and what is left of it. */
function split(piece: Piece, length: number): readonly [Piece, Piece | undefined] {
  if (length >= lengthOf(piece)) return [piece, undefined];
  if ("put" in piece) return [{ put: piece.put.slice(0, length) }, { put: piece.put.slice(length) }];
  const middle = piece.from + length;
  return [
    { from: piece.from, to: middle },
    { from: middle, to: piece.to },
  ];
}
