/** Damaged texts of all examples: every feature answers, every edit offered is sound. */
import { textFaults } from "../checks/text.js";
import type { Kind } from "../kind.js";
import { damaged } from "../mutations.js";
import { byCharacters, byLines, examples, type TextCase } from "../texts.js";

export const documents: Kind<TextCase> = {
  name: "documents",
  share: 5,
  draw: (random) => {
    const { file, text } = random.pick(examples());
    return { file, text: damaged(text, random), draws: random.whole(0, 2 ** 30) };
  },
  check: (given) => textFaults(given, { mostResolved: 1, mostFixes: 4 }),
  parts: [byLines, byCharacters],
};
