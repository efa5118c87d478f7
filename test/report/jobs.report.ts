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

Made by \`npm run jobs-report\`; do not edit. Twelve everyday instruments, described as a maker would begin them (test/jobs; dimensions of our
own), brought into tune in their own key and refitted to others. Worst deviation in cents over all fingerings, from the dimensions as written;
the least distance between two fingers and the greatest stretch of one hand, mm as made; holes' diameters in the file's order; the bore, its
length below the mouth by its diameters from the mouth on; where joints lie, mm as drawn; and what is held back. "Still found" is what the rules of hands,
holes and printer said of the description already; NOT HELD would be what they say only of the result. "Refused" marks a key that the product does not offer; the row is the best that was found. The first row of each is the description as it was given. Nothing of this was made and played.`);
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
