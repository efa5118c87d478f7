/** Makes a case that shows a fault smaller, as long as it shows the same one (delta debugging, Zeller and Hildebrandt 2002). */
import { type Fault, type Kind, type Parts, signature } from "./kind.js";

/** Takes `milliseconds` at most: a developer can go on by hand. */
export async function shrunk<Case>(kind: Kind<Case>, given: Case, fault: Fault, milliseconds: number): Promise<Case> {
  const wanted = signature(fault);
  const end = performance.now() + milliseconds;
  const shows = async (smaller: Case) => {
    if (performance.now() > end) return false;
    try {
      return (await kind.check(smaller)).some((each) => signature(each) === wanted);
    } catch {
      return false;
    }
  };
  let smallest = given;
  for (const parts of kind.parts) smallest = await fewest(parts, smallest, shows);
  return smallest;
}

async function fewest<Case>(
  parts: Parts<Case>,
  given: Case,
  shows: (smaller: Case) => Promise<boolean>,
): Promise<Case> {
  let pieces = [...parts.of(given)];
  for (let size = Math.ceil(pieces.length / 2); size >= 1; size = size === 1 ? 0 : Math.ceil(size / 2)) {
    for (let at = 0; at < pieces.length; ) {
      const rest = [...pieces.slice(0, at), ...pieces.slice(at + size)];
      if (await shows(parts.from(given, rest as never[]))) pieces = rest;
      else at += size;
    }
  }
  return parts.from(given, pieces as never[]);
}
