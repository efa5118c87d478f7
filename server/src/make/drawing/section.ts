/** What a cut through a tube's axis, front to back, shows: areas in [z, y], y to the front. mm as drawn. */
import { boreProfile, boreRadiusAt } from "../../design/outline/bore.js";
import { labiumLine, notchLine, slowChamberLine, tiedBlockLine } from "../../design/outline/headProfile.js";
import type { MouthOutline, Profile, TubeOutline } from "../../design/outline/outline.js";
import { radiusOn } from "../../design/outline/tube.js";

export type SectionPoint = readonly [z: number, y: number];
export interface Section {
  /** The body. */
  readonly cut: readonly (readonly SectionPoint[])[];
  /** Block, plug, stopper. */
  readonly others: readonly (readonly SectionPoint[])[];
}

interface Gap {
  readonly from: number;
  readonly to: number;
  /** How much wider it is at the bore, at either end. */
  readonly under: number;
}

/** Holes are cut where they lie within this many degrees of front or back; others are not in this plane. */
const IN_PLANE = 20;

export function tubeSection(tube: TubeOutline): Section {
  const at = (direction: number): readonly Gap[] =>
    tube.holes
      .filter(({ angle }) => Math.abs(((angle - direction + 540) % 360) - 180) <= IN_PLANE)
      .map((hole) => ({ from: hole.at - hole.length / 2, to: hole.at + hole.length / 2, under: hole.undercut / 2 }));
  const { mouth } = tube;
  const head = headSection(mouth, tube);
  const front = walls(tube, head.wallFrom, [...head.gaps, ...at(0)], 1, head.edge);
  const back = walls(tube, tube.from, at(180), -1, []);
  return { cut: [...head.cut, ...front, ...back, ...ends(tube)], others: head.others };
}

/** The wall on one side, parted by gaps. @param edge what its upper end runs out in, from the bore outward */
function walls(
  tube: TubeOutline,
  from: number,
  gaps: readonly Gap[],
  side: 1 | -1,
  edge: readonly SectionPoint[],
): SectionPoint[][] {
  const sorted = [...gaps].sort((a, b) => a.from - b.from);
  const starts = [from, ...sorted.map(({ to }) => to)];
  const ends = [...sorted.map((gap) => gap.from), tube.to];
  return starts.flatMap((start, i) => {
    const end = ends[i] ?? tube.to;
    const [above, below] = [sorted[i - 1]?.under ?? 0, sorted[i]?.under ?? 0];
    const inner = [Math.min(start + above, end), Math.max(end - below, start)] as const;
    return end - start < 1e-6 ? [] : [[...wall(tube, [start, end], inner, side), ...(i === 0 ? edge : [])]];
  });
}

/** @param outside from where to where it reaches there, `inside` at the bore */
function wall(
  tube: TubeOutline,
  outside: readonly [number, number],
  [from, to]: readonly [number, number],
  side: 1 | -1,
): SectionPoint[] {
  const foot = tube.bore.at(-1)?.at ?? to;
  const inner = boreProfile(tube.bore, from, Math.min(to, Math.max(foot, from)));
  const outer = between(tube.outside, ...outside);
  const up = (profile: Profile) => profile.map(([z, radius]): SectionPoint => [z, side * radius]);
  return [...up(outer), ...up(to > foot ? [...inner, [to, boreRadiusAt(tube.bore, foot)]] : inner).reverse()];
}

function between(profile: Profile, from: number, to: number): Profile {
  const inside = profile.filter(([z]) => z > from && z < to);
  return [[from, radiusOn(profile, from)], ...inside, [to, radiusOn(profile, to)]];
}

/** Ends that the body itself closes. */
function ends(tube: TubeOutline): SectionPoint[][] {
  const plate = (from: number, to: number): SectionPoint[] => {
    const radius = boreRadiusAt(tube.bore, to);
    return [
      [from, radius],
      [to, radius],
      [to, -radius],
      [from, -radius],
    ];
  };
  const closed: SectionPoint[][] = [];
  if (tube.foot === "stopped") closed.push(plate(tube.bore.at(-1)?.at ?? tube.to, tube.to));
  if (tube.mouth?.kind === "embouchure" && tube.mouth.stopper === undefined)
    closed.push(plate(tube.from, tube.mouth.closedAt));
  return closed;
}

interface HeadSection extends Section {
  /** Where the ordinary wall in front begins, and what the mouth takes of it. */
  readonly wallFrom: number;
  readonly edge: readonly SectionPoint[];
  readonly gaps: readonly Gap[];
}

function headSection(mouth: MouthOutline | undefined, tube: TubeOutline): HeadSection {
  const none: HeadSection = { cut: [], others: [], wallFrom: tube.from, edge: [], gaps: [] };
  const radius = boreRadiusAt(tube.bore, 0);
  const outer = radius + tube.wall;
  const stopper = (from: number, to: number): SectionPoint[] => [
    [from, radius],
    [to, radius],
    [to, -radius],
    [from, -radius],
  ];
  switch (mouth?.kind) {
    case "embouchure": {
      const others = mouth.stopper === undefined ? [] : [stopper(mouth.stopper.from, mouth.stopper.to)];
      return { ...none, gaps: [{ from: -mouth.length / 2, to: mouth.length / 2, under: mouth.undercut / 2 }], others };
    }
    case "rim": {
      const { notch } = mouth;
      if (notch === undefined) return none;
      const [foot, top, end] = notchLine(notch, tube.from, radius, outer);
      return { ...none, wallFrom: end[0], edge: [foot, top] };
    }
    case "duct": {
      const { windway, window, block } = mouth;
      const { from, to, floor, entryHeight, exitHeight } = windway;
      const roof: SectionPoint[] = [
        [from, outer],
        [to, outer],
        [to, floor + exitHeight],
        [from, floor + entryHeight],
      ];
      const shelf: SectionPoint[][] = window.stopper > 0 ? [stoppedFloor(from, to, radius, floor)] : [];
      return {
        ...none,
        ...labium(mouth, radius, outer),
        cut: [roof, ...shelf],
        others: [stopper(block.from, block.to)],
      };
    }
    case "two-chamber": {
      const { windway, chamber, plug, nest, mouthHole } = mouth;
      const [narrow, full] = slowChamberLine(mouth);
      const [a, m, top] = [chamber.diameter / 2, mouthHole / 2, Math.min(nest.height, outer)];
      const exit = chamber.to - mouth.exitLength;
      const upper: SectionPoint[] = [
        [tube.from, outer],
        [nest.from, outer],
        [nest.from, top],
        [exit, top],
        [exit, a],
        full,
        narrow,
        [tube.from, m],
      ];
      const lower: SectionPoint[] = [
        [tube.from, -radius],
        [tube.from, -m],
        [narrow[0], -m],
        [full[0], -a],
        [full[0], -radius],
      ];
      return {
        ...none,
        ...labium(mouth, radius, outer),
        cut: [upper, lower, stoppedFloor(chamber.to, windway.to, radius, windway.floor)],
        others: [stopper(plug.from, plug.to), tiedBlockLine(mouth)],
      };
    }
    default:
      return none;
  }
}

function stoppedFloor(from: number, to: number, radius: number, floor: number): SectionPoint[] {
  return [
    [from, floor],
    [to, floor],
    [to, radius],
    [from, radius],
  ];
}

function labium(
  mouth: Extract<MouthOutline, { kind: "duct" | "two-chamber" }>,
  radius: number,
  outer: number,
): Pick<HeadSection, "wallFrom" | "edge"> {
  const edge = labiumLine(mouth.labium, radius, outer);
  return { wallFrom: Math.max(edge[0][0], edge[3][0]), edge };
}
