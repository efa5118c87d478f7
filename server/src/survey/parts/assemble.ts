/** Parts that were laid out for printing, put on one axis: each tenon into the socket it fits. */
import { type Axis, turnedRound } from "../axis/straight.js";
import { combined, framed, type Mesh } from "../mesh/mesh.js";
import { CannotSurvey } from "../refusal.js";
import { frontOf } from "../tube/front.js";
import { lookAt } from "../tube/look.js";
import { turnedToY } from "../tube/near.js";
import { scan } from "../tube/scan.js";
import { type End, endsOf } from "./ends.js";

export interface BoredPiece {
  readonly mesh: Mesh;
  readonly axis: Axis;
}

/** mm: a socket is at most this much wider than the tenon, on the radius, and this much deeper or shallower. Common practice, no source. */
const WIDER = [-0.3, 0.9] as const;
const DEEPER = 3;

/** A piece along z. */
interface Part {
  /** Its front turned to y: of the many ways to lay the pieces only those of the chain are asked. */
  readonly facing: () => Mesh;
  readonly low: End;
  readonly high: End;
}

/** One mesh along z, or undefined where they do not all fit into one another in one way. */
export function assembled(pieces: readonly BoredPiece[]): Mesh | undefined {
  let open = pieces.map(({ mesh, axis }) => [partOf(mesh, axis), partOf(mesh, turnedRound(axis))] as const);
  const first = open.find((ways) => ways.some(isHead));
  const chain = [first?.find(isHead)].filter((part) => part !== undefined);
  open = open.filter((ways) => ways !== first);
  while (open.length > 0) {
    const socket = chain.at(-1)?.high.socket;
    const next = open.flatMap((ways) => ways.filter(({ low }) => fits(low, socket)).map((part) => ({ ways, part })));
    const [found] = next;
    if (found === undefined || next.length > 1) return undefined;
    chain.push(found.part);
    open = open.filter((ways) => ways !== found.ways);
  }
  return joined(chain);
}

function partOf(mesh: Mesh, { rows, origin }: Axis): Part {
  const seen = framed(mesh, rows, origin);
  const scanned = scan(seen);
  const [low, high] = endsOf(scanned);
  const facing = () => {
    const front = frontIn(seen, scanned);
    return front === undefined ? seen : turnedToY(seen, front);
  };
  return { facing, low, high };
}

/** Undefined of a part without openings. */
function frontIn(mesh: Mesh, scanned: ReturnType<typeof scan>): number | undefined {
  try {
    return frontOf(lookAt(mesh, scanned));
  } catch (error) {
    if (error instanceof CannotSurvey) return undefined;
    throw error;
  }
}

function isHead({ low, high }: Part): boolean {
  return low.tenon === undefined && low.socket === undefined && high.socket !== undefined;
}

function fits({ tenon, at }: End, socket: End["socket"]): boolean {
  if (tenon === undefined || socket === undefined) return false;
  const wider = socket.radius - tenon.radius;
  return wider > WIDER[0] && wider < WIDER[1] && Math.abs(socket.depth - (tenon.shoulder - at)) < DEEPER;
}

/** The rim of each on the shoulder of the next. */
function joined(chain: readonly Part[]): Mesh {
  let rim = chain[0]?.low.at ?? 0;
  const moved = chain.map(({ facing, low, high }): Mesh => {
    const move = rim - (low.tenon?.shoulder ?? low.at);
    rim = high.at + move;
    const mesh = facing();
    return { ...mesh, v: mesh.v.map((each, i) => (i % 3 === 2 ? each + move : each)) };
  });
  return combined(moved);
}
