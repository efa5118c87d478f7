/** Volume of each part of a design, mm³, from its outline by the mathematics of its surfaces: no mesh, no facets. Good to half a thousandth. */
import type { Outline } from "../../../server/src/design/outline/outline.js";
import { stl } from "../../../server/src/make/file/stl.js";
import type { Made } from "../../../server/src/make/solid/build.js";
import { readStl, volume } from "../mesh.js";
import type { Volumes } from "./openings.js";
import { pipesVolumes, vesselVolumes } from "./others.js";
import { tubeVolumes } from "./tube.js";

export function volumesOf({ body }: Outline, leastWall: number, fine = 1): Volumes {
  switch (body.kind) {
    case "tube":
      return tubeVolumes(body, leastWall, fine);
    case "pipes":
      return pipesVolumes(body, fine);
    case "vessel":
      return vesselVolumes(body, leastWall, fine);
  }
}

/**
 * The part whose volume differs most from its mesh's, and by what share; where that is more than `limit`, the quadrature is tried again
 * finer before the mesh is blamed.
 */
export function worstVolume(
  { outline, parts }: Pick<Made, "outline" | "parts">,
  leastWall: number,
  limit: number,
): { readonly name: string; readonly off: number } {
  const worst = (fine: number) => {
    const volumes = volumesOf(outline, leastWall, fine);
    const all = parts.map(({ name, mesh }) => ({
      name,
      off: volume(readStl(stl(mesh))) / (volumes.get(name) ?? 0) - 1,
    }));
    return all.reduce((most, each) => (Math.abs(each.off) <= Math.abs(most.off) ? most : each));
  };
  const first = worst(1);
  return Math.abs(first.off) < limit ? first : worst(FINER);
}

const FINER = 4;
