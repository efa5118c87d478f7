/** The print scale: what it makes of the drawing and of the pitch. */

import { signedCents } from "../../design/wording.js";
import { centsOfRatio } from "../../music/cents.js";
import { plain } from "../words.js";
import type { HoverTopic } from "./place.js";

export const printScale: HoverTopic = ({ analysis }) => {
  const { printScale: scale } = analysis.instrument;
  if (!(scale > 0)) return [];
  // The ratio alone; losses and the hole's undersize change it by a few cents, which the prediction has.
  const cents = -centsOfRatio(scale);
  const moved = scale === 1 ? "as drawn" : `about ${signedCents(cents)} cents against the drawing at 100 %`;
  return [
    `**${plain(scale * 100, 2)} %**: every printed dimension is ${plain(scale, 4)} times the drawn one; ${moved}.`,
  ];
};
