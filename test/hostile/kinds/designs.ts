/** Designs of all families, written in every style, through every action of the editor. */
import { textFaults } from "../checks/text.js";
import { drawnDesign, FAMILIES } from "../drawnDesign.js";
import type { Kind } from "../kind.js";
import { byLines, type TextCase } from "../texts.js";
import { written } from "../written.js";

export const designs: Kind<TextCase> = {
  name: "designs",
  share: 6,
  draw: (random) => ({
    ...written(drawnDesign(random, random.pick(FAMILIES)), random),
    draws: random.whole(0, 2 ** 30),
  }),
  check: (given) => textFaults(given, { mostResolved: 2, mostFixes: 12 }),
  parts: [byLines],
};
