/** What scatter from print to print does to a drawing that nothing else is wrong with: the floor of the loop. */
import { readFileSync } from "node:fs";
import { syntaxOf } from "../../server/src/document/read.js";
import { documentOf, fileOf } from "./designs.js";
import { HOW, RIGHT } from "./loopPrints.js";
import { Workshop } from "./workshop.js";

const ALIKE = { mouth: 0, undersize: 0, shrinkage: 0 };

export interface Scatter {
  /** Cents by which the farthest note leaves what is drawn: median, and what one print in ten keeps within. */
  readonly median: number;
  readonly best: number;
  /** Share of the prints whose notes all keep within 5 cents. */
  readonly right: number;
}

/** @param name of an example; `count` prints of it */
export function scatterAlone(name: string, count: number): Scatter {
  const document = documentOf(fileOf(readFileSync(`examples/${name}`, "utf8"), syntaxOf(name)));
  const drawn = new Workshop(1, { ...HOW, ...ALIKE, diameter: 0, place: 0 }).truly(document);
  const workshop = new Workshop(7, { ...HOW, ...ALIKE });
  const worst = Array.from({ length: count }, () => {
    const cents = workshop.truly(document).map((each, i) => Math.abs((each ?? 0) - (drawn[i] ?? 0)));
    workshop.reprint();
    return Math.max(...cents);
  }).sort((a, b) => a - b);
  const at = (share: number) => worst[Math.floor(share * count)] ?? Number.NaN;
  return { median: at(0.5), best: at(0.1), right: worst.filter((each) => each <= RIGHT).length / count };
}
