/**
 * The whole jobs of test/jobs, brought into tune and into other keys, as a Markdown page on stdout. Deterministic.
 * Run: npm run --silent jobs-report > docs/jobs.md
 */
import { analyse } from "../../server/src/design/predict/analyse.js";
import { readDesign } from "../../server/src/document/read.js";
import { documentOf } from "../support/designs.js";
import { JOBS, type JobRow, type JobSizes, jobRow, jobText, sizesOf } from "../support/jobs.js";

const mm = (value: number | undefined) => (value === undefined ? "–" : value.toFixed(1));

function cells({ nearest, widest, holes, bore, joints }: JobSizes): string {
  const widths = holes.length === 0 ? "none" : holes.map((hole) => Number(hole.toFixed(2))).join(" ");
  const places = joints.length === 0 ? "–" : joints.map(mm).join(" ");
  return `${mm(nearest)} | ${mm(widest)} | ${widths} | ${bore} | ${places}`;
}

function line({ key, result, isRefused, refusal, sizes }: JobRow, given: JobSizes): string {
  if (result === undefined) return `| ${key} | | | | | | | refused: ${refusal ?? ""} |`;
  const { worstCents = Number.NaN } = result.after.summary ?? {};
  const held = result.remarks.filter((remark) =>
    /^(Held back|Nothing is|Not in tune|No longer|Within the tolerance)/.test(remark),
  );
  const left = [...new Set(sizes.complaints.filter((code) => given.complaints.includes(code)))];
  const broken = [...new Set(sizes.complaints.filter((code) => !given.complaints.includes(code)))];
  if (sizes.doubles.join() !== given.doubles.join()) broken.push("holes under one finger");
  const complaints = [
    ...(left.length === 0 ? [] : [`Still found: ${left.join(", ")}.`]),
    ...(broken.length === 0 ? [] : [`NOT HELD: ${broken.join(", ")}.`]),
  ];
  return `| ${key} | ${Math.abs(worstCents).toFixed(1)} | ${cells(sizes)} | ${[...(isRefused ? ["Refused; the best that was found:"] : []), ...held, ...complaints].join(" ") || "nothing"} |`;
}

console.log(`# Twelve whole jobs

Made by \`npm run jobs-report\`; do not edit. Twelve everyday instruments, described as a maker would begin them (test/jobs; the dimensions are our
own), are brought into tune in their own key and refitted to others. The first row of each table is the description as given. None of these instruments was made or played.

- *worst*: worst deviation in cents over all fingerings, predicted from the dimensions as written.
- *nearest* and *stretch*: smallest distance between two fingers and largest stretch of one hand, in mm as made.
- *holes*: diameters in the file's order.
- *bore*: length below the mouth, and the diameters from the mouth down.
- *joints*: positions in mm as drawn.
- *held back*: what kept the refit from more. "Still found" lists findings on hands, holes and printer that the description already had. NOT HELD would
  list findings that only the result has. "Refused" marks a key that the program does not offer; the row then shows the best that was found.`);
for (const [name, title, keys] of JOBS) {
  const document = documentOf(readDesign(jobText(name), "yaml"));
  const { key } = document.resolution.instrument;
  const sizes = sizesOf(document);
  const worst = analyse(document.resolution.instrument).summary?.worstCents ?? Number.NaN;
  const pairs = sizes.doubles.length === 0 ? "" : ` Under one finger each: ${sizes.doubles.join(", ")}.`;
  console.log(`\n## ${title}, from ${key?.name ?? "?"}\n\ntest/jobs/${name}.bore.yaml.${pairs}\n`);
  console.log("| key | worst | nearest | stretch | holes | bore | joints | held back |");
  console.log("| --- | --- | --- | --- | --- | --- | --- | --- |");
  console.log(
    `| as given | ${Math.abs(worst).toFixed(1)} | ${cells(sizes)} | ${[...new Set(sizes.complaints)].join(", ")} |`,
  );
  for (const semitones of keys) console.log(line(jobRow(name, semitones), sizes));
}
