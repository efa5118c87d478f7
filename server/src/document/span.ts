/** A part of a text. */

/** Half-open range of UTF-16 offsets into the text of the file. */
export interface Span {
  readonly start: number;
  readonly end: number;
}
