/**
 * The examples refitted to every key within an octave, as a Markdown table on stdout. Deterministic.
 * Run: npm run --silent refit-report > docs/refit-proof.md
 */
import { readdirSync, readFileSync } from "node:fs";
import { CHECKED } from "../../server/src/acoustics/checkedRanges.js";
import { readDesign, syntaxOf } from "../../server/src/document/read.js";
import { type OctaveRow, octaveRow } from "../support/octave.js";

const OCTAVE = 12;
/** Cents. */
const IN_TUNE = 2;

function line({ key, result, refusal, spread, widest, broken }: OctaveRow): string {
  if (result === undefined) return `| ${key} | | | | | refused: ${refusal ?? ""} |`;
  const { after, obstacles, nearestKey } = result;
  const { worstCents = Number.NaN, rmsCents = Number.NaN } = after.summary ?? {};
  const mm = (value: number) => (Number.isFinite(value) ? value.toFixed(1) : "");
  const nearest = nearestKey === undefined ? "" : `; nearest key: ${nearestKey.name}`;
  const inTheWay = obstacles.map(({ message }) => message).join("; ");
  const notHeld = broken.length > 0 ? ` NOT HELD: ${broken.join(", ")}` : "";
  const holds = Math.abs(worstCents) <= IN_TUNE;
  const verdict = holds ? "holds" : obstacles.length === 0 ? "in tolerance" : `in the way: ${inTheWay}${nearest}`;
  return `| ${key} | ${Math.abs(worstCents).toFixed(2)} | ${rmsCents.toFixed(2)} | ${mm(spread)} | ${mm(widest)} | ${verdict}${notHeld} |`;
}

console.log(`# Refits of the examples to every key within an octave

Made by \`npm run refit-report\`; do not edit. Each example is refitted from its own key to each of the 24 keys around it and to its own.
Worst and root mean square of the deviations in cents over all fingerings of all registers, from the dimensions as written; greatest
distance between neighbouring fingers' holes and widest hole in front, mm as printed. "Holds": every note within 2 cents and every limit
kept. "In tolerance": within the design's own 8 or 10 cents. Else what is in the way is
named with its numbers, and the nearest key that comes within the tolerance. What must hold (reach, fingertip, hole over bore ${CHECKED.holeOverBore.join(" … ")}, wall between holes and above the foot, order, walls, mouth, no note lost) is measured anew on the written files; "NOT HELD"
would say what does not.`);
for (const name of readdirSync("examples").sort()) {
  const file = readDesign(readFileSync(`examples/${name}`, "utf8"), syntaxOf(name));
  const instrument = file.documents[0]?.resolution.instrument;
  if (instrument?.key === undefined) continue;
  console.log(`\n## ${instrument.name ?? name}, from ${instrument.key.name}\n`);
  console.log("| key | worst | rms | spread | widest hole | |\n| --- | --- | --- | --- | --- | --- |");
  for (let semitones = OCTAVE; semitones >= -OCTAVE; semitones--) {
    const row = octaveRow(file, semitones);
    if (row !== undefined) console.log(line(row));
  }
}
