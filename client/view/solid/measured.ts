/** What is said about a point of the solid. Lengths in mm, as it lies on the printer's bed. */

import { t, told } from "../../../server/src/words/translation.js";
import { type Hit, type Scene, thicknessAt } from "./scene.js";
import { length, minus, type Vector } from "./vector.js";

export const HOW_TO = told("Point at it to measure; click to measure from there. Drag to turn, wheel to come nearer.");

/** @param from a point that was clicked: how far it is, straight */
export function measured(scene: Scene, hit: Hit, from: Vector | undefined): string {
  const [x, y, z] = hit.at;
  const thickness = thicknessAt(scene, hit);
  return [
    t`${scene.names[hit.part] ?? ""}: ${mm(z)} from the mouth's middle, ${mm(Math.hypot(x, y))} from the axis`,
    ...(thickness === undefined ? [] : [t`${mm(thickness)} thick here`]),
    ...(from === undefined ? [] : [t`${mm(length(minus(hit.at, from)))} from the clicked point`]),
  ].join(" · ");
}

function mm(value: number): string {
  return `${value.toFixed(1).replace("-", "−")} mm`;
}
