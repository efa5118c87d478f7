/** Solid pieces that lie beside the instrument: stoppers, plugs, blocks. */
import { directionOf } from "../axis/direction.js";
import { extent, facesOf, framed, type Mesh } from "../mesh/mesh.js";
import { frameAlong } from "../mesh/vector.js";

/** mm, along its own axis and across it. */
export interface Loose {
  readonly length: number;
  readonly width: number;
}

/** What stops a bore is less wide by no more than this, mm. Common practice, no source. */
const PLAY = 1.2;
/** mm by which flat sides may make it look wider. */
const WIDER = 0.1;

export function looseOf(mesh: Mesh): Loose {
  const { axis } = directionOf(facesOf(mesh));
  const [low, high] = extent(framed(mesh, frameAlong(axis), [0, 0, 0]));
  return { length: high[2] - low[2], width: Math.max(high[0] - low[0], high[1] - low[1]) };
}

export function isStopperOf({ width }: Loose, bore: number): boolean {
  return width <= bore + WIDER && width > bore - PLAY;
}
