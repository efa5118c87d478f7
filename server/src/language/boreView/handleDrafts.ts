/** Every dimension that can be dragged, with the limits that the shape sets. Millimetres as drawn. */
import type {
  BorePoint,
  HoleOutline,
  MouthOutline,
  Outline,
  PipeOutline,
  TubeOutline,
  VesselHoleOutline,
  VesselOutline,
} from "../../design/outline/outline.js";
import type { Handle } from "../../protocol/boreView.js";
import { t } from "../../words/translation.js";

export type HandleDraft = Omit<Handle, "lines" | "formula" | "fixed" | "moves" | "refused" | "centsPerMillimetre">;

/** mm: the narrowest hole that a drill or a nozzle makes, and the narrowest bore that is blown. Common practice, no source. */
const NARROWEST = 1;
const NARROWEST_BORE = 4;
/** mm left between two holes, or a hole and the foot: with none left the instrument cannot be made, and a drag would be refused where it ends. */
const PARTS_HOLES = 0.1;
/** Of the bore's width: a wider hole cannot be drilled. */
const WIDEST_IN_BORES = 1;
/** How far a bore is widened, or lengthened, in one drag. */
const LARGEST_GROWTH = 2;

export function draftsOf(body: Outline["body"]): readonly HandleDraft[] {
  switch (body.kind) {
    case "tube":
      return ofTube(body);
    case "pipes":
      return body.pipes.map(ofPipe);
    case "vessel":
      return body.holes.map((hole, i) => ofVesselHole(hole, i, body));
  }
}

/** The stopper of a pipe: its length. */
function ofPipe({ path, note, length, diameter }: PipeOutline, i: number): HandleDraft {
  const least = Math.min(length, diameter);
  const name = note ?? t`pipe ${i + 1}`;
  return {
    path: [...path, "length"],
    kind: "stopper",
    hole: i,
    station: -1,
    name,
    value: length,
    least,
    greatest: LARGEST_GROWTH * length,
  };
}

/** Its position changes no note: only its width is moved. */
function ofVesselHole({ path, name, width }: VesselHoleOutline, i: number, { semiAxes }: VesselOutline): HandleDraft {
  const greatest = Math.max(width, Math.min(...semiAxes));
  return {
    path: [...path, "diameter"],
    kind: "width",
    hole: i,
    station: -1,
    name,
    value: width,
    least: NARROWEST,
    greatest,
  };
}

function ofTube(body: TubeOutline): readonly HandleDraft[] {
  return [
    ...body.holes.flatMap((hole, i) => ofHole(hole, i, body)),
    ...body.bore.flatMap((point, i) => ofStation(point, i, body)),
    ...ofStopper(body),
  ];
}

function ofHole(hole: HoleOutline, i: number, { holes, mouth, to }: TubeOutline): HandleDraft[] {
  const { name, path, at, width } = hole;
  const edge = (other: HoleOutline) => (hole.length + other.length) / 2 + PARTS_HOLES;
  const [before, after] = [holes[i - 1], holes[i + 1]];
  // Findings say what less wall than `print.holeGap` means.
  const least = before === undefined ? mouthEnd(mouth) + hole.length / 2 + PARTS_HOLES : before.at + edge(before);
  const greatest = after === undefined ? to - hole.length / 2 - PARTS_HOLES : after.at - edge(after);
  const place = { path: [...path, "at"], hole: i, station: -1, name };
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

/** Where the mouth's opening ends, toward the foot. */
function mouthEnd(mouth: MouthOutline | undefined): number {
  if (mouth === undefined || mouth.kind === "rim") return 0;
  return mouth.kind === "embouchure" ? mouth.length / 2 : mouth.window.to;
}

/** The place of the first station cannot be moved: the mouth depends on it. */
function ofStation({ at, diameter, path }: BorePoint, i: number, { bore, holes }: TubeOutline): HandleDraft[] {
  const [before, after] = [bore[i - 1], bore[i + 1]];
  const isFoot = after === undefined;
  const name = isFoot ? t("foot") : t`station ${i + 1}`;
  const own = { hole: -1, station: i, name };
  const hole = holes.at(-1);
  const last = hole === undefined ? 0 : hole.at + hole.length / 2;
  const place: HandleDraft[] =
    before === undefined
      ? []
      : [
          {
            ...own,
            path: [...path, "at"],
            kind: isFoot ? "foot" : "station",
            value: at,
            least: Math.min(at, isFoot ? Math.max(before.at, last) : before.at),
            greatest: isFoot ? LARGEST_GROWTH * at : after.at,
          },
        ];
  const width: HandleDraft = {
    ...own,
    path: [...path, "diameter"],
    kind: "stationWidth",
    value: diameter,
    least: Math.min(diameter, NARROWEST_BORE),
    greatest: LARGEST_GROWTH * diameter,
  };
  return [...place, width];
}

/** How far upstream the air ends: behind an embouchure hole, or before a window. Its value is that distance. */
function ofStopper({ mouth, bore }: TubeOutline): HandleDraft[] {
  const own = { kind: "stopper", hole: -1, station: -1, name: t("stopper") } as const;
  const width = bore[0]?.diameter ?? 0;
  if (mouth?.kind === "embouchure" && mouth.stopper !== undefined)
    return [
      {
        ...own,
        path: ["mouth", "stopper"],
        value: -mouth.closedAt,
        least: mouth.length / 2,
        greatest: LARGEST_GROWTH * Math.max(width, -mouth.closedAt),
      },
    ];
  if (mouth?.kind === "duct" || mouth?.kind === "two-chamber")
    return [
      {
        ...own,
        path: ["mouth", "window", "stopper"],
        value: mouth.window.stopper,
        least: 0,
        greatest: LARGEST_GROWTH * width,
      },
    ];
  return [];
}
