/** A mesh into the numbers of an instrument. Nothing of the mesh is kept. */

import { t } from "../words/translation.js";
import { bendOf } from "./axis/bent.js";
import { centresOf } from "./axis/centres.js";
import { directionOf } from "./axis/direction.js";
import { type Axis, FEW_SECTIONS, SECTIONS, straighten } from "./axis/straight.js";
import type { MeshFile } from "./file/soup.js";
import { combined, extent, facesOf, framed, type Mesh } from "./mesh/mesh.js";
import { type Oriented, orient } from "./mesh/orient.js";
import { dot, frameAlong, plus, times, type Vector } from "./mesh/vector.js";
import { weld } from "./mesh/weld.js";
import { assembled } from "./parts/assemble.js";
import { halvesTogether } from "./parts/halves.js";
import { looseOf } from "./parts/loose.js";
import { piecesOf } from "./parts/pieces.js";
import { surveyPipes } from "./pipes.js";
import { CannotSurvey } from "./refusal.js";
import type { Survey } from "./surveyed.js";
import { surveyTube } from "./tube/tube.js";
import { guessUnit, type Sizes, UNITS, type UnitName } from "./unit.js";
import { surveyVessel } from "./vessel/vessel.js";

export interface SurveyOptions {
  /** Of a file that states none. */
  readonly unit?: UnitName | undefined;
  /** Of a vessel's halves whose rims fit in more than one way: the other one. */
  readonly otherTurn?: boolean | undefined;
}

/** A bore's middle leaves a straight line by less than this share of its length, or it is bent. */
const STRAIGHT = 0.0005;
/** Slabs tell a bend less surely. */
const SLABS_STRAIGHT = 0.0015;
/** Share of the sections along it that must show a round bore. */
const ROUND = 0.5;
/** Share of the walls whose normals meet in a bore's middle, at least. */
const LEAST_CENTRE = 0.06;
/** A bore is no shorter than this share of the whole. */
const LEAST_LENGTH = 0.25;
const MOST_BORES = 40;
/** Triangles of the simplest tube: a square one. */
const FEWEST = 32;
/** Two axes nearer than this share of the length are one. */
const SAME_LINE = 0.002;

/** @throws CannotSurvey */
export function survey(file: MeshFile, options: SurveyOptions = {}): Survey {
  const raw = orient(weld(joined(file.parts)));
  if (raw.t.length / 3 < FEWEST)
    throw new CannotSurvey(t("It has too few triangles for an instrument. Survey the whole model."));
  const pieces = piecesOf(raw).map((mesh) => ({ mesh, axes: axesIn(mesh) }));
  const isStated = file.millimetres !== undefined || options.unit !== undefined;
  const guess = isStated ? undefined : guessUnit(sizesOf(pieces));
  // What a file states is in its numbers already.
  const unit = guess?.unit ?? options.unit ?? statedName(file.millimetres);
  const scale = file.millimetres === undefined ? UNITS[unit] : 1;
  const { body, notes, questions } = bodyOf(
    pieces.map((piece) => scaledPiece(piece, scale)),
    options.otherTurn,
  );
  return {
    body,
    unit: { name: unit, isStated },
    triangles: raw.t.length / 3,
    notes: [...repairs(raw), ...(guess?.note === undefined ? [] : [guess.note]), ...notes],
    questions: [...(guess === undefined ? [] : [guess.question]), ...questions],
  };
}

interface Found {
  readonly body: Survey["body"];
  readonly notes: readonly string[];
  readonly questions: readonly string[];
}

function bodyOf(pieces: readonly Piece[], otherTurn?: boolean): Found {
  const row = pieces.map((piece) => ({ piece, axes: sideBySide(piece) })).find(({ axes }) => axes.length > 1);
  if (row !== undefined) {
    const loose = pieces.filter((piece) => piece !== row.piece).map(({ mesh }) => mesh);
    return surveyPipes(row.piece.mesh, row.axes, loose);
  }
  const vessel = vesselAmong(pieces, otherTurn);
  if (vessel !== undefined) return vessel;
  const { mesh, axis, loose, notes } = onOneAxis(pieces);
  const found = surveyTube(mesh, axis, loose.map(looseOf));
  return { ...found, notes: [...notes, ...found.notes] };
}

/** Where no piece has a straight bore, a chamber that is closed round may be in one, or in two halves put together. */
function vesselAmong(pieces: readonly Piece[], otherTurn?: boolean): Found | undefined {
  if (pieces.some(({ axes: { straight } }) => straight.length > 0)) return undefined;
  const [one, other] = pieces;
  const halves = one && other && halvesTogether(one.mesh, other.mesh, otherTurn);
  const whole = halves && surveyVessel(halves.mesh);
  if (whole !== undefined) {
    const note = "Two halves lay beside each other; they were put together, rim on rim.";
    const question =
      "Are the halves turned the right way? Their rims fit in more than one way, and they were put together as they lay; `borewright survey --other-turn` takes the other way.";
    return {
      ...whole,
      notes: [note, ...whole.notes],
      questions: [...(halves?.isSure === true ? [] : [question]), ...whole.questions],
    };
  }
  const [found] = pieces.flatMap(({ mesh }) => surveyVessel(mesh) ?? []);
  return found;
}

/** The bores of one piece that lie beside one another, their walls between them. */
function sideBySide({ axes: { straight } }: Piece): readonly Axis[] {
  return straight.filter((one, i) =>
    straight.every((other, j) => i === j || distance(one, other) > 0.9 * (one.radius + other.radius)),
  );
}

/** Of the first piece that has a straight bore; else of the body, which may be a vessel's. */
function sizesOf(pieces: readonly Piece[]): Sizes {
  const [first] = pieces.flatMap(({ axes }) => axes.straight);
  if (first !== undefined) return first;
  const [low, high] = extent((pieces[0] as Piece).mesh);
  const size = Math.max(...[0, 1, 2].map((axis) => (high[axis] as number) - (low[axis] as number)));
  // Hands hold vessels as long as the shorter tubes, of walls as thick; the chamber is not known yet.
  return { radius: undefined, wall: undefined, length: size };
}

function joined(parts: readonly Float64Array[]): Float64Array {
  const [first] = parts;
  if (parts.length === 1 && first !== undefined) return first;
  const all = new Float64Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

function statedName(millimetres: number | undefined): UnitName {
  const names = Object.keys(UNITS) as UnitName[];
  return names.find((name) => UNITS[name] === millimetres) ?? "mm";
}

function scaledPiece(piece: Piece, scale: number): Piece {
  if (scale === 1) return piece;
  const { mesh, axes } = piece;
  const straight = axes.straight.map((axis) => ({
    ...axis,
    origin: times(axis.origin, scale),
    bend: axis.bend * scale,
    radius: axis.radius * scale,
    wall: axis.wall * scale,
    length: axis.length * scale,
  }));
  return { mesh: { ...mesh, v: mesh.v.map((each) => each * scale) }, axes: { ...axes, straight } };
}

function repairs({ open, turned, inverted, cavities }: Oriented): readonly string[] {
  return [
    ...(inverted ? ["Every face looked inward; the mesh was turned inside out."] : []),
    ...(turned > 0 ? [`${turned} faces looked the wrong way and were turned.`] : []),
    ...(cavities > 0
      ? [`${cavities === 1 ? "A shell lies" : `${cavities} shells lie`} inside another: treated as a cavity.`]
      : []),
    ...(open > 0
      ? [`The mesh is not closed: it has ${open} open edges. Directions that run through the gaps were left out.`]
      : []),
  ];
}

interface OnOneAxis {
  readonly mesh: Mesh;
  readonly axis: Axis;
  /** Pieces that are not part of the tube as they lie. */
  readonly loose: readonly Mesh[];
  readonly notes: readonly string[];
}

/** The instrument as it is played: parts that lie beside one another are put together. @throws CannotSurvey */
function onOneAxis(pieces: readonly Piece[]): OnOneAxis {
  const [largest] = pieces as readonly [Piece, ...Piece[]];
  if (pieces.length === 1) return { mesh: largest.mesh, axis: onlyAxis(largest), loose: [], notes: [] };
  const bored = pieces.flatMap(({ mesh, axes: { straight } }) => {
    const [axis, ...more] = straight;
    return axis !== undefined && more.length === 0 ? [{ mesh, axis }] : [];
  });
  const [first] = bored;
  if (first === undefined || bored.every(({ axis }) => isSameLine(axis, first.axis))) {
    const axis = first?.axis ?? onlyAxis(largest);
    const isAround = ({ mesh }: Piece) => reachesTo(mesh, axis);
    const around = pieces.filter(isAround).map(({ mesh }) => mesh);
    const loose = pieces.filter((piece) => !isAround(piece)).map(({ mesh }) => mesh);
    const whole = combined(around);
    return {
      mesh: whole,
      axis: straighten(whole, axis.rows, axis.origin) ?? axis,
      loose,
      notes: loose.length === 0 ? [] : [besides(loose.length)],
    };
  }
  const together = assembled(bored);
  if (together === undefined) throw laidOut(bored.length);
  const note = `${bored.length} parts lay beside one another; they were put together, tenon into socket, with their holes in line.`;
  const loose = pieces.filter(({ mesh }) => !bored.some((each) => each.mesh === mesh)).map(({ mesh }) => mesh);
  return {
    mesh: together,
    axis: onlyAxis({ mesh: together, axes: axesIn(together) }),
    loose,
    notes: [note, ...(loose.length === 0 ? [] : [besides(loose.length)])],
  };
}

function besides(count: number): string {
  const [what, is] =
    count === 1 ? ["A piece without a bore lies", "is"] : [`${count} pieces without a bore lie`, "are"];
  return `${what} beside the tube and ${is} not part of it as it lies: a block, a plug or a stopper.`;
}

function isSameLine(one: Axis, other: Axis): boolean {
  const size = Math.max(one.length, other.length);
  const tilt = Math.abs(dot(one.rows[2], other.rows[2]));
  return tilt > 1 - 1e-4 && distance(one, other) < SAME_LINE * size;
}

/** Whether a piece comes as near to the axis as the bore's outside. */
function reachesTo({ v }: Mesh, { rows, origin, radius, wall }: Axis): boolean {
  const most = radius + wall + 1;
  for (let i = 0; i < v.length; i += 3) {
    const place: Vector = [v[i] as number, v[i + 1] as number, v[i + 2] as number];
    const from = plus(place, origin, -1);
    if (Math.hypot(...plus(from, rows[2], -dot(from, rows[2]))) < most) return true;
  }
  return false;
}

/** @throws CannotSurvey where there is no one straight bore */
function onlyAxis(piece: Piece): Axis {
  const { straight, first, turned, size } = piece.axes;
  const beside = sideBySide(piece);
  if (beside.length > 1) throw laidOut(beside.length);
  const best = straight[0];
  if (best === undefined) throw notStraight(turned, first, size);
  return best;
}

interface Piece {
  readonly mesh: Mesh;
  readonly axes: ReturnType<typeof axesIn>;
}

/** The straight bores of a mesh, the one with most wall first. */
function axesIn(mesh: Mesh) {
  const { axis } = directionOf(facesOf(mesh));
  const rows = frameAlong(axis);
  const turned = framed(mesh, rows, [0, 0, 0]);
  const [low, high] = extent(turned);
  const size = high[2] - low[2];
  const distinct: (Axis & { readonly reach: number })[] = [];
  for (const [i, centre] of centresOf(turned, MOST_BORES).entries()) {
    if (centre.to - centre.from < LEAST_LENGTH * size || (i === 0 && centre.share < LEAST_CENTRE)) continue;
    const origin = plus(times(rows[0], centre.x), rows[1], centre.y);
    // Another stretch of a bore that is known.
    if (distinct.some((known) => distance(known, { origin }) < known.radius / 2)) continue;
    // A second bore is parallel to the first, to the last digit as a rule.
    const [known] = distinct;
    const found = straighten(mesh, known?.rows ?? rows, origin, known === undefined ? SECTIONS : FEW_SECTIONS);
    if (found !== undefined && !distinct.some((each) => distance(each, found) < SAME_LINE * size))
      distinct.push({ ...found, reach: (centre.to - centre.from) / size });
  }
  const straight = distinct.filter(
    ({ bend, round, of, reach }) => bend < STRAIGHT * size && round > ROUND * of * reach,
  );
  return { straight, first: distinct[0], turned, size };
}

/** Of a place from an axis. */
function distance(one: Axis, other: Pick<Axis, "origin">): number {
  const between = plus(other.origin, one.origin, -1);
  const along = dot(between, one.rows[2]);
  return Math.hypot(...plus(between, one.rows[2], -along));
}

function laidOut(count: number): CannotSurvey {
  return new CannotSurvey(
    t`It holds ${count} tubes side by side. Put the parts of one instrument together on one axis, head, middle, foot, and survey that.`,
  );
}

function notStraight(mesh: Mesh, axis: Axis | undefined, size: number): CannotSurvey {
  const bend = axis === undefined ? bendOf(mesh) : Math.max(axis.bend / size, bendOf(mesh) ?? 0);
  if (bend !== undefined && bend > (axis === undefined ? SLABS_STRAIGHT : STRAIGHT))
    return new CannotSurvey(
      t`The bore is not straight: its middle leaves a straight line by ${Number((100 * bend).toPrecision(2))} % of its length or more. A description has one straight axis: unbend the model along its middle line first, whose length is what sounds.`,
    );
  return new CannotSurvey(
    t(
      "No straight round bore was found in it. Tubes, rows of tubes and vessels can be surveyed; remove what is not the instrument.",
    ),
  );
}
