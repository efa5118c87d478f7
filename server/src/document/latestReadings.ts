/** The readings made last, so that a text that is read again at once is not worked out again: a refit reads every third of its drawings so. */
import { spokenTranslation, type Translation } from "../words/translation.js";
import type { DesignFile, Syntax } from "./designFile.js";

/** As many as one refit goes back to; more find hardly any. */
const MOST = 8;
/** Larger texts are not kept, for the memory that their trees take. In UTF-16 units. */
const LARGEST_KEPT = 50_000;

interface Kept {
  readonly file: DesignFile;
  /** What its findings are told in. */
  readonly translation: Translation | undefined;
}

/** Last used first. */
let latest: readonly Kept[] = [];

/** The reading of the text, if it is among the latest; else what `read` makes. */
export function latestOr(text: string, syntax: Syntax, read: () => DesignFile): DesignFile {
  if (text.length > LARGEST_KEPT) return read();
  const spoken = spokenTranslation();
  const known = latest.find(
    ({ file, translation }) => file.text === text && file.syntax === syntax && translation === spoken,
  );
  const kept = known ?? { file: read(), translation: spoken };
  latest = [kept, ...latest.filter((other) => other !== known)].slice(0, MOST);
  return kept.file;
}
