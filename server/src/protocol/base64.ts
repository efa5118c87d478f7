/** Bytes as text and back (RFC 4648, section 4), in Node and in a browser. */

/** Bytes turned into characters at once: the arguments of one call. */
const PIECE = 1 << 13;

export function toBase64(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let i = 0; i < bytes.length; i += PIECE) pieces.push(String.fromCharCode(...bytes.subarray(i, i + PIECE)));
  return btoa(pieces.join(""));
}

/** @throws DOMException where the text is no base 64 */
export function fromBase64(text: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
}
