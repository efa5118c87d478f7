const NOTHING: ReadonlySet<string> = new Set();

/** Whether two plain values are deeply equal, except for properties named in `but`. */
export function sameValue(p: unknown, q: unknown, but: ReadonlySet<string> = NOTHING): boolean {
  if (Object.is(p, q)) return true;
  if (typeof p !== "object" || typeof q !== "object" || p === null || q === null) return false;
  const [mine, others] = [p as Record<string, unknown>, q as Record<string, unknown>];
  let counted = 0;
  for (const key in mine) {
    if (but.has(key) || mine[key] === undefined) continue;
    counted++;
    if (!sameValue(mine[key], others[key], but)) return false;
  }
  for (const key in others) if (!but.has(key) && others[key] !== undefined) counted--;
  return counted === 0;
}
