/** Meshes of designs, harmed and moved as shared models are, and their surveys. */
import { dot, type Rows, type Vector } from "../../server/src/survey/mesh/vector.js";
import { survey as surveyMesh } from "../../server/src/survey/survey.js";
import type { Survey, SurveyedTube } from "../../server/src/survey/surveyed.js";
import { partsOf } from "./solids.js";

type Soup = Float64Array;

/** Of a format without a unit. */
export function surveyOf(...parts: readonly Soup[]): Survey {
  return surveyMesh({ parts, millimetres: undefined });
}

export function tubeOf(found: Survey): SurveyedTube {
  if (found.body.kind !== "tube") throw new Error(`a ${found.body.kind}`);
  return found.body;
}

/** The parts of a design, side by side as if they lay on a bed. */
export async function laidOut(text: string, name?: string): Promise<readonly Soup[]> {
  const parts = await partsOf(text, name);
  return parts.map(({ soup }, i) => moved(soup, [60 * i, 3 * i, 0]));
}

export function moved(soup: Soup, [x = 0, y = 0, z = 0]: readonly number[]): Soup {
  const out = new Float64Array(soup.length);
  for (let i = 0; i < soup.length; i += 3) {
    out[i] = (soup[i] as number) + x;
    out[i + 1] = (soup[i + 1] as number) + y;
    out[i + 2] = (soup[i + 2] as number) + z;
  }
  return out;
}

export function scaled(soup: Soup, factor: number): Soup {
  return soup.map((value) => value * factor);
}

/** In single precision, as files have it. */
export function turned(soup: Soup, [x, y, z]: Rows = SLANTED): Soup {
  const out = new Float64Array(soup.length);
  for (let i = 0; i < soup.length; i += 3) {
    const corner: Vector = [soup[i] as number, soup[i + 1] as number, soup[i + 2] as number];
    out[i] = Math.fround(dot(x, corner));
    out[i + 1] = Math.fround(dot(y, corner));
    out[i + 2] = Math.fround(dot(z, corner));
  }
  return out;
}

/** A rotation about an axis that is not a coordinate axis. */
const SLANTED: Rows = rotation([0.36, 0.48, 0.8], 1.1);

function rotation([x = 0, y = 0, z = 0]: readonly number[], angle: number): Rows {
  const [c, s, k] = [Math.cos(angle), Math.sin(angle), 1 - Math.cos(angle)];
  return [
    [c + x * x * k, x * y * k - z * s, x * z * k + y * s],
    [y * x * k + z * s, c + y * y * k, y * z * k - x * s],
    [z * x * k - y * s, z * y * k + x * s, c + z * z * k],
  ];
}

export function mirrored(soup: Soup): Soup {
  return turnedFaces(
    soup.map((value, i) => (i % 3 === 0 ? -value : value)),
    () => true,
  );
}

/** @param which faces look the other way */
export function turnedFaces(soup: Soup, which: (face: number) => boolean): Soup {
  const out = soup.slice();
  for (let i = 0; i < soup.length; i += 9)
    if (which(i / 9)) {
      out.set(soup.subarray(i + 3, i + 6), i + 6);
      out.set(soup.subarray(i + 6, i + 9), i + 3);
    }
  return out;
}

export function withoutFaces(soup: Soup, which: (face: number) => boolean): Soup {
  const gone = Array.from({ length: soup.length / 9 }, (_, face) => which(face));
  return soup.filter((_, i) => !gone[Math.floor(i / 9)]);
}

/** Every corner moved at random, the same wherever it is met. @param deviation standard deviation, mm */
export function noisy(soup: Soup, deviation: number, random: () => number): Soup {
  const known = new Map<string, readonly number[]>();
  const out = new Float64Array(soup.length);
  for (let i = 0; i < soup.length; i += 3) {
    const key = soup.subarray(i, i + 3).join();
    const by = known.get(key) ?? [0, 1, 2].map(() => deviation * normal(random));
    known.set(key, by);
    for (const [k, each] of by.entries()) out[i + k] = (soup[i + k] ?? 0) + each;
  }
  return out;
}

/** Box and Muller. */
function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** Bent to a circle in the plane of z and x. */
export function bent(soup: Soup, radius: number): Soup {
  const out = soup.slice();
  for (let i = 0; i < soup.length; i += 3) {
    const [x = 0, , z = 0] = soup.subarray(i, i + 3);
    out[i] = radius - (radius - x) * Math.cos(z / radius);
    out[i + 2] = (radius - x) * Math.sin(z / radius);
  }
  return out;
}
