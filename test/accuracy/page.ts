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
  return [`### ${table.title}`, `${table.source} **Caveats:** ${table.unknown}`, lines(table).join("\n")];
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
    "Every kind of number that Borewright predicts, compared with an independent calculation or measurement. This summary is in cents.",
    [
      "| what | against | found | trust it to |",
      "| --- | --- | --- | --- |",
      `| notes of a tube with holes, relative to each other | finite elements, ${tubes?.rows.length} resonances | first register within ${worst(tubes, register(1))}, second within ${worst(tubes, register(2))} (weak ones ${worst(tubes, weak)}) | 1 cent |`,
      `| a window at its block | finite elements | within ${worst(windows)} | 3 cents, not counting breath and jet |`,
      ...otherColumns.map(
        (table) =>
          `| ${table.title} | finite elements, ${table.rows.length} resonances | within ${worst(table, strong)}${table.rows.some(isWeak) ? ` (weak ones ${worst(table, isWeak)})` : ""} | as found |`,
      ),
      `| a vessel's notes | finite elements | sphere within ${worst(vesselTables[0])}, ellipsoids within ${worst(vesselTables[1])}, tubes within ${worst(vesselTables[2])} | 5 cents from note to note, not counting breath |`,
      `| the bore alone, with wall losses | the wave equation, solved with scipy | within ${plain(largest(hornResonances.rows), 2)} | 0.1 cent |`,
      `| the speed of sound in air of stated composition | Cramer 1993 | within ${plain(largest(speedTable.rows), 4)} | 0.5 cent (Cramer's own uncertainty) |`,
      `| pan pipes cut to a builder's lengths | his target pitches | half within ${plain(medianOf(panPipeLength), 1)}, all within ${worst(panPipeLength)} | no figure: his list scatters that much |`,
      `| how a bottle's pitch follows its volume | one measured bottle | ${plain(rmsOf(bottleTable), 1)} rms | the accuracy of that measurement |`,
      `| whole instruments of the lengths makers cut, lips and air left at their defaults | published lengths and rules | within ${plain(Math.max(...foundInstruments().flatMap((found) => (found.known.isFittedTo ? [Math.abs(offOf(found))] : []))), 0)} | each note's band |`,
      `| notes and temperaments | definitions | within ${plain(largest(tuningTables.flatMap(({ rows }) => rows)), 2)} (as printed) | exact |`,
    ].join("\n"),
    "**What no model knows.** The lips, the breath and the jet. The lip covers part of the mouth hole and the breath is warm, so a flute sounds from 25 cents below to 20 above what the tube alone would give (Coltman 1966). At an end-blown rim the player moves a note by 20 cents by blowing alone (Ando 1986). A recorder rises by 20 to 40 cents from soft to loud (from memory). Until something has been measured, a single note is therefore good to some 20 to 40 cents; the band beside each prediction says how much and why. Most of this error shifts all notes the same way, but not by the same amount: a mouth that makes the lowest note 20 cents flatter than predicted makes the fifth above it, whose column is a third shorter, 30 cents flatter. Print one instrument, play it and enter its notes under `measured:`. That calibrates the mouth, and leaves the figures on this page and the printer's tolerances.",
    "**What is not compared here**, because no independent data were found: whole flutes played and measured note by note, with every dimension known; windows with a sharp labium; the temperature of the air along a played bore; rough printed walls; fingers held close above open holes.",
    "**How to read the tables.** \"Theirs\" is the source's number; the difference is ours less theirs. This project's tests fail if a difference exceeds what they allow. They check every row, except for instruments that others made: there they check only the median, the mean and the spread.",
  ];
}
