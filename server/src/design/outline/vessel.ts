/** A vessel: a closed chamber, or a tube closed at both ends. */
import { SOLID_DEFAULTS as USUAL } from "../../instrument/defaults.js";
import {
  cavityOf,
  type DraftCavity,
  holeDirection,
  holeElevation,
  holeStation,
  mouthIsAtSide,
  placeOn,
} from "../../instrument/draft/cavity.js";
import type { Draft } from "../../instrument/draft/draft.js";
import { leastWallOf } from "../../instrument/making/makerLimits.js";
import { allOf } from "../../instrument/printed/allOf.js";
import { t } from "../../words/translation.js";
import { holeOutline } from "./holes.js";
import { labiumOf, mouthOutline, windowOutline, windwayOf } from "./mouth.js";
import type { BorePoint, TubeOutline, VesselHoleOutline, VesselMouthOutline, VesselOutline } from "./outline.js";
import type { Sizes } from "./sizes.js";
import { assembled } from "./tube.js";

export function vesselOutline(draft: Draft, sizes: Sizes): VesselOutline | TubeOutline | undefined {
  const cavity = cavityOf(draft);
  const wall = sizes.mm(draft.wall);
  if (cavity === undefined || wall === undefined) return undefined;
  return cavity.kind === "tube" ? closedTube(draft, cavity, wall, sizes) : round(draft, cavity, wall, sizes);
}

/** Closed at both ends. A window in the middle of its side has no outline of its own yet. */
function closedTube(
  draft: Draft,
  cavity: Extract<DraftCavity, { kind: "tube" }>,
  wall: number,
  sizes: Sizes,
): TubeOutline | undefined {
  const { mouth } = draft;
  if (mouth?.kind !== "window" && mouth?.kind !== "embouchure") return undefined;
  const along = mouth.kind === "window" ? mouth.cutUp : mouth.length;
  const start = mouthIsAtSide(draft) ? cavity.length / 2 : along / 2;
  const station = (at: number): BorePoint => ({
    path: ["vessel", "length"],
    at: sizes.mm(at),
    diameter: sizes.mm(cavity.diameter),
  });
  const bore = [station(-start), station(cavity.length - start)];
  const holes = allOf(
    draft.holes.map((hole, i) => ({ hole, at: holeStation(draft, hole, i, cavity.length - start) })),
    ({ hole, at }) => holeOutline(hole, at, bore, sizes),
  );
  if (holes === undefined) return undefined;
  const drawn =
    mouth.kind === "window" && mouthIsAtSide(draft) ? undefined : mouthOutline(bore, wall, sizes, -sizes.mm(start));
  return assembled({ bore, wall, holes, foot: "stopped", mouth: drawn }, sizes);
}

function round(
  draft: Draft,
  { semiAxes: [toMouth, inPlane, across], standIn }: Extract<DraftCavity, { kind: "round" }>,
  wall: number,
  sizes: Sizes,
): VesselOutline | undefined {
  const semiAxes = [sizes.mm(inPlane), sizes.mm(across), sizes.mm(toMouth)] as const;
  const [x, y, z] = semiAxes;
  const mouth = vesselMouth(draft, z, wall, sizes);
  const holes = allOf(
    draft.holes.map((hole, i) => ({
      ...hole,
      direction: holeDirection(draft, i),
      elevation: holeElevation(draft, i),
    })),
    ({ label, path, diameter, length, chimney, direction, elevation }): VesselHoleOutline | undefined => {
      if (diameter === undefined || length === undefined || chimney === undefined) return undefined;
      if (direction === undefined || elevation === undefined) return undefined;
      const { point, normal } = placeOn([z, x, y], direction, elevation);
      return {
        name: label,
        path,
        width: sizes.mm(diameter),
        length: sizes.mm(length),
        chimney: sizes.mm(chimney),
        angle: direction,
        elevation,
        point: [point[1], point[0]],
        normal: [normal[1], normal[0]],
        // The windway comes from +y: elevations count toward the other side.
        aside: point[2] === 0 ? 0 : -point[2],
        normalAside: normal[2] === 0 ? 0 : -normal[2],
      };
    },
  );
  if (mouth === undefined || holes === undefined) return undefined;
  if (standIn === "box") sizes.say(t("Made as the ellipsoid that the box is treated as"));
  if (standIn === "volume only") sizes.say(t("Made as the sphere that the volume is treated as"));
  const halves = sizes.word("solid", "halves") !== false;
  return { kind: "vessel", semiAxes, wall, mouth, holes, split: halves ? splitOf(holes, z) : undefined };
}

function vesselMouth(draft: Draft, pole: number, wall: number, sizes: Sizes): VesselMouthOutline | undefined {
  const { mouth } = draft;
  if (mouth?.kind === "embouchure") {
    const { width, length, chimney } = mouth;
    return { kind: "embouchure", width: sizes.mm(width), length: sizes.mm(length), chimney: sizes.mm(chimney) };
  }
  if (mouth?.kind !== "window") return undefined;
  const window = windowOutline({ ...mouth, stopper: 0 }, sizes);
  const floor = pole + Math.min(USUAL.vesselFloor, wall);
  const windway = windwayOf(window, floor, USUAL.windwayExit * USUAL.windwayEntryShare, sizes);
  const cheek = Math.max(USUAL.cheek, leastWallOf(draft)?.mm ?? 0);
  return { kind: "duct", window, windway, labium: labiumOf(window.to, floor, sizes), cheek };
}

/** Steps in which a place for the split is looked for, and how far from the poles it stays, in half axes. */
const STEPS = 200;
const NEAREST_POLE = 0.85;

/** Below the middle, where the cavity narrows and the lip slides in: in the middle of the widest room between holes. */
function splitOf(holes: readonly VesselHoleOutline[], pole: number): VesselOutline["split"] {
  const lip = USUAL.lipLength;
  const margin = lip / 2;
  const taken = holes.map(({ point: [, z], width, length }) => {
    const half = Math.max(width, length) / 2;
    return [z - half - margin, z + half + margin + lip] as const;
  });
  const free = (z: number) => taken.every(([low, high]) => z < low || z > high);
  let best: { readonly at: number; readonly room: number } | undefined;
  let start: number | undefined;
  for (let step = 0; step <= STEPS; step++) {
    const z = -NEAREST_POLE * pole + (step / STEPS) * NEAREST_POLE * pole;
    const open = step < STEPS && free(z);
    if (open) start ??= z;
    else if (start !== undefined) {
      if (best === undefined || z - start > best.room) best = { at: (start + z) / 2, room: z - start };
      start = undefined;
    }
  }
  return best && { at: best.at, lip };
}
