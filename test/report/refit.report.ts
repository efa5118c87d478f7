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
  const heldBackBy = obstacles.map(({ message }) => message).join("; ");
  const notHeld = broken.length > 0 ? ` NOT HELD: ${broken.join(", ")}` : "";
  const holds = Math.abs(worstCents) <= IN_TUNE;
  const verdict = holds ? "holds" : obstacles.length === 0 ? "in tolerance" : `held back by: ${heldBackBy}${nearest}`;
  return `| ${key} | ${Math.abs(worstCents).toFixed(2)} | ${rmsCents.toFixed(2)} | ${mm(spread)} | ${mm(widest)} | ${verdict}${notHeld} |`;
}

console.log(`# Refits of the examples to every key within an octave

Made by \`npm run refit-report\`; do not edit. Each example is refitted to its own key and to each of the 24 keys around it.

- *worst* and *rms*: worst deviation and root mean square, in cents, over all fingerings of all registers, predicted from the dimensions as written.
- *spread* and *widest hole*: largest distance between the holes of neighbouring fingers, and widest hole in front, in mm as printed.
- *holds*: every note is within 2 cents and every limit is kept.
- *in tolerance*: every note is within the design's own tolerance of 8 or 10 cents.
- *held back by*: the constraints that keep the notes out of tolerance, with their numbers, and the nearest key that comes within it.

The written files are then checked against every constraint: reach, fingertip, hole over bore ${CHECKED.holeOverBore.join(" … ")}, wall between holes and above
the foot, order of holes, walls, mouth, no note lost. "NOT HELD" would name a constraint that fails.`);
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
