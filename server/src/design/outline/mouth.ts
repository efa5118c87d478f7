/** The mouth of a tube: duct, two-chamber head, embouchure hole, rim. */
import { SOLID_DEFAULTS as USUAL } from "../../instrument/defaults.js";
import { traitsOf } from "../../instrument/families/index.js";
import { leastWallOf } from "../../instrument/making/makerLimits.js";
import { t } from "../../words/translation.js";
import { boreRadiusAt } from "./bore.js";
import type {
  BorePoint,
  DuctOutline,
  EmbouchureOutline,
  LabiumOutline,
  MouthOutline,
  OpeningOutline,
  RimOutline,
  TwoChamberOutline,
  WindowOutline,
} from "./outline.js";
import type { Sizes } from "./sizes.js";

/**
 * Undefined where the design has no mouth that could be drawn.
 * @param ownEnd where the body's own end closes the air above an embouchure hole; left out, a stopper does
 */
export function mouthOutline(
  bore: readonly BorePoint[],
  wall: number,
  sizes: Sizes,
  ownEnd?: number,
): MouthOutline | undefined {
  const { mouth } = sizes.draft;
  const radius = boreRadiusAt(bore, 0);
  switch (mouth?.kind) {
    case "window": {
      const window = windowOutline(mouth, sizes);
      return sizes.word("mouth", "chamber") === undefined
        ? duct(window, radius, wall, sizes)
        : twoChamber(window, radius, sizes);
    }
    case "embouchure": {
      const hole = { ...openingOf(mouth, sizes), undercut: sizes.mm(mouth.undercut), boreRadius: radius };
      return ownEnd === undefined
        ? stoppered(hole, sizes.mm(mouth.stopper), sizes)
        : { kind: "embouchure", ...hole, stopper: undefined, closedAt: ownEnd };
    }
    case "notch":
    case "rim":
      return rim(sizes);
    case "correction":
      return traitsOf(sizes.draft)?.mouth === "rim" ? rim(sizes) : undefined;
    default:
      return undefined;
  }
}

/** Where the wood of the mouth begins. @param first the bore's first station */
export function woodBegins(mouth: MouthOutline | undefined, first: number): number {
  switch (mouth?.kind) {
    case "duct":
      return mouth.windway.from;
    case "two-chamber":
      return mouth.chamber.from - USUAL.endWall;
    case "embouchure":
      return (mouth.stopper?.from ?? mouth.closedAt) - USUAL.stopperMargin;
    default:
      return first;
  }
}

type Written = { readonly width: number; readonly length: number; readonly chimney: number };

function openingOf({ width, length, chimney }: Written, sizes: Sizes): OpeningOutline {
  return { width: sizes.mm(width), length: sizes.mm(length), chimney: sizes.mm(chimney) };
}

export function windowOutline(
  mouth: { readonly width: number; readonly cutUp: number; readonly chimney: number; readonly stopper: number },
  sizes: Sizes,
): WindowOutline {
  const opening = openingOf({ ...mouth, length: mouth.cutUp }, sizes);
  return { ...opening, from: -opening.length / 2, to: opening.length / 2, stopper: sizes.mm(mouth.stopper) };
}

function duct(window: WindowOutline, radius: number, wall: number, sizes: Sizes): DuctOutline {
  // The floor is the block where that ends at the window, and else a shelf over the bore's closed end.
  const floor = window.stopper === 0 ? radius : radius + USUAL.nestFloor;
  const roof = leastWallOf(sizes.draft)?.mm ?? 0;
  const most = radius + wall - floor - roof;
  const windway = windwayOf(window, floor, most, sizes);
  const beak = {
    angle: sizes.plain(["solid", "beak", "angle"], USUAL.beakAngle),
    lip: sizes.or(["solid", "beak", "lip"], Math.min(USUAL.beakLip, radius)),
  };
  return {
    kind: "duct",
    window,
    windway,
    labium: labiumOf(window.to, floor, sizes),
    block: { from: windway.from, to: window.from - window.stopper, radius: radius - USUAL.blockFit },
    beak,
  };
}

/** @param most largest height that leaves a roof */
export function windwayOf(window: WindowOutline, floor: number, most: number, sizes: Sizes) {
  const length = sizes.or(["mouth", "windway", "length"], USUAL.windwayLength, t("A windway of"));
  const width = sizes.or(["mouth", "windway", "width"], window.width);
  const usualExit = Math.min(USUAL.windwayExit, Math.max(most, 0));
  // In a thin wall there is no room for one: nothing is assumed.
  const taken = usualExit > 0 ? t("A windway whose exit is as high as") : undefined;
  const exitHeight = sizes.or(["mouth", "windway", "height"], usualExit, taken);
  const usualEntry = Math.max(exitHeight, Math.min(exitHeight * USUAL.windwayEntryShare, most));
  return {
    from: window.from - length,
    to: window.from,
    width,
    entryWidth: width * USUAL.windwayFlare,
    exitHeight,
    entryHeight: sizes.or(["mouth", "windway", "entry"], usualEntry),
    floor,
    chamfer: USUAL.windwayChamfer,
  };
}

export function labiumOf(at: number, floor: number, sizes: Sizes): LabiumOutline {
  const edge = sizes.or(["solid", "labium", "edge"], USUAL.edge, t("A labium whose edge is as thick as"));
  const low = floor + sizes.or(["solid", "labium", "lift"], USUAL.edgeLift);
  const ramp = sizes.plain(["solid", "labium", "ramp"], USUAL.ramp);
  return { at, low, high: low + edge, ramp, relief: USUAL.relief };
}

function twoChamber(window: WindowOutline, radius: number, sizes: Sizes): TwoChamberOutline {
  const floor = radius + USUAL.nestFloor;
  const exitHeight = sizes.or(["mouth", "windway", "height"], USUAL.channelHeight, t("A channel as high as"));
  const length = sizes.or(["mouth", "windway", "length"], USUAL.channelLength, t("A channel of"));
  const width = sizes.or(["mouth", "windway", "width"], window.width);
  const channel = { from: window.from - length - USUAL.exitLength, to: window.from, width, entryWidth: width };
  const plugFrom = window.from - length;
  const diameter = sizes.or(["mouth", "chamber", "diameter"], 2 * radius);
  const chamberLength = sizes.or(
    ["mouth", "chamber", "length"],
    2 * radius * USUAL.chamberInBores,
    t("A slow air chamber of"),
  );
  const size = (name: "length" | "width" | "height") => sizes.or(["mouth", "block", name], USUAL.block[name]);
  const block = { length: size("length"), width: size("width"), height: size("height") };
  return {
    kind: "two-chamber",
    window,
    windway: { ...channel, exitHeight, entryHeight: exitHeight, floor, chamfer: USUAL.windwayChamfer },
    labium: labiumOf(window.to, floor, sizes),
    chamber: { from: plugFrom - chamberLength, to: plugFrom, diameter },
    mouthHole: Math.min(USUAL.mouthHole, diameter / 2),
    exitLength: USUAL.exitLength,
    plug: { from: plugFrom, to: window.from - window.stopper, radius: radius - USUAL.blockFit },
    nest: {
      from: window.from - block.length - USUAL.nestMargin,
      to: window.to + block.width / 2,
      height: floor + exitHeight,
      width: block.width + 2 * USUAL.nestMargin,
    },
    block,
  };
}

function stoppered(
  hole: Omit<EmbouchureOutline, "kind" | "stopper" | "closedAt">,
  face: number,
  sizes: Sizes,
): EmbouchureOutline {
  const length = sizes.or(["solid", "stopperLength"], USUAL.stopperLength, t("A stopper of"));
  const stopper = { from: -face - length, to: -face, radius: hole.boreRadius - USUAL.stopperFit };
  return { kind: "embouchure", ...hole, stopper, closedAt: -face };
}

function rim(sizes: Sizes): RimOutline {
  const width = sizes.at("mouth", "notch", "width");
  const depth = sizes.at("mouth", "notch", "depth");
  if (width === undefined || depth === undefined) return { kind: "rim", notch: undefined };
  const ramp = sizes.plain(["mouth", "notch", "ramp"], USUAL.notchRamp);
  return { kind: "rim", notch: { width, depth, ramp, edge: sizes.or(["solid", "labium", "edge"], USUAL.edge) } };
}
