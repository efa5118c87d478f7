/** Shapes that all families are made of, in a tube's axes: z along it, +y to the front, x across. mm. */
import { CHORD_ERROR, equalArea, sidesOf } from "./facets.js";
import type { Kernel, Placing, Point2, Point3, Solid } from "./kernel.js";

const RADIANS = Math.PI / 180;

/** One ring of a loft: its height, and half its width across (x) and along (z). */
export type Oval = readonly [height: number, across: number, along: number];

export class Shapes {
  constructor(readonly kernel: Kernel) {}

  /** Outlines of [z, radius] turned about the axis as one; each is closed along the axis if it does not return to itself. */
  turned(...profiles: readonly (readonly Point2[])[]): Solid {
    const widest = Math.max(...profiles.flatMap((profile) => profile.map(([, radius]) => radius)));
    const sides = sidesOf(widest);
    const grown = equalArea(sides);
    const outlines = profiles.map((profile) => profile.map(([z, radius]): Point2 => [radius * grown, z]));
    return this.kernel.turned(outlines, sides);
  }

  /** What lies between the axis and a profile of [z, radius]. */
  filled(profile: readonly Point2[]): Solid {
    const [first, last] = [profile[0], profile.at(-1)];
    if (first === undefined || last === undefined) throw new Error("an empty profile");
    return this.turned([[first[0], 0], ...profile, [last[0], 0]]);
  }

  /** A side view of [y, z], stretched across by `width`, its middle at x 0. */
  prism(side: readonly Point2[], width: number): Solid {
    const placing: Placing = { x: [0, 1, 0], y: [0, 0, 1], z: [1, 0, 0], move: [-width / 2, 0, 0] };
    return this.kernel.placed(this.kernel.stretched(side, width), placing);
  }

  /** A plan of [x, z], stretched from y `low` to `high`. */
  slab(plan: readonly Point2[], low: number, high: number): Solid {
    const turned = plan.map(([x, z]): Point2 => [z, x]);
    const placing: Placing = { x: [0, 0, 1], y: [1, 0, 0], z: [0, 1, 0], move: [0, low, 0] };
    return this.kernel.placed(this.kernel.stretched(turned, high - low), placing);
  }

  box([x0, x1]: Point2, [y0, y1]: Point2, [z0, z1]: Point2): Solid {
    const plan = [
      [x0, z0],
      [x1, z0],
      [x1, z1],
      [x0, z1],
    ] as const;
    return this.slab(plan, y0, y1);
  }

  /** Ovals one above the other along +y, meshed as one body: pieces that share a ring need not be united. */
  loft(rings: readonly Oval[]): Solid {
    const sides = sidesOf(Math.max(...rings.flatMap(([, across, along]) => [across, along])));
    const grown = equalArea(sides);
    const vertices: number[] = [];
    for (const [height, across, along] of rings) {
      for (let i = 0; i < sides; i++) {
        const turn = (2 * Math.PI * i) / sides;
        vertices.push(grown * across * Math.sin(turn), height, grown * along * Math.cos(turn));
      }
    }
    const [low, high] = [vertices.length / 3, vertices.length / 3 + 1];
    vertices.push(0, rings[0]?.[0] ?? 0, 0, 0, rings.at(-1)?.[0] ?? 0, 0);
    return this.kernel.meshed(vertices, loftTriangles(sides, rings.length, low, high));
  }

  /**
   * What lies within `out` of an ellipsoid, measured square to its surface. The ellipsoid's volume is the exact one; the library's ball has
   * uneven facets, so half the usual error is asked for. The facets of all distances are those of one ball, so that between them the wall is
   * everywhere as thick as the distance.
   */
  ellipsoid([a, b, c]: Point3, out = 0): Solid {
    const ball = this.kernel.ball(sidesOf(Math.max(a, b, c), CHORD_ERROR / 2));
    const grown = Math.cbrt((4 * Math.PI) / 3 / this.kernel.volume(ball));
    return this.kernel.bent(ball, ([x, y, z]) => {
      const steep = out / Math.hypot(x / a, y / b, z / c);
      return [x * (a * grown + steep / a), y * (b * grown + steep / b), z * (c * grown + steep / c)];
    });
  }

  /** Turned about the z axis, clockwise seen from the mouth, and moved along it. */
  around(what: Solid, degrees: number, at: number): Solid {
    const [cos, sin] = [Math.cos(degrees * RADIANS), Math.sin(degrees * RADIANS)];
    return this.kernel.placed(what, { x: [cos, sin, 0], y: [-sin, cos, 0], z: [0, 0, 1], move: [0, 0, at] });
  }
}

function loftTriangles(sides: number, rings: number, low: number, high: number): number[] {
  const triangles: number[] = [];
  const last = (rings - 1) * sides;
  for (let i = 0; i < sides; i++) {
    const next = (i + 1) % sides;
    triangles.push(low, next, i, high, last + i, last + next);
    for (let ring = 0; ring < last; ring += sides) {
      triangles.push(ring + i, ring + next, ring + sides + next, ring + i, ring + sides + next, ring + sides + i);
    }
  }
  return triangles;
}
