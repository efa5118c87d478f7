/** From the drawing of a vessel to the printed object in SI units: a closed chamber, or a stopped tube. */
import type { Column, Mouth } from "../../acoustics/column.js";
import type { Vessel, VesselHole } from "../../acoustics/vesselShape.js";
import type { Chamber } from "../body.js";
import {
  cavityOf,
  type DraftCavity,
  holeDirection,
  holeElevation,
  holeStation,
  mouthIsAtSide,
} from "../draft/cavity.js";
import type { Draft } from "../draft/draft.js";
import { holesAreKnown } from "../draft/read.js";
import { allOf, areSizes } from "./allOf.js";
import { printedHole, printedMouth } from "./openings.js";
import type { Printing } from "./printing.js";

/** Undefined while a number is missing or nothing of that size can be made. */
export function chamberOf(draft: Draft, printing: Printing): Chamber | undefined {
  const cavity = cavityOf(draft);
  const mouth = printedMouth(draft, printing);
  if (!printing.known || cavity === undefined || draft.wall === undefined || !holesAreKnown(draft.data))
    return undefined;
  if (mouth?.kind !== "window" && mouth?.kind !== "embouchure") return undefined;
  const path = ["vessel", cavity.size];
  const size = { path, kind: cavity.size, value: draft.numbers.at(path) ?? Number.NaN };
  const mouthAtSide = mouthIsAtSide(draft);
  if (cavity.kind === "tube") {
    const column = stoppedTube(draft, printing, cavity, mouth);
    return column && { kind: "tube", column, size, mouthAtSide };
  }
  const shape = roundBody(draft, printing, cavity, mouth);
  if (shape === undefined) return undefined;
  const standIn = cavity.standIn === undefined ? {} : { standIn: cavity.standIn };
  return { kind: "round", shape, sized: cavity.sized, ...standIn, size, mouthAtSide };
}

function roundBody(
  draft: Draft,
  { printedUnit, holeUndersize }: Printing,
  { semiAxes }: Extract<DraftCavity, { kind: "round" }>,
  mouth: Vessel["mouth"],
): Vessel | undefined {
  const indexed = draft.holes.map((hole, i) => ({
    ...hole,
    direction: holeDirection(draft, i),
    elevation: holeElevation(draft, i),
  }));
  const holes = allOf(indexed, ({ diameter, length, chimney, direction, elevation }): VesselHole | undefined => {
    if (diameter === undefined || length === undefined || chimney === undefined) return undefined;
    if (direction === undefined || elevation === undefined) return undefined;
    // An oval hole counts as the round one of its area.
    const [across, along] = [diameter, length].map((size) => size * printedUnit - holeUndersize) as [number, number];
    const radius = across === along ? across / 2 : Math.sqrt(Math.max(0, across) * Math.max(0, along)) / 2;
    return { radius, chimney: chimney * printedUnit, angle: direction * RADIANS, elevation: elevation * RADIANS };
  });
  if (holes === undefined) return undefined;
  const [a, b, c] = semiAxes;
  const wall = (draft.wall ?? Number.NaN) * printedUnit;
  const sizes = [a, b, c, wall, ...holes.flatMap(({ radius, chimney }) => [radius, chimney]), ...mouthSizes(mouth)];
  if (!areSizes(sizes)) return undefined;
  return { semiAxes: [a * printedUnit, b * printedUnit, c * printedUnit], wall, mouth, holes };
}

const RADIANS = Math.PI / 180;

function mouthSizes(mouth: Vessel["mouth"]): readonly number[] {
  return [mouth.width, mouth.chimney, mouth.kind === "window" ? mouth.cutUp : mouth.length];
}

/**
 * A tube stopped at both ends. A window at its end is cut from there on; one in the middle of its side counts as an oval of the
 * same area, some 2 % of its end correction away.
 */
function stoppedTube(
  draft: Draft,
  printing: Printing,
  cavity: Extract<DraftCavity, { kind: "tube" }>,
  mouth: Vessel["mouth"],
): Column | undefined {
  const { printedUnit } = printing;
  const length = cavity.length * printedUnit;
  const radius = (cavity.diameter * printedUnit) / 2;
  const wall = (draft.wall ?? Number.NaN) * printedUnit;
  const along = mouth.kind === "window" ? mouth.cutUp : mouth.length;
  const start = mouthIsAtSide(draft) ? length / 2 : along / 2;
  const indexed = draft.holes.map((hole, i) => ({
    ...hole,
    station: holeStation(draft, hole, i, (length - start) / printedUnit),
  }));
  const holes = allOf(indexed, ({ station, ...hole }) => printedHole(hole, station, printing));
  if (holes === undefined) return undefined;
  const sizes = [
    length - start,
    radius,
    wall,
    ...holes.flatMap((hole) => [hole.radius, hole.chimney]),
    ...mouthSizes(mouth),
  ];
  if (!areSizes(sizes)) return undefined;
  if (holes.some(({ x }, i) => x > length - start || x < (holes[i - 1]?.x ?? 0))) return undefined;
  return {
    bore: [
      { x: -start, radius },
      { x: length - start, radius },
    ],
    wall,
    foot: "stopped",
    holes,
    mouth: mouthOnTube(mouth, mouthIsAtSide(draft), start),
    bodyEnds: bodyEndsOf(mouth, mouthIsAtSide(draft), length, start, wall),
  };
}

/** The end walls are as thick as the side. Before a window at the end the body goes on, as a windway leads to it. */
function bodyEndsOf(mouth: Vessel["mouth"], atSide: boolean, length: number, start: number, wall: number) {
  const farEnd = length - start + wall;
  return mouth.kind === "window" && !atSide ? [farEnd] : [-start - wall, farEnd];
}

function mouthOnTube(mouth: Vessel["mouth"], atSide: boolean, start: number): Mouth {
  if (mouth.kind === "embouchure") return { ...mouth, stopper: start };
  if (!atSide) return mouth;
  const { width, cutUp, chimney, extra = 0 } = mouth;
  const oval = Math.sqrt(4 / Math.PI);
  return { kind: "embouchure", length: cutUp * oval, width: width * oval, chimney, extra, cover: 0, stopper: start };
}
