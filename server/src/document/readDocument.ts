/** From a document's tree to its instrument and everything there is to say of it. */
import type { Steps } from "../acoustics/steps.js";
import { resolutionSteps } from "../instrument/check.js";
import { t } from "../words/translation.js";
import type { DesignDocument, PlacedFinding, Syntax } from "./designFile.js";
import type { ParsedDocument } from "./parsed.js";
import { placeFinding } from "./place.js";
import { dataOf } from "./treeData.js";

/** Most findings of one document that are shown: more would hide rather than help. */
const MOST_FINDINGS = 200;

/** Never throws. Step by step. `text` is the whole file's; the first document of a file has index 0, and so has this. */
export function* documentSteps(
  { span, root, problems }: ParsedDocument,
  text: string,
  syntax: Syntax,
): Steps<DesignDocument> {
  const resolution = yield* resolutionSteps(dataOf(root));
  const fromText = problems.map((problem): PlacedFinding => ({ ...problem, path: [] }));
  // What cannot be read is reported once; that it is incomplete needs no finding then.
  const told = root === undefined && problems.length > 0;
  const fromDesign = told ? [] : resolution.findings;
  // Each is looked up in the tree: in a file of nothing but faults not all are placed.
  const placed = fromDesign.slice(0, MOST_FINDINGS).map((finding) => placeFinding({ root, span }, finding));
  const findings = capped([...fromText, ...placed], fromText.length + fromDesign.length);
  return { index: 0, span, text, syntax, root, resolution, findings };
}

function capped(findings: readonly PlacedFinding[], count: number): readonly PlacedFinding[] {
  const first = findings[0];
  if (count <= MOST_FINDINGS || first === undefined) return findings;
  const message = t`${count - MOST_FINDINGS} more findings are not shown. Fix these first.`;
  const note = { code: "file/more-findings", severity: "information", message, path: [], span: first.span } as const;
  return [...findings.slice(0, MOST_FINDINGS), note];
}
