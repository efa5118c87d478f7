/** Colour on the terminal. Nothing is conveyed by colour alone. */
import { styleText } from "node:util";

type Style = Parameters<typeof styleText>[0];
export type Paint = (style: Style, text: string) => string;

const plain: Paint = (_, text) => text;

/**
 * On a terminal that has colours. `NO_COLOR` (no-color.org) turns them off, `FORCE_COLOR` on where there is no terminal, as in the
 * log of a build; both as Node reads them.
 */
export function painter({ env, stdout }: Pick<NodeJS.Process, "env" | "stdout"> = process): Paint {
  if (env.NO_COLOR) return plain;
  const wanted = env.FORCE_COLOR ? env.FORCE_COLOR !== "0" : stdout.isTTY === true && stdout.hasColors();
  if (!wanted || typeof styleText !== "function") return plain; // Node before 20.12 has none
  // Whether to colour is settled: later versions of Node would ask the terminal again.
  return (style, text) => styleText(style, text, { validateStream: false });
}
