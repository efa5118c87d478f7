/** A place in a design as a maker would call it: things of a list by their name, or counted from 1. Formulas count from 0 and have `pathText`. */

import { t } from "../words/translation.js";
import type { Path } from "./finding.js";
import { own, valueAt } from "./path.js";

/** One thing of each list of a design. */
const THINGS: Readonly<Record<string, string>> = {
  holes: "hole",
  bore: "station",
  pipes: "pipe",
  fingerings: "fingering",
  measured: "measured note",
};

/** `L1`, or `hole 1` where the maker gave it no name. */
export function thingInWords(list: string, index: number, data: unknown): string | undefined {
  const thing = Object.hasOwn(THINGS, list) ? THINGS[list] : undefined;
  const name = own(valueAt(data, [list, index]), "name");
  return thing && typeof name === "string" && name.trim() !== ""
    ? name
    : thing && `${t(THINGS[list] ?? "")} ${index + 1}`;
}

interface Marks {
  readonly name: (text: string) => string;
  readonly code: (text: string) => string;
}

const PLAIN: Marks = { name: (text) => text, code: (text) => `\`${text}\`` };

/**
 * `` `diameter` of L1 ``, `` `at` of station 2 ``, `` `mouth.window.width` ``, `` number 3 of `print.bed` ``. `marked` says
 * how names and code are marked where the surrounding text has markup of its own.
 */
export function placeInWords(path: Path, data: unknown, marked: Marks = PLAIN): string {
  const [list = "", index, ...rest] = path;
  const thing = typeof index === "number" ? thingInWords(String(list), index, data) : undefined;
  const steps = thing === undefined ? path : rest;
  const last = steps.at(-1);
  const number = typeof last === "number" ? [t`number ${last + 1}`] : [];
  const names = steps.filter((step) => typeof step === "string").join(".");
  const own = names === "" ? [] : [marked.code(names)];
  return [...number, ...own, ...(thing === undefined ? [] : [marked.name(thing)])].join(t(" of "));
}
