/** What can be dragged in the bore view: holes' places and widths, the bore's stations, the foot, and the stopper. */

import type { Steps } from "../../acoustics/steps.js";
import { Budget, within } from "../../acoustics/work.js";
import { type FoundLever, leverOf } from "../../design/edit/lever.js";
import type { Outline } from "../../design/outline/outline.js";
import type { Analysis } from "../../design/predict/analysis.js";
import { slopeSteps } from "../../design/predict/sensitivity.js";
import type { DesignDocument } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import { nodeAt } from "../../document/tree.js";
import { dataOf } from "../../document/treeData.js";
import type { Path } from "../../instrument/finding.js";
import { pathKey, samePath } from "../../instrument/path.js";
import { placeInWords, thingInWords } from "../../instrument/placeInWords.js";
import type { Handle } from "../../protocol/boreView.js";
import { t } from "../../words/translation.js";
import { ANSWER_WORK } from "../bandsInTime.js";
import { draftsOf, type HandleDraft } from "./handleDrafts.js";
import type { Lines } from "./lines.js";

/** Step by step; without slopes where these would take too long, or where it is to be brief. */
export function* handleSteps(
  document: DesignDocument,
  analysis: Analysis,
  { body }: Outline,
  lines: Lines,
  brief: boolean,
): Steps<readonly Handle[]> {
  const held: { readonly draft: HandleDraft; readonly lever: FoundLever }[] = [];
  for (const draft of draftsOf(body)) {
    yield undefined;
    const lever = leverOf(document, draft.path);
    if (lever !== undefined) held.push({ draft, lever });
  }
  const moving = held.flatMap(({ lever }) => ("refused" in lever ? [] : [lever.path]));
  const slopes = brief
    ? undefined
    : yield* within(new Budget(ANSWER_WORK), slopeSteps(document.resolution, analysis, { paths: moving }));
  const { unitMillimetres } = analysis.instrument;
  const handles: Handle[] = [];
  for (const { draft, lever } of held) {
    yield undefined;
    const refused = "refused" in lever ? lever.refused : undefined;
    const slope = "refused" in lever ? [] : (slopes?.get(pathKey(lever.path))?.centsPerUnit ?? []);
    const perUnit = "refused" in lever ? 1 : lever.perUnit;
    handles.push({
      ...draft,
      ...limitsOf(document, draft, unitMillimetres),
      lines: lines(draft.path),
      formula: numberAt(document, draft.path)?.expression,
      fixed: isFixed(document, draft.path),
      ...(refused === undefined ? {} : { refused }),
      ...("refused" in lever || samePath(lever.path, draft.path) ? {} : { moves: movesInWords(document, lever) }),
      centsPerMillimetre: slope.map((cents) => cents && cents / (perUnit * unitMillimetres)),
    });
  }
  return handles;
}

/** Things named at most. */
const MOST_NAMED = 3;

/** `the parameter lower, and with it R2 and R3`. */
function movesInWords({ root }: DesignDocument, lever: { readonly path: Path; readonly alsoMoves: readonly Path[] }) {
  const data = dataOf(root);
  const { alsoMoves, path } = lever;
  const things = [...new Set(alsoMoves.map((each) => ownerInWords(each, data)))];
  const named = things.slice(0, MOST_NAMED);
  if (things.length > named.length) named.push(t`${things.length - named.length} more`);
  const others = [named.slice(0, -1).join(", "), ...named.slice(-1)].filter((each) => each !== "").join(t(" and "));
  const name = path.slice(1).join(".");
  return others === "" ? t`the parameter ${name}` : t`the parameter ${name}, and with it ${others}`;
}

/** What a number belongs to: `R2` for its place and its width. */
function ownerInWords(path: Path, data: unknown): string {
  const [list, index] = path;
  const thing = typeof index === "number" ? thingInWords(String(list), index, data) : undefined;
  return thing ?? placeInWords(path, data).replaceAll("`", "");
}

function isFixed(document: DesignDocument, path: Path): boolean {
  const node = nodeAt(document.root, [...path.slice(0, -1), "fixed"]);
  return node?.kind === "scalar" && node.value === true;
}

/** The design's own limits of this dimension, where they are narrower. */
function limitsOf(document: DesignDocument, { path, least, greatest }: HandleDraft, unitMillimetres: number) {
  const list = [...path.slice(0, -1), "limits", String(path.at(-1))];
  const bound = (i: number) => numberAt(document, [...list, i])?.value;
  const [low, high] = [bound(0), bound(1)];
  return {
    least: low === undefined ? least : Math.max(least, low * unitMillimetres),
    greatest: high === undefined ? greatest : Math.min(greatest, high * unitMillimetres),
  };
}
