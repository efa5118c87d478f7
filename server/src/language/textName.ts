/** A short hash of a text: different for different texts, barring coincidence. Not for security. */

/** FNV-1a of 32 bits (Fowler, Noll, Vo; IETF draft-eastlake-fnv): offset basis and prime. */
const BASIS = 0x811c9dc5;
const PRIME = 0x01000193;
/** A second offset basis, for another 32 bits: any number will do. */
const OTHER_BASIS = 0x9e3779b9;

export function textName(text: string): string {
  return [text.length, hash(text, BASIS), hash(text, OTHER_BASIS)].map((each) => each.toString(36)).join(".");
}

function hash(text: string, start: number): number {
  let value = start;
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    // Both bytes of the UTF-16 unit.
    value = Math.imul(value ^ (unit & 0xff), PRIME);
    value = Math.imul(value ^ (unit >> 8), PRIME);
  }
  return value >>> 0;
}
