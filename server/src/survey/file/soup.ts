/** What a mesh file holds, whatever its format. */

import { t } from "../../words/translation.js";
import { CannotSurvey } from "../refusal.js";

/** Corners of triangles, nine numbers each. */
export interface MeshFile {
  /** One soup for each thing the file sets on the bed; of a format without such things, one. */
  readonly parts: readonly Float64Array[];
  /** Millimetres of one unit; undefined where the format states none. */
  readonly millimetres: number | undefined;
}

/** Instruments need thousands; beyond this the memory is for something else. */
export const MOST_TRIANGLES = 2_000_000;

export function mustBeFew(triangles: number): void {
  if (triangles <= MOST_TRIANGLES) return;
  throw new CannotSurvey(
    t`It has more than ${MOST_TRIANGLES / 1e6} million triangles. Decimate the mesh to a hundredth of a millimetre and survey that.`,
  );
}

/** @throws CannotSurvey where there is nothing, or a coordinate is not a number */
export function checkedFile(file: MeshFile): MeshFile {
  const parts = file.parts.filter(({ length }) => length > 0);
  if (parts.length === 0) throw new CannotSurvey(t("It has no triangles. Export the body as a mesh, not its sketch."));
  for (const part of parts) {
    const bad = part.findIndex((value) => !Number.isFinite(value) || Math.abs(value) > LARGEST);
    if (bad >= 0)
      throw new CannotSurvey(
        t`Triangle ${Math.floor(bad / 9) + 1} has a corner that is not a point (${part[bad]}). Export it again, or repair the mesh first.`,
      );
  }
  return { ...file, parts };
}

/** Farther from 0 than this, single precision leaves nothing of an instrument. */
const LARGEST = 1e7;
