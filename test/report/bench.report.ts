/**
 * The bench's plan in simulated workshops, as a Markdown table on stdout. Deterministic.
 * Run: npm run --silent bench-report, and put it into docs/bench.md
 */
import { readFileSync } from "node:fs";
import { syntaxOf } from "../../server/src/document/read.js";
import { drawnFlat, workedOn } from "../support/benchWork.js";
import { Workshop } from "../support/workshop.js";

const WORKSHOPS = Number(process.env.WORKSHOPS ?? 4);
/** Cents. */
const RIGHT = 5;

/** How flat each is drawn, cents: what cannot be lowered again needs more room for lips and printer. */
const FILES = [
  ["quay-whistle.bore.yaml", { holesFlat: 32, lengthFlat: 18, room: 12 }],
  ["harbour-mist-flute.bore.yaml", { holesFlat: 32, lengthFlat: 18, room: 12 }],
  ["ferry-flute.bore.yaml", { holesFlat: 32, lengthFlat: 18, room: 12 }],
  ["pier-notch-flute.bore.json", { holesFlat: 32, lengthFlat: 18, room: 12 }],
  ["lantern-vessel.bore.yaml", { holesFlat: 45, lengthFlat: 20, room: 12 }],
  ["breakwater-pipes.bore.yaml", { lengthFlat: 30 }],
] as const;

const HEADINGS = [
  "instrument",
  "sessions",
  "cuts",
  "worst as printed",
  "worst at the end",
  "all within 5 cents",
  "within 5 of their middle",
  "the rest named as left",
  "sharpest part",
];
console.log(`| ${HEADINGS.join(" | ")} |\n| ${HEADINGS.map(() => "---").join(" | ")} |`);
for (const [name, flat] of FILES) {
  const syntax = syntaxOf(name);
  const drawn = drawnFlat(readFileSync(`examples/${name}`, "utf8"), syntax, flat);
  const all = Array.from({ length: WORKSHOPS }, (_, i) => workedOn(drawn, syntax, new Workshop(i + 1)));
  const most = (values: readonly number[]) => {
    const sorted = [...values].sort((a, b) => a - b);
    return `${sorted[sorted.length >> 1]?.toFixed(0)} (${sorted[0]?.toFixed(0)} to ${sorted.at(-1)?.toFixed(0)})`;
  };
  const within = all.filter(({ after }) => after <= RIGHT).length;
  const together = all.filter((work) => work.apart <= RIGHT).length;
  const named = all.filter(({ after, left }) => after > RIGHT && left.length > 0).length;
  const sharpest = Math.max(...all.map(({ tooWide }) => tooWide));
  const part = Number.isFinite(sharpest) ? sharpest.toFixed(1).replace("-0.0", "0.0") : "";
  console.log(
    `| ${name.replace(/\.bore.*/, "")} | ${most(all.map(({ sessions }) => sessions))} | ${most(all.map(({ cuts }) => cuts))} | ${most(all.map(({ before }) => before))} | ${most(all.map(({ after }) => after))} | ${within} of ${WORKSHOPS} | ${together} of ${WORKSHOPS} | in ${named} | ${part} |`,
  );
  if (process.env.LEFT !== undefined)
    for (const { after, apart, cents, left } of all)
      console.log(after.toFixed(1), apart.toFixed(1), cents.map((each) => each.toFixed(1)).join(" "), left.join("; "));
}
