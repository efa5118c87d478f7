/** Wavefront OBJ: `v` and `f` lines, faces of any number of corners, negative indices count from the end (from memory). No unit. */

import { t } from "../../words/translation.js";
import { CannotSurvey } from "../refusal.js";
import { mustBeFew } from "./soup.js";

/** @throws CannotSurvey */
export function readObj(bytes: Uint8Array): Float64Array {
  const text = new TextDecoder("latin1").decode(bytes);
  const vertices: number[] = [];
  const corners: number[] = [];
  let line = 0;
  for (let from = 0; from < text.length; ) {
    let to = text.indexOf("\n", from);
    if (to < 0) to = text.length;
    line++;
    const second = text.charCodeAt(from + 1);
    if (second === 32 || second === 9) {
      const first = text[from];
      if (first === "v") for (const word of words(text, from, to).slice(0, 3)) vertices.push(Number(word));
      else if (first === "f") face(words(text, from, to), vertices.length / 3, line, corners);
      if (vertices.length % 3 !== 0) throw new CannotSurvey(t`Line ${line} is not a corner: v and three numbers.`);
    }
    from = to + 1;
    if (corners.length > 0) mustBeFew(corners.length / 3);
  }
  const soup = new Float64Array(3 * corners.length);
  for (const [i, corner] of corners.entries())
    for (let k = 0; k < 3; k++) soup[3 * i + k] = vertices[3 * corner + k] ?? Number.NaN;
  return soup;
}

function words(text: string, from: number, to: number): readonly string[] {
  return text
    .slice(from + 2, to)
    .trim()
    .split(/\s+/);
}

/** A fan of triangles. @param count corners read so far */
function face(references: readonly string[], count: number, line: number, corners: number[]): void {
  const indices = references.map((word) => {
    const index = Number.parseInt(word, 10);
    const place = index < 0 ? count + index : index - 1;
    if (!(place >= 0 && place < count))
      throw new CannotSurvey(t`Line ${line} names a corner that is not there (${word.slice(0, 20)}). Export it again.`);
    return place;
  });
  for (let k = 2; k < indices.length; k++)
    corners.push(indices[0] as number, indices[k - 1] as number, indices[k] as number);
}
