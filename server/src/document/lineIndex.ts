/** Offsets and lines. Lines and columns count from 0 in UTF-16 units, as the language server protocol does. */

export interface Position {
  readonly line: number;
  readonly column: number;
}

export class LineIndex {
  private readonly starts: number[] = [0];

  constructor(private readonly text: string) {
    for (const match of text.matchAll(/\r\n|\n|\r/g)) this.starts.push(match.index + match[0].length);
  }

  /** The line and column of an offset; offsets outside the text count as its nearest end. */
  position(offset: number): Position {
    const inside = Math.max(0, Math.min(offset, this.text.length));
    let low = 0;
    let high = this.starts.length - 1;
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if ((this.starts[middle] ?? 0) <= inside) low = middle;
      else high = middle - 1;
    }
    return { line: low, column: inside - (this.starts[low] ?? 0) };
  }

  /** The offset of a line and column; a column beyond the line's end is its end, its line break not counted. */
  offset({ line, column }: Position): number {
    if (line < 0) return 0;
    const start = this.starts[line];
    if (start === undefined) return this.text.length;
    let end = this.starts[line + 1] ?? this.text.length;
    while (end > start && /[\r\n]/.test(this.text.charAt(end - 1))) end--;
    return Math.min(start + Math.max(0, column), end);
  }
}
