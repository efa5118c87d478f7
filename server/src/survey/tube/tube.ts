/** One straight bore: its outline, its mouth and its holes, as the description has them. */
import { median } from "../../sound/median.js";
import type { Axis } from "../axis/straight.js";
import { framed, type Mesh } from "../mesh/mesh.js";
import type { Loose } from "../parts/loose.js";
import { FINEST, length, type SurveyedHole, type SurveyedTube } from "../surveyed.js";
import { frontOf } from "./front.js";
import type { HoleFound } from "./hole.js";
import { jointsOf } from "./joints.js";
import { type Look, lookAt, lookedAtFromOtherEnd } from "./look.js";
import { mouthOf, sameWallWithin, undercutOf } from "./mouth.js";
import { degrees } from "./near.js";
import { type Row, type Scan, scan, scannedFromOtherEnd } from "./scan.js";
import { type Sample, stationsOf } from "./stations.js";

export interface TubeFound {
  readonly body: SurveyedTube;
  readonly notes: readonly string[];
  readonly questions: readonly string[];
}

/** Explains the bore within this many mm of its diameter, or this many times its noise. */
const EXPLAINED = 0.03;
const NOISES = 6;
/** Nothing is read nearer to the labium than this share of the bore, for its relief is cut into the wall. */
const BELOW_LABIUM = 0.3;
/** What the corners of a bore may stand out and go without a word, mm. */
const COARSE = 0.03;
/** mm of scatter of one value for each of the wall's roughness: how noise of σ on every corner comes out (found by trial). */
const OF_ROUGHNESS = 0.6;
/** Degrees within which a hole is at the front. */
const AT_FRONT = 1.5;
/** Degrees of a leaning hole worth a word. */
const LEANS = 1.5;
/** Standard deviations from which on it is reported: the format has no word for it, so it must be sure (found by trial on scans). */
const LEANS_SURELY = 5;
const KINK = 0.08;
/** Axes of an oval that differ by a smaller share may be a round hole in a rough mesh. */
const NEARLY_ROUND = 0.05;

/** @param loose solid pieces that lie beside it */
export function surveyTube(mesh: Mesh, axis: Axis, loose: readonly Loose[] = []): TubeFound {
  const seen = framed(mesh, axis.rows, axis.origin);
  let scanned = scan(seen);
  let look = lookAt(seen, scanned);
  if (!look.isMouthLow) {
    const at = scanned.runs.indexOf(look.main);
    scanned = scannedFromOtherEnd(scanned);
    look = lookedAtFromOtherEnd(look, scanned.runs.at(-1 - at) ?? look.main);
  }
  return described(seen, scanned, look, loose);
}

function described(mesh: Mesh, scanned: Scan, look: Look, loose: readonly Loose[]): TubeFound {
  const [notes, questions]: [string[], string[]] = [[], []];
  const { main, window, embouchure, family } = look;
  const mouthAt = window ? (window.up + window.down) / 2 : (embouchure?.z ?? main.from);
  const rows = scanned.rows
    .slice(main.first, main.last + 1)
    .filter(({ circle }) => circle !== undefined && circle.share > 0.3);
  const below =
    window === undefined
      ? rows
      : rows.filter(({ z }) => z > window.down + 2 * BELOW_LABIUM * look.radius(window.down + 20));
  const bore = outlineOf(below, family === "transverse" ? upperEnd(look) : mouthAt, main.to);
  const surely = (mm: number) => length(mm, bore.roughness);
  for (const at of jointsOf(scanned, main, mouthAt + 5, trianglesOf(mesh))) bore.part(at);
  if (bore.rims > 0)
    notes.push(`The bore's rim is rounded or chamfered over ${words(bore.rims, 1)} mm, which is left out.`);
  if (bore.facet > COARSE) {
    notes.push(
      `The bore has about ${bore.sides} flat sides: its corners lie on ${words(bore.corner)} mm, ${words(bore.usual)} mm is the round bore of the same area, which is what sounds. Holes are read the same way. Were they drawn wider and the mesh made coarse?`,
    );
  }
  const mouth = mouthOf({ mesh, scanned, look, usual: bore.usual, roughness: bore.roughness, loose }, notes, questions);
  const front = frontOf(look) ?? Math.PI / 2;
  const holes = look.holes.map((hole) =>
    holeOf(hole, {
      mouthAt,
      front,
      wall: look.wall.mm,
      roughness: bore.roughness,
      facet: bore.facet,
      localWall: localWall(rows, hole.z),
    }),
  );
  const body: SurveyedTube = {
    kind: "tube",
    mouth,
    bore: bore.stations.map(({ z, diameter, joint }) => ({
      at: length(z - mouthAt, bore.roughness),
      diameter: length(diameter, bore.plusMinus),
      joint,
    })),
    wall: length(look.wall.mm, Math.max(look.wall.scatter, surely(0).plusMinus)),
    foot: main.closedTo ? "stopped" : "open",
    holes,
  };
  if (!look.isSure)
    questions.push(
      "Is the mouth at this end? Both ends are open and alike; the one farther from the holes was assumed.",
    );
  return { body, notes, questions };
}

/** The closed end of a side-blown bore; where nothing closes it, a bore's width from the embouchure, as a stopper is usually set. */
function upperEnd({ main, embouchure, radius }: Look): number {
  if (main.closedFrom || embouchure === undefined) return main.from;
  return Math.max(main.from, embouchure.z - 2 * radius(embouchure.z));
}

interface Outline {
  readonly stations: readonly { readonly z: number; readonly diameter: number; readonly joint: boolean }[];
  /** Marks a joint, at a station of its own where none is near. */
  readonly part: (z: number) => void;
  /** mm of the axis at the ends where edges are rounded or chamfered, which is left out. */
  readonly rims: number;
  /** Median diameter, and the median of the corners of flat sides; their height and number. */
  readonly usual: number;
  readonly corner: number;
  readonly facet: number;
  readonly sides: number;
  /** What a place or a size scatters by the wall's roughness. */
  readonly roughness: number;
  readonly plusMinus: number;
}

function outlineOf(rows: readonly Row[], from: number, to: number): Outline {
  const samples = rows.flatMap(({ z, circle }) => (circle === undefined ? [] : [{ z, diameter: 2 * circle.radius }]));
  const jitter = median(
    samples
      .slice(1, -1)
      .map(({ diameter }, i) =>
        Math.abs(diameter - ((samples[i]?.diameter ?? 0) + (samples[i + 2]?.diameter ?? 0)) / 2),
      ),
  );
  // Bumps as wide as several rows move neighbours alike.
  const unsure = 2 * median(rows.flatMap(({ circle }) => circle?.unsure ?? []));
  const noise = Math.max(jitter || 0, unsure || 0);
  const usual = median(samples.map(({ diameter }) => diameter));
  const found = stationsOf(withoutGrooves(samples, noise), Math.max(EXPLAINED, NOISES * noise));
  const { kept, cut } = withoutRims(found, usual);
  let stations = reaching(kept, from, to).map((station) => ({ ...station, joint: false }));
  const corner = 2 * median(rows.flatMap(({ circle }) => circle?.corner ?? []));
  const facet = corner - usual;
  const roughness = OF_ROUGHNESS * median(rows.flatMap(({ circle }) => circle?.rms ?? []));
  return {
    get stations() {
      return stations;
    },
    part: (z) => {
      const near = stations.find((each) => Math.abs(each.z - z) < 0.5);
      if (near !== undefined) {
        stations = stations.map((each) => (each === near ? { ...each, z, joint: true } : each));
        return;
      }
      const next = stations.findIndex((each) => each.z > z);
      const [a, b] = [stations[next - 1], stations[next]];
      if (a === undefined || b === undefined) return;
      const diameter = a.diameter + ((b.diameter - a.diameter) * (z - a.z)) / (b.z - a.z);
      stations = stations.toSpliced(next, 0, { z, diameter, joint: true });
    },
    rims: cut,
    usual,
    corner,
    facet,
    sides: Math.round(median(rows.flatMap(({ circle }) => circle?.sides ?? []))),
    roughness,
    plusMinus: Math.max(FINEST, facet, 3 * jitter || 0, unsure),
  };
}

/** Grooves and the gaps of joints do not sound: samples that leave what both sides agree on are left out. */
function withoutGrooves(samples: readonly Sample[], noise: number): readonly Sample[] {
  const most = Math.max(0.06, NOISES * noise);
  return samples.filter((sample, i) => {
    if (i < 3 || i > samples.length - 4) return true;
    const [before, after] = [samples[Math.max(0, i - 5)], samples[Math.min(samples.length - 1, i + 5)]];
    return Math.abs(sample.diameter - ((before?.diameter ?? 0) + (after?.diameter ?? 0)) / 2) < most;
  });
}

/** An end stretch shorter than this share of the bore's width is its rim, broken or rounded. */
const RIM = 0.15;

function withoutRims(stations: readonly Sample[], usual: number) {
  const isShort = (a: Sample | undefined, b: Sample | undefined) => Math.abs((b?.z ?? 0) - (a?.z ?? 0)) < RIM * usual;
  let kept = stations;
  let cut = 0;
  while (kept.length > 2 && isShort(kept[0], kept[1])) {
    cut = Math.max(cut, (kept[1]?.z ?? 0) - (stations[0]?.z ?? 0));
    kept = kept.slice(1);
  }
  while (kept.length > 2 && isShort(kept.at(-2), kept.at(-1))) {
    cut = Math.max(cut, (stations.at(-1)?.z ?? 0) - (kept.at(-2)?.z ?? 0));
    kept = kept.slice(0, -1);
  }
  return { kept, cut };
}

/** The first and last lines drawn out to the bore's ends. */
function reaching(stations: readonly Sample[], from: number, to: number): readonly Sample[] {
  const along = (a: Sample | undefined, b: Sample | undefined, z: number) =>
    a === undefined || b === undefined
      ? (a?.diameter ?? Number.NaN)
      : a.diameter + ((b.diameter - a.diameter) * (z - a.z)) / (b.z - a.z);
  const first = { z: from, diameter: along(stations[0], stations[1], from) };
  const last = { z: to, diameter: along(stations.at(-1), stations.at(-2), to) };
  return [first, ...stations.slice(1, -1).filter(({ z }) => z > from + 0.5 && z < to - 0.5), last];
}

function trianglesOf({ shell, shells }: Mesh): Int32Array {
  const counts = new Int32Array(shells);
  for (const each of shell) counts[each] = (counts[each] as number) + 1;
  return counts;
}

/** mm of the axis around a hole from which the body's thickness is taken. */
const AROUND_HOLE = 15;

function localWall(rows: readonly Row[], z: number): number {
  const near = rows.filter((row) => Math.abs(row.z - z) < AROUND_HOLE);
  return median((near.length > 0 ? near : rows).map(({ outer, circle }) => outer - (circle?.radius ?? 0)));
}

interface Around {
  readonly mouthAt: number;
  readonly front: number;
  readonly wall: number;
  readonly roughness: number;
  readonly facet: number;
  /** The body's thickness there, without what stands up. */
  readonly localWall: number;
}

function holeOf(hole: HoleFound, { mouthAt, front, wall, roughness, facet, localWall }: Around): SurveyedHole {
  // The corners of a round hole's flat sides lie on the circle it was drawn as, or its area is that circle's: not known which.
  const drawn = hole.isRound ? 2 * hole.facet : 0;
  // Or its two axes are one diameter, and the difference is the mesh's.
  const apart = Math.abs(hole.length - hole.width);
  const nearlyRound = !hole.isRound && apart < NEARLY_ROUND * hole.diameter ? apart / 2 : 0;
  // An oval's two axes are unsure by what bumps make of its ovalness, too.
  const { radius, wave } = hole.unsure;
  const doubt = Math.max(
    roughness,
    2 * (hole.isRound ? radius : Math.hypot(radius, wave)),
    drawn,
    nearlyRound,
    2 * hole.scatter,
    hole.missing * hole.diameter,
    hole.isGuess ? 0.3 : 0,
  );
  const angle = degrees(hole.theta - front);
  const higher = hole.chimney - wall;
  const sameWall = sameWallWithin(roughness, facet);
  const isOwn = Math.abs(higher) > sameWall;
  const isRaised = isOwn && hole.chimney - localWall > sameWall;
  const lean = (Math.atan(hole.lean) * 180) / Math.PI;
  const leans = Math.max(LEANS, (LEANS_SURELY * hole.unsureSlope.wave * 180) / Math.PI);
  const place = Math.max(roughness, hole.unsure.wave, hole.isGuess ? 0.3 : 0);
  const standing = Math.max(roughness, facet, hole.chimneyScatter);
  const remarks = [
    ...(hole.isGuess ? ["could not be cut through cleanly: measure it"] : []),
    ...(Math.abs(lean) > leans ? [`leans ${words(lean, 1)}° along the bore, which the format has no word for`] : []),
    ...(hole.kink > KINK ? ["its sides are not straight"] : []),
  ];
  return {
    at: length(hole.z - mouthAt, place),
    diameter: length(hole.isRound ? hole.diameter : hole.width, doubt),
    length: hole.isRound ? undefined : length(hole.length, doubt),
    angle: { degrees: Math.abs(angle) < AT_FRONT ? 0 : angle, plusMinus: angleDoubt(place, hole.radius) },
    undercut: undercutOf(hole, roughness),
    raised: isRaised ? length(higher, standing) : undefined,
    chimney: isOwn && !isRaised ? length(hole.chimney, standing) : undefined,
    remark: remarks.length > 0 ? remarks.join("; ") : undefined,
  };
}

/** Degrees, of a place on the bore's wall, mm. */
function angleDoubt(place: number, radius: number): number {
  return Math.max(FINEST_ANGLE, (Math.atan(place / radius) * 180) / Math.PI);
}

/** Degrees; nothing is read more surely. */
const FINEST_ANGLE = 0.05;

function words(value: number, decimals = 2): string {
  return String(Number(value.toFixed(decimals)));
}
