/** The mouth's opening as a part that a bench can enlarge: it raises every note, as lips or a printer that make it too small lower every note. */
import { boreRadiusAt, type Column, type Mouth } from "../../acoustics/column.js";
import type { Vessel } from "../../acoustics/vesselShape.js";
import type { DesignDocument } from "../../document/designFile.js";
import { type Body, roundShape, sharedColumn } from "../../instrument/body.js";
import type { Path } from "../../instrument/finding.js";
import { t } from "../../words/translation.js";
import { mapBody } from "../predict/body.js";
import { mouthOf } from "../predict/mouthKnob.js";
import type { Size, Workable } from "./workable.js";

/** Greatest cut-up over the window's width; greatest size of a notch or an embouchure hole over the bore's width. Common practice, no source. */
const HIGHEST_CUT_UP = 0.6;
const WIDEST_IN_BORES = 0.65;

/** Undefined where the design keeps its mouth (`bench.mouth`), or the mouth is not one whose opening it describes. */
export function mouthToOpen({ resolution }: Pick<DesignDocument, "resolution">): Workable | undefined {
  const { instrument, draft } = resolution;
  if (instrument.keepsMouth) return undefined;
  const { body, printedUnit, holeUndersize } = instrument;
  const mouth = mouthOf(body);
  const opening = mouth && openingOf(mouth, draft.numbers.at);
  if (mouth === undefined || opening === undefined || isTubeChamber(body)) return undefined;
  const sizeIn = (there: Body) => opening.sizeOf(mouthOf(there) ?? mouth);
  const now = sizeIn(body);
  const column = sharedColumn(body);
  const bore = column === undefined ? Number.POSITIVE_INFINITY : 2 * boreRadiusAt(column.bore, 0);
  return {
    kind: opening.kind,
    name: opening.name,
    valueIn: sizeIn,
    bodyWith: (there, size) => {
      // A window is cut at its blade: its middle, from which places are counted, moves half as far.
      const moved = opening.kind === "cut-up" ? (size - sizeIn(there)) / 2 : 0;
      return mapBody(there, {
        column: (old) => nearer({ ...old, mouth: opening.withSize(old.mouth, size) }, moved),
        vessel: (old) => ({ ...old, mouth: opening.withSize(old.mouth, size) as Vessel["mouth"] }),
      });
    },
    farthest: Math.max(now, opening.farthest(mouth, bore)),
    path: opening.path,
    drawnAdd: opening.kind === "lengthen" ? holeUndersize : 0,
    alsoMoved: (size) =>
      opening.kind !== "cut-up" || column === undefined
        ? []
        : placesOf(column, instrument.holes).flatMap((path): Size[] => {
            const at = draft.numbers.at(path);
            return at === undefined ? [] : [{ path, drawn: at * printedUnit - (size - now) / 2 }];
          }),
  };
}

interface Opening {
  readonly kind: Extract<Workable["kind"], "cut-up" | "widen" | "lengthen">;
  readonly name: string;
  readonly path: Path;
  /** m, as printed. */
  sizeOf(mouth: Mouth): number;
  withSize(mouth: Mouth, size: number): Mouth;
  /** The size that must not be exceeded, m. @param bore the bore's width there, m */
  farthest(mouth: Mouth, bore: number): number;
}

/** As `Opening`, of mouths of one kind. */
interface OpeningOf<M extends Mouth> extends Pick<Opening, "kind" | "name" | "path"> {
  sizeOf(mouth: M): number;
  withSize(mouth: M, size: number): M;
  farthest(mouth: M, bore: number): number;
}

/** Work changes a mouth's sizes, never its kind: what is asked is the kind that the opening is of. */
function openingOf(mouth: Mouth, numberAt: (path: Path) => number | undefined): Opening | undefined {
  const isStated = (path: Path) => numberAt(path) !== undefined;
  return OPENINGS[mouth.kind]?.(isStated) as Opening | undefined;
}

type Openings = { readonly [K in Mouth["kind"]]?: (isStated: (path: Path) => boolean) => OpeningOf<MouthOf<K>> };
type MouthOf<K extends Mouth["kind"]> = Extract<Mouth, { readonly kind: K }>;

const OPENINGS: Openings = {
  window: () => ({
    kind: "cut-up",
    name: t("the window"),
    path: ["mouth", "window", "cutUp"],
    sizeOf: ({ cutUp }) => cutUp,
    withSize: (mouth, cutUp) => ({ ...mouth, cutUp }),
    farthest: ({ width }) => HIGHEST_CUT_UP * width,
  }),
  notch: () => ({
    kind: "widen",
    name: t("the notch"),
    path: ["mouth", "notch", "width"],
    sizeOf: ({ width }) => width,
    withSize: (mouth, width) => ({ ...mouth, width }),
    farthest: (_, bore) => WIDEST_IN_BORES * bore,
  }),
  embouchure: (isStated) => {
    const length: Path = ["mouth", "hole", "length"];
    // Described by one number, a round hole stays round.
    const isRound = !(isStated(length) && isStated(["mouth", "hole", "width"]));
    return {
      kind: "lengthen",
      name: t("the embouchure hole"),
      path: isStated(length) ? length : ["mouth", "hole", "diameter"],
      sizeOf: (mouth) => mouth.length,
      withSize: (mouth, size) => ({ ...mouth, length: size, ...(isRound ? { width: size } : {}) }),
      farthest: ({ width }, bore) => Math.min(WIDEST_IN_BORES * bore, WIDEST_OVER_WIDTH * width),
    };
  },
};

/** An embouchure hole is opened along the tube to at most this many of its widths. Common practice, no source. */
const WIDEST_OVER_WIDTH = 1.15;

/** A vessel in the shape of a tube is written by other numbers than places. */
function isTubeChamber(body: Body): boolean {
  return body.kind === "vessel" && roundShape(body) === undefined;
}

/** Everything but the bore's upper end lies that much closer to the mouth's middle. */
function nearer(column: Column, moved: number): Column {
  return {
    ...column,
    bore: column.bore.map((station, i) => (i === 0 ? station : { ...station, x: station.x - moved })),
    holes: column.holes.map((hole) => ({ ...hole, x: hole.x - moved })),
  };
}

function placesOf(column: Column, holes: readonly { readonly path: Path }[]): readonly Path[] {
  return [
    ...column.bore.slice(1).map((_, i): Path => ["bore", i + 1, "at"]),
    ...holes.map(({ path }): Path => [...path, "at"]),
  ];
}
