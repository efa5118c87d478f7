/**
 * The only file that uses the library for solids. It is loaded when the first solid is made. Its objects live outside JavaScript's
 * memory: a kernel tracks all of them and frees them at the end.
 */

import type { Manifold, ManifoldToplevel } from "manifold-3d";
import { Cancelled } from "../../acoustics/cancelled.js";

declare const solid: unique symbol;
/** A solid of the library; only a kernel can do anything with it, until it is freed. */
export interface Solid {
  readonly [solid]: true;
}

export type Point2 = readonly [number, number];
export type Point3 = readonly [number, number, number];

/** Triangles of a surface, counter-clockwise seen from outside; three coordinates a corner, three corners a triangle. mm. */
export interface Mesh {
  readonly vertices: Float32Array;
  readonly triangles: Uint32Array;
}

/** Where x, y and z go, and by what the whole is moved. */
export interface Placing {
  readonly x: Point3;
  readonly y: Point3;
  readonly z: Point3;
  readonly move?: Point3;
}

export interface Facts {
  /** Bodies that do not touch. */
  readonly pieces: number;
  /** Handles: a tube open at both ends has one, and one more for each hole. */
  readonly genus: number;
  readonly volume: number;
}

let library: Promise<ManifoldToplevel> | undefined;

/** Corners nearer than this, mm, become one: far below what is measured, far above what a file's single precision loses. */
const SIMPLIFIED = 0.001;

export class Kernel {
  private readonly kept = new Set<{ delete(): void }>();

  private constructor(
    private readonly module: ManifoldToplevel,
    private readonly shouldStop: () => boolean,
  ) {}

  /** Runs `work` and frees whatever it made. Rejects with Cancelled soon after `shouldStop` says so. */
  static async use<T>(work: (kernel: Kernel) => T, shouldStop: () => boolean = () => false): Promise<T> {
    library ??= load();
    const kernel = new Kernel(await library, shouldStop);
    try {
      return work(kernel);
    } finally {
      for (const made of kernel.kept) made.delete();
    }
  }

  /** Outlines in (radius, z), united and turned about the z axis. */
  turned(outlines: readonly (readonly Point2[])[], sides: number): Solid {
    const section = this.keep(this.section(outlines));
    return this.wrap(section.revolve(sides));
  }

  /** An outline in (x, y) stretched from z 0 to `height`. */
  stretched(outline: readonly Point2[], height: number): Solid {
    const section = this.keep(this.section([outline]));
    return this.wrap(section.extrude(height));
  }

  meshed(vertices: readonly number[], triangles: readonly number[]): Solid {
    const mesh = new this.module.Mesh({
      numProp: 3,
      vertProperties: Float32Array.from(vertices),
      triVerts: Uint32Array.from(triangles),
    });
    return this.wrap(new this.module.Manifold(mesh));
  }

  /** The ball of radius 1, whose great circles have this many sides. */
  ball(sides: number): Solid {
    return this.wrap(this.module.Manifold.sphere(1, sides));
  }

  union(solids: readonly Solid[]): Solid {
    return this.wrap(this.module.Manifold.union(solids.map(unwrap)));
  }

  minus(wood: Solid, air: readonly Solid[]): Solid {
    if (air.length === 0) return wood;
    return this.wrap(unwrap(wood).subtract(unwrap(this.union(air))));
  }

  common(one: Solid, other: Solid): Solid {
    return this.wrap(unwrap(one).intersect(unwrap(other)));
  }

  placed(what: Solid, { x, y, z, move = [0, 0, 0] }: Placing): Solid {
    return this.wrap(unwrap(what).transform([...x, 0, ...y, 0, ...z, 0, ...move, 1]));
  }

  /** With every corner moved to where `place` says; what is inside stays inside as long as no faces come to cross. */
  bent(what: Solid, place: (corner: Point3) => Point3): Solid {
    return this.wrap(
      unwrap(what).warp((corner) => {
        const [x, y, z] = place([corner[0], corner[1], corner[2]]);
        corner[0] = x;
        corner[1] = y;
        corner[2] = z;
      }),
    );
  }

  facts(what: Solid): Facts {
    const made = unwrap(what);
    const pieces = made.decompose();
    const count = pieces.length;
    for (const piece of pieces) piece.delete();
    return { pieces: count, genus: made.genus(), volume: made.volume() };
  }

  volume(what: Solid): number {
    return unwrap(what).volume();
  }

  /** Of the part as it goes into a file. */
  simplified(what: Solid): Solid {
    return this.wrap(unwrap(what).simplify(SIMPLIFIED));
  }

  mesh(what: Solid): Mesh {
    const { vertProperties, triVerts, numProp } = unwrap(what).getMesh();
    if (numProp !== 3) throw new Error("a mesh of the library has more than places");
    return { vertices: Float32Array.from(vertProperties), triangles: Uint32Array.from(triVerts) };
  }

  private section(outlines: readonly (readonly Point2[])[]) {
    // Each is turned the same way round first, so that where outlines overlap they add up.
    const rings = outlines.map((ring) => (signedArea(ring) < 0 ? [...ring].reverse() : [...ring]));
    return new this.module.CrossSection(
      rings.map((ring) => ring.map(([a, b]): [number, number] => [a, b])),
      "NonZero",
    );
  }

  private keep<T extends { delete(): void }>(made: T): T {
    this.kept.add(made);
    return made;
  }

  private wrap(made: Manifold): Solid {
    this.keep(made);
    if (this.shouldStop()) throw new Cancelled();
    return made as unknown as Solid;
  }
}

function unwrap(what: Solid): Manifold {
  return what as unknown as Manifold;
}

async function load(): Promise<ManifoldToplevel> {
  const { default: start } = await import("manifold-3d");
  const module = await start();
  module.setup();
  return module;
}

export function signedArea(ring: readonly Point2[]): number {
  return ring.reduce((sum, [x, y], i) => {
    const [u, v] = ring[(i + 1) % ring.length] ?? [x, y];
    return sum + (x * v - u * y) / 2;
  }, 0);
}
