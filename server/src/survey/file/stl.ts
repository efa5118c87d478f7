/** STL, binary and as text (the format's common description; from memory). It states no unit. */

import { t } from "../../words/translation.js";
import { CannotSurvey } from "../refusal.js";
import { mustBeFew } from "./soup.js";

const HEADING_BYTES = 84;
const TRIANGLE_BYTES = 50;

/** By length, not by the word `solid`, with which binary files begin, too. @throws CannotSurvey */
export function readStl(bytes: Uint8Array): Float64Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = bytes.length >= HEADING_BYTES ? view.getUint32(80, true) : 0;
  if (bytes.length >= HEADING_BYTES && bytes.length === HEADING_BYTES + TRIANGLE_BYTES * count)
    return binary(view, count);
  const corners = asText(bytes);
  if (corners.length > 0 && corners.length % 9 === 0) return Float64Array.from(corners);
  if (corners.length > 0)
    throw new CannotSurvey(t("The STL text breaks off within a triangle. Export or copy it again."));
  if (bytes.length < HEADING_BYTES) throw new CannotSurvey(t("It is not an STL file, or only the beginning of one."));
  const held = Math.floor((bytes.length - HEADING_BYTES) / TRIANGLE_BYTES);
  throw new CannotSurvey(
    t`It says it has ${count} triangles and holds room for ${held}: cut off, or not an STL file. Export or copy it again.`,
  );
}

function binary(view: DataView, count: number): Float64Array {
  mustBeFew(count);
  const soup = new Float64Array(9 * count);
  for (let i = 0; i < count; i++) {
    const from = HEADING_BYTES + TRIANGLE_BYTES * i + 12;
    for (let k = 0; k < 9; k++) soup[9 * i + k] = view.getFloat32(from + 4 * k, true);
  }
  return soup;
}

const VERTEX = [0x76, 0x65, 0x72, 0x74, 0x65, 0x78]; // vertex
/** A text without `vertex` in this many bytes at its beginning is not a mesh. */
const LOOKED_AT = 4096;

function asText(bytes: Uint8Array): readonly number[] {
  const corners: number[] = [];
  for (let i = 0; i < bytes.length - VERTEX.length; i++) {
    if (corners.length === 0 && i > LOOKED_AT) return corners;
    if (bytes[i] !== VERTEX[0] || !VERTEX.every((letter, k) => ((bytes[i + k] ?? 0) | 0x20) === letter)) continue;
    i += VERTEX.length;
    for (let k = 0; k < 3; k++) {
      while (isSpace(bytes[i])) i++;
      const from = i;
      while (i < bytes.length && !isSpace(bytes[i])) i++;
      if (from === i) return corners;
      corners.push(Number(latin(bytes, from, i)));
    }
    if (corners.length % 9 === 0) mustBeFew(corners.length / 9);
  }
  return corners;
}

function isSpace(byte: number | undefined): boolean {
  return byte === 0x20 || (byte !== undefined && byte >= 9 && byte <= 13);
}

function latin(bytes: Uint8Array, from: number, to: number): string {
  let text = "";
  for (let i = from; i < Math.min(to, from + LONGEST_NUMBER); i++) text += String.fromCharCode(bytes[i] ?? 0);
  return text;
}

const LONGEST_NUMBER = 40;
