/** The mouth as drawn. */
import { DEFAULTS, MILLIMETRES_PER_INCH } from "../defaults.js";
import { traitsOf } from "../families/index.js";
import type { Path } from "../finding.js";
import { isMap, own, valueAt } from "../path.js";
import { boreDiameterAt } from "./bore.js";
import type { Draft, DraftMouth } from "./draft.js";

/** What calibration adds to the mouth. */
const EXTRA: Path = ["mouth", "extra"];
const GAP: Path = ["mouth", "notch", "gap"];

/** The kind of mouth goes by what is described; the family decides only where the description is silent. */
export function mouthOf(draft: Omit<Draft, "mouth">): DraftMouth | undefined {
  const { data, numbers } = draft;
  const traits = traitsOf(draft);
  const mouth = own(data, "mouth");
  if (mouth === "ideal") return { kind: "ideal" };
  const usualCover = traits?.rimCover ?? DEFAULTS.rimCover;
  if (mouth === undefined && traits?.mouthIsAssumed) return { kind: "rim", cover: usualCover, extra: 0 };
  if (!isMap(mouth)) return undefined;
  if (own(mouth, "correction") !== undefined) {
    const length = numbers.at(["mouth", "correction"]);
    return length === undefined ? undefined : { kind: "correction", length };
  }
  if (own(mouth, "window") !== undefined) return windowOf(draft);
  if (own(mouth, "hole") !== undefined) return embouchureOf(draft);
  if (traits?.body !== "pipes" && own(mouth, "notch") !== undefined) return notchOf(draft);
  const isOver = traits === undefined ? own(mouth, "cover") !== undefined : traits.rimCover !== undefined;
  if (!isOver) return undefined;
  const cover = numberOr(draft, ["mouth", "cover"], usualCover);
  const extra = numberOr(draft, EXTRA, 0);
  return cover === undefined || extra === undefined ? undefined : { kind: "rim", cover, extra };
}

function windowOf(draft: Omit<Draft, "mouth">): DraftMouth | undefined {
  const width = draft.numbers.at(["mouth", "window", "width"]);
  const cutUp = draft.numbers.at(["mouth", "window", "cutUp"]);
  const chimney = numberOr(draft, ["mouth", "window", "chimney"], draft.wall);
  const labium = numberOr(draft, ["mouth", "window", "labium"], DEFAULTS.labium);
  const stopper = hasStopper(draft) ? numberOr(draft, ["mouth", "window", "stopper"], 0) : 0;
  const extra = numberOr(draft, EXTRA, 0);
  if (width === undefined || cutUp === undefined || chimney === undefined || labium === undefined) return undefined;
  if (stopper === undefined || extra === undefined) return undefined;
  return { kind: "window", width, cutUp, chimney, labium, stopper, extra };
}

function notchOf(draft: Omit<Draft, "mouth">): DraftMouth | undefined {
  const { numbers, unit } = draft;
  const ofFile = (millimetres: number) => millimetres / (unit === "in" ? MILLIMETRES_PER_INCH : 1);
  const width = numbers.at(["mouth", "notch", "width"]);
  const depth = numbers.at(["mouth", "notch", "depth"]);
  const lipToEdge = ofFile(DEFAULTS.lipToEdge);
  const gap = numbers.at(GAP);
  const isUnreadable = gap === undefined && valueAt(draft.data, GAP) !== undefined;
  const chimney = numberOr(draft, ["mouth", "notch", "edge"], ofFile(DEFAULTS.notchEdge));
  const extra = numberOr(draft, EXTRA, 0);
  if (width === undefined || depth === undefined || isUnreadable) return undefined;
  if (chimney === undefined || extra === undefined) return undefined;
  const lip = gap === undefined ? { lipToEdge } : { gap };
  return { kind: "notch", width, depth, ...lip, chimney, extra };
}

function embouchureOf(draft: Omit<Draft, "mouth">): DraftMouth | undefined {
  const diameter = draft.numbers.at(["mouth", "hole", "diameter"]);
  const length = draft.numbers.at(["mouth", "hole", "length"]) ?? diameter;
  const width = numberOr(draft, ["mouth", "hole", "width"], length);
  const chimney = numberOr(draft, ["mouth", "hole", "chimney"], draft.wall);
  const undercut = numberOr(draft, ["mouth", "hole", "undercut"], 0);
  const cover = numberOr(draft, ["mouth", "cover"], DEFAULTS.transverseCover);
  const bore = boreDiameterAt(draft.bore, 0);
  const usualStopper = bore === undefined ? undefined : bore * DEFAULTS.stopperInBores;
  const stopper = hasStopper(draft) ? numberOr(draft, ["mouth", "stopper"], usualStopper) : 0;
  const extra = numberOr(draft, EXTRA, 0);
  if (length === undefined || width === undefined || chimney === undefined) return undefined;
  if (undercut === undefined || cover === undefined || stopper === undefined || extra === undefined) return undefined;
  return { kind: "embouchure", length, width, chimney, undercut, cover, stopper, extra };
}

function hasStopper(draft: Omit<Draft, "mouth">): boolean {
  return traitsOf(draft)?.hasStopper ?? true;
}

/** The number at `path`; the default only where nothing is written there, so that a bad number is not hidden. */
function numberOr(draft: Omit<Draft, "mouth">, path: Path, standIn: number | undefined): number | undefined {
  return valueAt(draft.data, path) === undefined ? standIn : draft.numbers.at(path);
}

/** As drawn or as printed. */
type MouthOpening =
  | { readonly kind: "window"; readonly cutUp: number }
  | { readonly kind: "embouchure"; readonly length: number }
  | { readonly kind: "ideal" | "correction" | "notch" | "rim" };

/** Half the mouth opening's length along the axis: how far below 0 it reaches. */
export function mouthHalfLength(mouth: MouthOpening | undefined): number {
  if (mouth?.kind === "window") return mouth.cutUp / 2;
  return mouth?.kind === "embouchure" ? mouth.length / 2 : 0;
}
