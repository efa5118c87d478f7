/** What can be taken hold of in the bore view: holes' places and widths, and the foot. */

import type { HoleOutline, Outline, TubeOutline } from "../../design/outline/outline.js";
import type { Analysis } from "../../design/predict/analysis.js";
import { sensitivitiesOf } from "../../design/predict/sensitivity.js";
import type { DesignDocument } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import { nodeAt } from "../../document/tree.js";
import type { Path } from "../../instrument/finding.js";
import { pathKey } from "../../instrument/path.js";
import type { Handle } from "../../protocol/boreView.js";
import type { Lines } from "./lines.js";

/** mm: the narrowest hole that a drill or a nozzle makes. Common practice, no source. */
const NARROWEST = 1;
/** Of the bore's width: a wider hole cannot be drilled. */
const WIDEST_IN_BORES = 1;

type Draft = Omit<Handle, "lines" | "formula" | "fixed" | "centsPerMillimetre">;

export function handlesOf(
  document: DesignDocument,
  analysis: Analysis,
  { body }: Outline,
  lines: Lines,
): readonly Handle[] {
  if (body.kind !== "tube") return [];
  const drafts = [...body.holes.flatMap((hole, i) => ofHole(hole, i, body)), ...ofFoot(body)];
  const written = drafts.filter(({ path }) => numberAt(document, path) !== undefined);
  const slopes = sensitivitiesOf(document.resolution, analysis, { paths: written.map(({ path }) => path) });
  const { unitMillimetres } = analysis.instrument;
  return written.map((draft) => {
    const slope = slopes.get(pathKey(draft.path))?.centsPerUnit ?? [];
    return {
      ...draft,
      ...limitsOf(document, draft, unitMillimetres),
      lines: lines(draft.path),
      formula: numberAt(document, draft.path)?.expression,
      fixed: isFixed(document, draft.path),
      centsPerMillimetre: slope.map((cents) => cents && cents / unitMillimetres),
    };
  });
}

function ofHole(hole: HoleOutline, i: number, { holes, from, to }: TubeOutline): Draft[] {
  const { name, path, at, width } = hole;
  const edge = (other: HoleOutline | undefined) => other && (hole.length + other.length) / 2;
  const [before, after] = [holes[i - 1], holes[i + 1]];
  // Neighbours on one line end where their edges touch; what less wall than `print.holeGap` means, the findings say.
  const least = before === undefined ? Math.max(0, from) + hole.length / 2 : before.at + (edge(before) as number);
  const greatest = after === undefined ? to - hole.length / 2 : after.at - (edge(after) as number);
  const place = { path: [...path, "at"], hole: i, name };
  return [
    { ...place, kind: "place", value: at, least: Math.min(least, at), greatest: Math.max(greatest, at) },
    {
      ...place,
      path: [...path, "diameter"],
      kind: "width",
      value: width,
      least: NARROWEST,
      greatest: Math.max(width, 2 * WIDEST_IN_BORES * hole.boreRadius),
    },
  ];
}

function ofFoot({ bore, holes }: TubeOutline): Draft[] {
  const [before, last] = [bore.at(-2), bore.at(-1)];
  if (last === undefined) return [];
  const hole = holes.at(-1);
  const least = Math.max(before?.at ?? 0, hole === undefined ? 0 : hole.at + hole.length / 2);
  const path = [...last.path, "at"];
  return [{ path, kind: "foot", hole: -1, name: "foot", value: last.at, least, greatest: 2 * last.at }];
}

function isFixed(document: DesignDocument, path: Path): boolean {
  const node = nodeAt(document.root, [...path.slice(0, -1), "fixed"]);
  return node?.kind === "scalar" && node.value === true;
}

/** The design's own limits of this dimension, where they are narrower. */
function limitsOf(document: DesignDocument, { path, least, greatest }: Draft, unitMillimetres: number) {
  const list = [...path.slice(0, -1), "limits", String(path.at(-1))];
  const bound = (i: number) => numberAt(document, [...list, i])?.value;
  const [low, high] = [bound(0), bound(1)];
  return {
    least: low === undefined ? least : Math.max(least, low * unitMillimetres),
    greatest: high === undefined ? greatest : Math.min(greatest, high * unitMillimetres),
  };
}
