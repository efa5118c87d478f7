/**
 * The loop from print to print, in simulated workshops, by the program itself: solid, print, play, listen, calibrate, retune, print again.
 * Two Markdown tables on stdout: the prints, and what scatter does alone. Deterministic.
 * Run: npm run --silent loop-report, and put it into docs/loop.md
 */
import { prints, RIGHT } from "../support/loopPrints.js";
import { scatterAlone } from "../support/scatterAlone.js";

const WORKSHOPS = Number(process.env.WORKSHOPS ?? 5);
const MOST_PRINTS = 4;
/** Prints of one drawing, for what scatter does alone. */
const REPRINTS = 300;

const FILES = [
  "quay-whistle.bore.yaml",
  "harbour-mist-flute.bore.yaml",
  "ferry-flute.bore.yaml",
  "pier-notch-flute.bore.json",
  "lantern-vessel.bore.yaml",
  "breakwater-pipes.bore.yaml",
];

const middle = (values: readonly number[]) => {
  const sorted = [...values].sort((a, b) => a - b);
  const text = (value: number | undefined) => (value === undefined ? "" : value.toFixed(0));
  return sorted.length === 0
    ? ""
    : `${text(sorted[sorted.length >> 1])} (${text(sorted[0])} to ${text(sorted.at(-1))})`;
};

const numbers = Array.from({ length: MOST_PRINTS }, (_, i) => `print ${i + 1}`);
console.log(`| instrument | ${numbers.join(" | ")} | all within 5 cents by print 2 | by print ${MOST_PRINTS} |`);
console.log(`| --- | ${numbers.map(() => "---").join(" | ")} | --- | --- |`);
async function main(): Promise<void> {
  for (const name of FILES) {
    const all: (readonly number[])[] = [];
    for (let seed = 1; seed <= WORKSHOPS; seed++) all.push(await prints(name, seed, MOST_PRINTS));
    const cells = numbers.map((_, i) => middle(all.flatMap((worst) => worst[i] ?? [])));
    const right = (by: number) => all.filter((worst) => worst.slice(0, by).some((cents) => cents <= RIGHT)).length;
    console.log(
      `| ${name.replace(/\.bore.*/, "")} | ${cells.join(" | ")} | ${right(2)} of ${WORKSHOPS} | ${right(MOST_PRINTS)} of ${WORKSHOPS} |`,
    );
  }
  console.log("\n| instrument | one print in ten within | median | all within 5 cents |");
  console.log("| --- | --- | --- | --- |");
  for (const name of FILES) {
    const { best, median, right } = scatterAlone(name, REPRINTS);
    console.log(
      `| ${name.replace(/\.bore.*/, "")} | ${best.toFixed(1)} | ${median.toFixed(1)} | ${Math.round(100 * right)} % |`,
    );
  }
}
void main();
