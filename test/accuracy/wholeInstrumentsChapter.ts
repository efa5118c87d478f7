/** The chapter of docs/accuracy.md on whole instruments. */
import { DEFAULTS } from "../../server/src/instrument/defaults.js";
import {
  besideMiddle,
  deviation,
  type Found,
  foundInstruments,
  type Known,
  labiumShare,
  MAKERS,
  mean,
  offOf,
  offWhenBlown,
  offWithLabium,
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
      "| family | taken where a design says nothing | cases | mean of P and R | their deviation | mean of all not doubtful | the two means beside the bands' middle |",
      "| --- | --- | ---: | ---: | ---: | ---: | ---: |",
      ...FAMILIES.map(([family, taken]) => familyLine(found, family, taken)),
    ].join("\n"),
    `${ducts(found)} The notch is our own estimate (docs/coupled-model.md, section 6); a plain rim blown obliquely has no data at all.`,
  ];
}

/** What a duct's mean is made of, and why the window has no number of its own. */
function ducts(found: readonly Found[]): string {
  const own = found.filter(({ known }) => known.family === "duct" && !known.isDoubtful).map(({ known }) => known);
  const grounds = own.filter(({ isFittedTo }) => isFittedTo);
  const blown = grounds.map(offWhenBlown);
  const ramped = own.map(offWithLabium);
  const unsure = MAKERS / Math.sqrt(blown.length);
  return (
    "**What a duct's mean is made of.** The window is reckoned with four upright walls. A labium slopes: by finite elements of one window alone " +
    `(\`test/reference/fem/labium.json\`) a printed head's, 17° steep and half a millimetre thick, leaves ${labiumShare().toFixed(2)} of the depth, which makes a flute of this table 5 to 27 cents sharper. With ` +
    `\`window.chimney\` written so (the organ pipe's lip is a plate) the grounds lie ${grounds.map(offWithLabium).map(whole).join(" and ")}, ${whole(mean(grounds.map(offWithLabium)))} in the mean, and all ${own.length} ${whole(mean(ramped))} ± ${(deviation(ramped) / Math.sqrt(own.length)).toFixed(0)}: no family is biased then. ` +
    "What a head's labium is like is the maker's to say, and nobody's default: left unsaid, its part is in the band, which lies from 5 below to 40 above before air and print and has these flutes in its middle (last column). " +
    `Beside it the warmth of breath, which has no cover to be in (in the air that each was blown in, the organ pipe's own or \`played\`, the grounds lie ${blown.map(whole).join(" and ")}, which rules good to ±${MAKERS} leave unsure by ${unsure.toFixed(0)}), and the jet: ` +
    "docs/breath.md has ordinary breath at nine cut-ups a period where ten make the resonance, some 6 cents below it on a lowest note; organ pipes by the 5/3 rule sound 7 to 20 above. Not even its sign is sure, and no default is chosen by it. Outside their bands lie " +
    `${outside(own, found)}, all of them remembered or rounded.`
  );
}

function outside(own: readonly Known[], found: readonly Found[]): string {
  const names = own.flatMap((known) => {
    const it = found.find((each) => each.known === known);
    return it && (offOf(it) < -it.above || offOf(it) > it.below) ? [known.what] : [];
  });
  return names.join("; ");
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
