/** docs/accuracy.md as text: the same on every machine, so that the tests can hold the page to it. */
import { airConstants, impedanceAngles, lossTable, speedTable } from "./air.js";
import { type Comparison, type ComparisonTable, largest } from "./comparison.js";
import { finiteElementTables } from "./finiteElements.js";
import { hornImpedances, hornResonances } from "./horn.js";
import { bottleTable, medianOf, panPipeLength, panPipeLip, rmsOf } from "./published.js";
import { radiationTables } from "./radiation.js";
import { tuningTables } from "./tuning.js";
import { vesselTables } from "./vessels.js";
import { foundInstruments, offOf } from "./wholeInstruments.js";
import { wholeInstruments } from "./wholeInstrumentsChapter.js";
import { plugTable } from "./windowStub.js";

const [tubes, windows, ...otherColumns] = finiteElementTables;

const CHAPTERS: readonly { readonly title: string; readonly tables: readonly ComparisonTable[] }[] = [
  { title: "Whole air columns by finite elements", tables: finiteElementTables },
  { title: "Vessels by finite elements", tables: vesselTables },
  { title: "The bore by a general-purpose solver", tables: [hornResonances, hornImpedances] },
  { title: "Instruments others made or measured", tables: [panPipeLength, panPipeLip, bottleTable] },
  {
    title: "The parts of the model",
    tables: [speedTable, airConstants, lossTable, impedanceAngles, ...radiationTables, plugTable],
  },
  { title: "Notes and temperaments", tables: tuningTables },
];

export function accuracyPage(): string {
  const chapters = CHAPTERS.flatMap(({ title, tables }) => [`## ${title}`, ...tables.flatMap(section)]);
  return `${[...summary(), ...wholeInstruments(), ...chapters].join("\n\n")}\n`;
}

const plain = (value: number, decimals: number) => value.toFixed(decimals).replace(/^-(?=0(\.0*)?$)/, "");
const signed = (value: number, decimals: number) => {
  const text = plain(value, decimals);
  return /^-|^0(\.0*)?$/.test(text) ? text.replace("-", "−") : `+${text}`;
};
const worst = (table: ComparisonTable | undefined, of: (row: Comparison) => boolean = () => true) =>
  plain(largest((table?.rows ?? []).filter(of)), 1);

function section(table: ComparisonTable): string[] {
  return [`### ${table.title}`, `${table.source} **Not known:** ${table.unknown}`, lines(table).join("\n")];
}

function lines({ rows, unit, decimals = 0, differenceUnit, differenceDecimals }: ComparisonTable): string[] {
  const difference = (row: Comparison) => signed(row.difference, differenceDecimals);
  if (unit === undefined) {
    return [
      `| case | difference, ${differenceUnit} |`,
      "| --- | ---: |",
      ...rows.map((row) => `| ${row.case.replaceAll("|", "\\|")} | ${difference(row)} |`),
    ];
  }
  const number = (value: number | undefined) => (value === undefined ? "" : plain(value, decimals));
  return [
    `| case | ours, ${unit.replaceAll("|", "\\|")} | theirs | difference, ${differenceUnit} |`,
    "| --- | ---: | ---: | ---: |",
    ...rows.map((row) => `| ${row.case} | ${number(row.ours)} | ${number(row.theirs)} | ${difference(row)} |`),
  ];
}

function summary(): string[] {
  const isWeak = (row: Comparison) => row.case.endsWith("(weak)");
  const strong = (row: Comparison) => !isWeak(row);
  const weak = (row: Comparison) => row.case.endsWith("register 2 (weak)");
  const register = (n: number) => (row: Comparison) => row.case.endsWith(`register ${n}`);
  return [
    "# How far to trust a prediction",
    "<!-- Written by `npm run accuracy`; the tests compare. Change test/accuracy/, not this page. -->",
    "Every number Borewright predicts, beside one that somebody or something else worked out or measured. This summary is in cents.",
    [
      "| what | against | found | trust it to |",
      "| --- | --- | --- | --- |",
      `| where holes put the notes of a tube, from note to note | finite elements, ${tubes?.rows.length} resonances | first register within ${worst(tubes, register(1))}, second within ${worst(tubes, register(2))} (weak ones ${worst(tubes, weak)}) | 1 cent |`,
      `| a window at its block | finite elements | within ${worst(windows)} | 3 cents, before breath and jet |`,
      ...otherColumns.map(
        (table) =>
          `| ${table.title} | finite elements, ${table.rows.length} resonances | within ${worst(table, strong)}${table.rows.some(isWeak) ? ` (weak ones ${worst(table, isWeak)})` : ""} | as found |`,
      ),
      `| a vessel's notes | finite elements | sphere within ${worst(vesselTables[0])}, ellipsoids within ${worst(vesselTables[1])}, tubes within ${worst(vesselTables[2])} | 5 cents from note to note, before breath |`,
      `| the bore itself, with wall losses | the wave equation by scipy | within ${plain(largest(hornResonances.rows), 2)} | 0.1 cent |`,
      `| the speed of sound of stated air | Cramer 1993 | within ${plain(largest(speedTable.rows), 4)} | 0.5 cent (Cramer's own) |`,
      `| pan pipes by a builder's lengths | his targets | half of them within ${plain(medianOf(panPipeLength), 1)}, all within ${worst(panPipeLength)} | what his list scatters, not what we err |`,
      `| how a bottle follows its volume | one measured bottle | ${plain(rmsOf(bottleTable), 1)} rms | as far as the bottle was measured |`,
      `| whole instruments by the lengths makers cut, nothing said of lips and air | published lengths and rules | within ${plain(Math.max(...foundInstruments().flatMap((found) => (found.known.isFittedTo ? [Math.abs(offOf(found))] : []))), 0)} | the band of each note |`,
      `| notes and temperaments | definitions | within ${plain(largest(tuningTables.flatMap(({ rows }) => rows)), 2)} (as printed) | exactly |`,
    ].join("\n"),
    "**What no model knows.** The lips, the breath and the jet. A flute's sounding notes lie 20 cents above to 25 below what the tube alone would do, for the cover of the mouth hole and the breath's warmth (Coltman 1966); 20 cents by blowing alone are ordinary at an end-blown rim (Ando 1986), and a recorder rises 20 to 40 from soft to loud (from memory). So before anything was measured a single note is good to some 20 to 40 cents, and the band shown beside each prediction says how much and why. Most of that moves all notes together, but not alike: a mouth that is longer than thought by 20 cents on the lowest note is so by 30 on the fifth above it, whose column is a third shorter. One instrument of the kind, printed, played and noted under `measured:`, fixes the mouth; what is left then is this page's figures and the printer's tolerances.",
    "**What is not compared here**, because nothing outside was found: whole played flutes measured note by note with every dimension known; windows with a sharp labium; how warm the air is along a played bore; rough printed walls; fingers hovering over holes.",
    "**How to read the tables.** Theirs is the number of the source; the difference is ours less theirs. The tests of this project fail where a difference becomes larger than what they allow; they hold every row but those of instruments others made, where only median, mean and spread are held.",
  ];
}
