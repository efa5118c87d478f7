/** Where a tube is split, what holds it together there, and the parts. */
import { SOLID_DEFAULTS as USUAL } from "../../instrument/defaults.js";
import { jointsOf } from "../../instrument/making/joints.js";
import { fitOf, leastWallOf } from "../../instrument/making/makerLimits.js";
import { t } from "../../words/translation.js";
import { boreRadiusAt, boreRange } from "./bore.js";
import type { BorePoint, JointOutline, PartOutline } from "./outline.js";
import { inWords, type Sizes } from "./sizes.js";

export function jointOutlines(bore: readonly BorePoint[], wall: number, sizes: Sizes): readonly JointOutline[] {
  return jointsOf(sizes.draft).map(({ at, path }) => jointOutline(sizes.mm(at), path, bore, wall, sizes));
}

function jointOutline(
  at: number,
  path: JointOutline["path"],
  bore: readonly BorePoint[],
  wall: number,
  sizes: Sizes,
): JointOutline {
  const { draft } = sizes;
  const least = leastWallOf(draft)?.mm ?? 0;
  const fit = fitOf(draft)?.mm ?? USUAL.fit;
  const usualLength = Math.round(2 * boreRadiusAt(bore, at) * USUAL.tenonInBores);
  const length = sizes.or(["solid", "tenon", "length"], usualLength, t("Tenons as long as the bore is wide:"));
  const finish = finishOf(sizes);
  const depth = finish === "thread" ? USUAL.threadDepth : finish === "cork" ? USUAL.corkDepth : 0;
  const widest = boreRange(bore, at - length, at)[1];
  // The wall shared between tenon and socket, as long as the tenon keeps its least under the groove.
  const radius = widest + Math.max(least + depth, (wall - fit) / 2);
  const socketRadius = radius + fit;
  const body = widest + wall;
  const wanted = Math.max(body, socketRadius + least + USUAL.chamfer);
  const ringed = sizes.word("solid", "rings");
  const outerRadius = ringed === true ? Math.max(wanted, body + USUAL.ringHeight) : wanted;
  const hasRing = outerRadius > body + 1e-9;
  if (hasRing && ringed !== true)
    sizes.say(t`A ring ${inWords(outerRadius - body)} high at each joint, to hold tenon and socket`);
  const upper = at - length - USUAL.tenonPlay - USUAL.ringLength;
  return {
    path,
    at,
    length,
    radius,
    socketRadius,
    outerRadius,
    ring: hasRing ? [upper, at + USUAL.ringLength] : [at, at],
    finish,
    groove: grooveOf(finish, at, length, depth),
  };
}

function finishOf(sizes: Sizes): JointOutline["finish"] {
  const written = sizes.word("solid", "tenon", "finish");
  if (written === "cork" || written === "plain" || written === "thread") return written;
  return USUAL.tenonFinish;
}

function grooveOf(finish: JointOutline["finish"], at: number, length: number, depth: number): JointOutline["groove"] {
  if (finish === "plain") return undefined;
  const width = finish === "cork" ? length - 2 * USUAL.corkShoulder : Math.min(USUAL.threadWidth, length / 2);
  const middle = at - length / 2;
  return { from: middle - width / 2, to: middle + width / 2, depth };
}

/** Named from the mouth: `head`, `middle`, `foot`; one alone is the `body`. */
export function partOutlines(from: number, to: number, joints: readonly JointOutline[]): readonly PartOutline[] {
  const count = joints.length + 1;
  return Array.from({ length: count }, (_, i) => ({
    name: partName(i, count),
    from: joints[i - 1]?.at ?? from,
    to: joints[i]?.at ?? to,
    tenon: joints[i - 1],
    socket: joints[i],
  }));
}

function partName(index: number, count: number): string {
  if (count === 1) return "body";
  if (index === 0) return "head";
  if (index === count - 1) return "foot";
  return count === 3 ? "middle" : `middle ${index}`;
}
