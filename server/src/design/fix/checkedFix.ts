/** A change on offer: what it is called, and edits that do what they are meant to and nothing else. */

import { drained, type Steps } from "../../acoustics/steps.js";
import { checkedEditSteps } from "../../document/checkedEdits.js";
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import type { TextEdit } from "../../document/textEdit.js";
import { dataOf } from "../../document/treeData.js";
import type { Path } from "../../instrument/finding.js";
import { placeInWords } from "../../instrument/placeInWords.js";
import { t } from "../../words/translation.js";

export interface Fix {
  readonly title: string;
  readonly edits: readonly TextEdit[];
}

/** Undefined where the edits would do anything else, or nothing. Where formulas make other numbers follow, the title says so. */
export function checkedFix(file: DesignFile, document: DesignDocument, fix: Fix): Fix | undefined {
  return drained(checkedFixSteps(file, document, fix));
}

/** As `checkedFix`, step by step: the whole file is read again. */
export function* checkedFixSteps(
  file: DesignFile,
  document: DesignDocument,
  { title, edits }: Fix,
): Steps<Fix | undefined> {
  const checked = yield* checkedEditSteps(file, document.index, edits);
  if (checked === undefined || checked.edits.length === 0) return undefined;
  return { title: `${title}${alsoInWords(document, checked.followers)}`, edits: checked.edits };
}

/** Places named in a title. */
const MOST_NAMED = 3;

function alsoInWords({ root }: DesignDocument, followers: readonly Path[]): string {
  if (followers.length === 0) return "";
  const data = dataOf(root);
  const named = followers.slice(0, MOST_NAMED).map((path) => placeInWords(path, data));
  const more = followers.length - named.length;
  return t` (moves ${named.join(", ")}${more > 0 ? t` and ${more} more` : ""} along)`;
}
