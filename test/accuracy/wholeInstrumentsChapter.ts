/** The chapter of docs/accuracy.md on whole instruments. */
import { DEFAULTS } from "../../server/src/instrument/defaults.js";
import {
  besideMiddle,
  deviation,
  type Found,
  foundInstruments,
  type Known,
  mean,
  offOf,
  offWhenBlown,
  offWithUprightLip,
} from "./wholeInstruments.js";

const whole = (value: number) =>
  Math.round(value) === 0 ? "0" : value < 0 ? `−${(-value).toFixed(0)}` : `+${value.toFixed(0)}`;

const FAMILIES: readonly (readonly [Known["family"], string])[] = [
  ["notch", `lip ${DEFAULTS.lipToEdge} mm from the blowing edge, wall ${DEFAULTS.notchEdge} mm thick there`],
  ["transverse", `cover ${DEFAULTS.transverseCover}`],
  ["duct", `labium that leaves ${DEFAULTS.labium} of the window's depth`],
  ["pan pipe", `cover ${DEFAULTS.pipeCover}`],
  ["vessel", "the same labium; a mouth hole as drawn"],
];

export function wholeInstruments(): readonly string[] {
  const found = foundInstruments();
  return [
    "## Whole instruments of well-known lengths",
    "No played flute was found with every dimension and every pitch measured. What the trade does know is how long to cut a tube for a note; makers agree on that to about ±1 % (±17 cents). The designs are in `test/known`. They say nothing about lips and air, so this tests the defaults (docs/mouth.md), at 22 °C except for the organ pipe's own 15 °C. **P** marks a printed or published number, **R** a rule of the trade, **M** a number from memory or common practice; no default is fitted to an M.",
    [
      "| instrument | grade and source | makers' spread (from memory) | difference, cents | band | use |",
      "| --- | --- | --- | ---: | ---: | --- |",
      ...found.map(line),
    ].join("\n"),
    "The difference is the mean of all notes for Boehm's flute and the ½-inch pan pipe, and that of the lowest note for the others. Other notes: " +
      `Boehm's scale from C to C ${scale(found, "boehm-c4")}; straight notch flute ${scale(found, "notch-d4-straight")}; pan pipe ${scale(found, "panpipe-half-inch")}. ` +
      `Second registers, lowest note: ${seconds(found)}. The conical flutes, whose dimensions are from memory, overblow 50 cents wide. Lips can hardly correct that: measure one before you trust \`register: 2\` on a cone.`,
    "### Bias of each family's default",
    [
      "| family | default where a design says nothing | cases | mean where a default is based on it | standard deviation | mean of all except doubtful | the two means relative to the middle of the band |",
      "| --- | --- | ---: | ---: | ---: | ---: | ---: |",
      ...FAMILIES.map(([family, taken]) => familyLine(found, family, taken)),
    ].join("\n"),
    `${ducts(found)} The notch is our own estimate (docs/coupled-model.md, section 6); for a plain rim blown obliquely there are no data.`,
  ];
}

/** What a duct's mean is made of. */
function ducts(found: readonly Found[]): string {
  const own = found.filter(({ known }) => known.family === "duct" && !known.isDoubtful);
  const blown = own.filter(({ known }) => known.isFittedTo).map(({ known }) => offWhenBlown(known));
  const all = own.map(offOf);
  const upright = own.map(({ known }) => offWithUprightLip(known));
  const raised = own.map((each, i) => offOf(each) - (upright[i] ?? Number.NaN)).filter((cents) => cents > 0);
  return (
    "**What a duct's mean consists of.** A labium slopes, so it leaves less of the window's depth. By finite elements of a single window " +
    `(\`test/reference/fem/labium.json\`) a printed head's labium, sloping at 17° with an edge half a millimetre thick, leaves 0.67 to 0.75 of it; the default is ${DEFAULTS.labium}. Nothing was fitted to these flutes. ` +
    `The mean of all ${own.length} is ${whole(mean(all))} ± ${(deviation(all) / Math.sqrt(own.length)).toFixed(0)}. With an upright lip, which only the organ pipe has, it would be ${whole(mean(upright))}, ` +
    `each of the others ${Math.min(...raised).toFixed(0)} to ${Math.max(...raised).toFixed(0)} flatter. ` +
    "State a head's own labium as `window.labium`. Unstated, a sharper one sounds up to 15 cents higher than predicted and an upright one up to 25 lower; the band covers both. " +
    `In the air that each was blown in (the organ pipe's own, or \`played\`) the ones a default is based on come out at ${blown.map(whole).join(" and ")}: a window has no fitted cover that could absorb the warmth of the breath. Not even the sign of the jet's effect is certain. ` +
    "In docs/breath.md the jet of an ordinary breath travels nine cut-ups a period, and the resonance itself sounds at ten, so that a lowest note sounds some 6 cents below its resonance; organ pipes by the 5/3 rule sound 7 to 20 above it. No default takes the jet into account; the band reaches farther up than down instead. Outside their bands: " +
    `${outside(found)}.`
  );
}

function outside(found: readonly Found[]): string {
  const out = found.filter(
    (each) =>
      each.known.family === "duct" && !each.known.isDoubtful && (offOf(each) < -each.above || offOf(each) > each.below),
  );
  return out.length === 0
    ? "none"
    : `${out.map(({ known }) => known.what).join("; ")}; all of these are from memory or rounded`;
}

function line(found: Found): string {
  const { known: each, below, above } = found;
  const use = each.isDoubtful ? "doubtful, not counted" : each.isFittedTo ? "a default is based on it" : "";
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
  const grounds = own.filter(({ known }) => known.isFittedTo);
  const sure = grounds.map(offOf);
  const cell = (values: readonly number[], of: (values: readonly number[]) => string) =>
    values.length === 0 ? "none" : of(values);
  return `| ${family} | ${taken} | ${own.length} | ${cell(sure, (v) => whole(mean(v)))} | ${cell(sure, (v) => deviation(v).toFixed(0))} | ${cell(own.map(offOf), (v) => whole(mean(v)))} | ${cell(sure, () => `${whole(mean(grounds.map(besideMiddle)))}, ${whole(mean(own.map(besideMiddle)))}`)} |`;
}
