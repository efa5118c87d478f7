/**
 * What stands for an English sentence in the translations that are shipped: the sentences themselves are in the program already, and
 * once more they would be a third of a bundle.
 */

/** FNV-1a of 32 bits, in base 36, with a sign before it that no sentence begins with. */
export function markOf(english: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < english.length; i++) hash = Math.imul(hash ^ english.charCodeAt(i), 0x01000193);
  return `#${(hash >>> 0).toString(36)}`;
}
