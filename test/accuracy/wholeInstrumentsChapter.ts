/** The chapter of docs/accuracy.md on whole instruments. */
import { DEFAULTS } from "../../server/src/instrument/defaults.js";
import {
  deviation,
  type Found,
  foundInstruments,
  type Known,
  MAKERS,
  mean,
  offOf,
  offWhenBlown,
} from "./wholeInstruments.js";

const whole = (value: number) =>
  Math.round(value) === 0 ? "0" : value < 0 ? `−${(-value).toFixed(0)}` : `+${value.toFixed(0)}`;

const FAMILIES: readonly (readonly [Known["family"], string])[] = [
  ["notch", `lip ${DEFAULTS.lipToEdge} mm from the blowing edge, wall of ${DEFAULTS.notchEdge} mm there`],
  ["transverse", `cover ${DEFAULTS.transverseCover}`],
  ["duct", "the window as it is, without the jet"],
  ["pan pipe", `cover ${DEFAULTS.pipeCover}`],
  ["vessel", "window or hole as it is"],
];

export function wholeInstruments(): readonly string[] {
  const found = foundInstruments();
  return [
    "## Whole instruments as everybody knows them",
    "No played flute was found with every dimension and every pitch measured. What the trade knows is lengths that everybody cuts for a note, good to about ±1 % (±17 cents) among makers. The designs are in `test/known` and say nothing of lips and air, so that this is what the defaults make of them (docs/mouth.md): 22 °C, but for the organ pipe's own 15 °C. **P** is a printed or published number, **R** a rule of the trade, **M** from memory or common practice, which no default is fitted to.",
    [
      "| instrument | grade and source | makers' spread (from memory) | comes out, cents | band | |",
      "| --- | --- | --- | ---: | ---: | --- |",
      ...found.map(line),
    ].join("\n"),
    "Of Boehm's flute and the ½-inch pan pipe the mean of all notes, of the others the lowest. Other registers and notes: " +
      `Boehm's scale from C to C ${scale(found, "boehm-c4")}; straight notch flute ${scale(found, "notch-d4-straight")}; pan pipe ${scale(found, "panpipe-half-inch")}. ` +
      `Second registers, lowest note: ${seconds(found)}. Remembered cones overblow 50 cents wide, which lips hardly take back: measure one before trusting \`register: 2\` on a cone.`,
    "### What each family's default leaves",
    [
      "| family | taken where a design says nothing | cases | mean of P and R | their deviation | mean of all not doubtful |",
      "| --- | --- | ---: | ---: | ---: | ---: |",
      ...FAMILIES.map(([family, taken]) => familyLine(found, family, taken)),
    ].join("\n"),
    `${ducts(found)} The notch is our own estimate (docs/coupled-model.md, section 6); a plain rim blown obliquely has no data at all.`,
  ];
}

/** Why the window has no number of its own. */
function ducts(found: readonly Found[]): string {
  const grounds = found.filter(({ known }) => known.family === "duct" && known.isFittedTo);
  const blown = grounds.map(({ known }) => offWhenBlown(known));
  const unsure = MAKERS / Math.sqrt(blown.length);
  return (
    `Part of a duct's mean is the warmth of breath, which has no cover to be in: in the air that each was blown in (the organ pipe's own, \`played\`) the grounds lie ${blown.map(whole).join(" and ")}, ` +
    `${whole(mean(blown))} in the mean, which rules good to ±${MAKERS} leave unsure by ${unsure.toFixed(0)}. What the jet adds is known no better (docs/breath.md), so that no default is chosen by it: ` +
    "the window stays what finite elements and the published mouth of organ pipes make it, and its band lies from 5 below to 40 above, before air and print."
  );
}

function line(found: Found): string {
  const { known: each, below, above } = found;
  const use = each.isDoubtful ? "doubtful, in no mean" : each.isFittedTo ? "a default's ground" : "";
  return `| ${each.what} | ${each.grade}: ${each.source} | ${each.spread} | ${whole(offOf(found))} | −${below.toFixed(0)} to +${above.toFixed(0)} | ${use} |`;
}

const named = (found: readonly Found[], file: string) => found.find(({ known }) => known.file === file);

function scale(found: readonly Found[], file: string): string {
  const notes = named(found, file)?.notes ?? [];
  return notes.flatMap(({ register, cents }) => (register === 1 ? [whole(cents)] : [])).join(" ");
}

function seconds(found: readonly Found[]): string {
  return found
    .flatMap(({ known: { what, isDoubtful }, notes }) => {
      const second = notes.find(({ register }) => register === 2);
      return second === undefined || isDoubtful ? [] : [`${what} ${whole(second.cents)}`];
    })
    .join("; ");
}

function familyLine(found: readonly Found[], family: Known["family"], taken: string): string {
  const own = found.filter(({ known }) => known.family === family && !known.isDoubtful);
  const sure = own.filter(({ known }) => known.isFittedTo).map(offOf);
  const cell = (values: readonly number[], of: (values: readonly number[]) => string) =>
    values.length === 0 ? "none" : of(values);
  return `| ${family} | ${taken} | ${own.length} | ${cell(sure, (v) => whole(mean(v)))} | ${cell(sure, (v) => deviation(v).toFixed(0))} | ${cell(own.map(offOf), (v) => whole(mean(v)))} |`;
}
