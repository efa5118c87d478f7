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
  ["notch", `lip ${DEFAULTS.lipToEdge} mm from the blowing edge, wall of ${DEFAULTS.notchEdge} mm there`],
  ["transverse", `cover ${DEFAULTS.transverseCover}`],
  ["duct", `a labium that leaves ${DEFAULTS.labium} of the window's depth`],
  ["pan pipe", `cover ${DEFAULTS.pipeCover}`],
  ["vessel", "the same labium; a mouth hole as it is"],
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
      "| family | taken where a design says nothing | cases | mean of P and R | their deviation | mean of all not doubtful | the two means beside the bands' middle |",
      "| --- | --- | ---: | ---: | ---: | ---: | ---: |",
      ...FAMILIES.map(([family, taken]) => familyLine(found, family, taken)),
    ].join("\n"),
    `${ducts(found)} The notch is our own estimate (docs/coupled-model.md, section 6); a plain rim blown obliquely has no data at all.`,
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
    "**What a duct's mean is made of.** A labium slopes, and so leaves less of the window's depth: by finite elements of one window alone " +
    `(\`test/reference/fem/labium.json\`) a printed head's, 17° steep and half a millimetre thick, leaves 0.67 to 0.75 of it, and ${DEFAULTS.labium} is taken. Nothing was fitted to these flutes: ` +
    `all ${own.length} lie ${whole(mean(all))} ± ${(deviation(all) / Math.sqrt(own.length)).toFixed(0)} in the mean; with an upright lip, which only the organ pipe has, they would lie ${whole(mean(upright))}, ` +
    `the others ${Math.min(...raised).toFixed(0)} to ${Math.max(...raised).toFixed(0)} flatter each. ` +
    "A head's own labium may be said, `window.labium`; unsaid, a sharper one lies up to 15 cents above and an upright one up to 25 below, which the band has in it. " +
    `In the air that each was blown in (the organ pipe's own, or \`played\`) the grounds lie ${blown.map(whole).join(" and ")}: a window has no cover for the warmth of breath to be in. What the jet adds is not even sure in its sign: ` +
    "docs/breath.md has ordinary breath at nine cut-ups a period where ten make the resonance, some 6 cents below it on a lowest note; organ pipes by the 5/3 rule sound 7 to 20 above. No default is chosen by it, and the band reaches farther up than down. Outside their bands lie " +
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
    : `${out.map(({ known }) => known.what).join("; ")}, all of them remembered or rounded`;
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
  const grounds = own.filter(({ known }) => known.isFittedTo);
  const sure = grounds.map(offOf);
  const cell = (values: readonly number[], of: (values: readonly number[]) => string) =>
    values.length === 0 ? "none" : of(values);
  return `| ${family} | ${taken} | ${own.length} | ${cell(sure, (v) => whole(mean(v)))} | ${cell(sure, (v) => deviation(v).toFixed(0))} | ${cell(own.map(offOf), (v) => whole(mean(v)))} | ${cell(sure, () => `${whole(mean(grounds.map(besideMiddle)))}, ${whole(mean(own.map(besideMiddle)))}`)} |`;
}
