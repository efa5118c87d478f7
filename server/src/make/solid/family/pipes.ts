/** A pan pipe: one row of tubes that share their walls, and a stopper for each. */

import type { PipeOutline, PipesOutline } from "../../../design/outline/outline.js";
import { SOLID_DEFAULTS as USUAL } from "../../../instrument/defaults.js";
import type { Solid } from "../kernel.js";
import { stopperSolid } from "../openings.js";
import { BEYOND, type Part } from "../parts.js";
import type { Shapes } from "../shapes.js";

export function pipesParts({ pipes, wall }: PipesOutline, shapes: Shapes): readonly Part[] {
  const { kernel } = shapes;
  const beside = (what: Solid, x: number) =>
    kernel.placed(what, { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1], move: [x, 0, 0] });
  const wood = pipes.map((pipe) => beside(tubeBody(pipe, wall, shapes), pipe.x));
  const webs = pipes.slice(1).map((pipe, i) => web(pipes[i] ?? pipe, pipe, shapes));
  const air = pipes.map(({ diameter, to, x }) => {
    const radius = diameter / 2;
    const bore = shapes.filled([
      [-BEYOND, radius],
      [to + BEYOND, radius],
    ]);
    return beside(bore, x);
  });
  const row: Part = {
    name: "pipes",
    solid: kernel.minus(kernel.union([...wood, ...webs]), air),
    up: "+z",
    stands: "upright, all rims on the bed",
    advice: ["The rims lie on the bed: round their edges for the lips afterwards."],
    genus: pipes.length,
    path: ["pipes"],
    touchesMouth: true,
  };
  return [
    row,
    ...pipes.map((pipe, i): Part => {
      const part = stopperPart(pipe, i, shapes);
      return { ...part, solid: beside(part.solid, pipe.x) };
    }),
  ];
}

function tubeBody({ diameter, to }: PipeOutline, wall: number, shapes: Shapes): Solid {
  const outer = diameter / 2 + wall;
  const c = Math.min(USUAL.chamfer, wall / 3);
  return shapes.filled([
    [0, outer - c],
    [c, outer],
    [to - c, outer],
    [to, outer - c],
  ]);
}

/** Fills the groove between two neighbours, as far as the shorter reaches; its faces lie inside the tubes. */
function web(one: PipeOutline, other: PipeOutline, shapes: Shapes): Solid {
  const half = WEB * Math.min(one.diameter, other.diameter);
  const c = 2 * USUAL.chamfer;
  const from = one.x + one.diameter * INTO;
  const to = other.x - other.diameter * INTO;
  return shapes.box([from, to], [-half, half], [c, Math.min(one.to, other.to) - c]);
}

/** Half the web's thickness, and how far it starts from a pipe's axis, in diameters. Common practice, no source. */
const WEB = 0.3;
const INTO = 0.25;

function stopperPart(pipe: PipeOutline, index: number, shapes: Shapes): Part {
  const name = `stopper ${index + 1}${pipe.note === undefined ? "" : ` ${pipe.note}`}`;
  const bore = [{ path: pipe.path, at: 0, diameter: pipe.diameter }];
  return {
    name,
    solid: stopperSolid(pipe.stopper, { bore }, { grooves: 1, chamfer: 0 }, shapes),
    up: "-z",
    stands: "upright, its face on the bed",
    advice: [],
    genus: 0,
    path: pipe.path,
    isSmall: true,
  };
}
