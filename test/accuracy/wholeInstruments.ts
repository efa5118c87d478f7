/**
 * Whole instruments of well-known lengths, published or cut by every maker. Their designs (test/known) say nothing about lips and air, so they
 * test the defaults.
 */
import { readFileSync } from "node:fs";
import path from "node:path";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { bandsOf } from "../../server/src/design/predict/band.js";
import { readDesign } from "../../server/src/document/read.js";

/** P: a printed or published number; R: a rule of the trade; M: from memory or common practice; no default is fitted to it. */
export type Grade = "P" | "R" | "M";

export interface Known {
  readonly file: string;
  readonly what: string;
  readonly family: "notch" | "transverse" | "duct" | "pan pipe" | "vessel";
  readonly grade: Grade;
  readonly source: string;
  /** Among makers, from memory. */
  readonly spread: string;
  /** What is remembered of it contradicts itself, or its pitch is not stated: reported, but not part of any mean. */
  readonly isDoubtful?: true;
  /** A default was chosen by it: its length, or rule, is published. */
  readonly isFittedTo?: true;
}

const known = (
  file: string,
  what: string,
  family: Known["family"],
  grade: Grade,
  source: string,
  spread: string,
  how?: "doubtful" | "fitted to",
): Known => ({
  file,
  what,
  family,
  grade,
  source,
  spread,
  ...(how === "doubtful" ? { isDoubtful: true } : {}),
  ...(how === "fitted to" ? { isFittedTo: true } : {}),
});

export const KNOWN: readonly Known[] = [
  known(
    "notch-d4-straight",
    "five holes, straight tube, 542 × 20, D4",
    "notch",
    "P",
    "length, bore, holes and notch from a workshop page on plastic tube; hole positions from another",
    "540–548 mm",
    "fitted to",
  ),
  known(
    "notch-d4-shaped",
    "the same, traditional bore, 545, D4",
    "notch",
    "P",
    "length published; bore from memory",
    "throat 16–17.5 mm",
    "fitted to",
  ),
  known(
    "notch-g4-open",
    "six holes and thumb, open foot, 380 × 20, G4",
    "notch",
    "P",
    "16 to 20 bores long (encyclopedia), commonly 375–385; holes from memory",
    "370–390 mm, bores 18–22",
    "fitted to",
  ),
  known(
    "notch-g4-choked",
    "the same, foot narrowed to 13, bore 19, G4",
    "notch",
    "P",
    "published that the foot is often half closed; sizes from memory",
    "opening 11–15 mm",
    "fitted to",
  ),
  known(
    "notch-xiao-d4",
    "upper end partly closed, 545 to the vents × 15, D4",
    "notch",
    "P",
    "715 × 25 overall (museum catalogue); rest from memory",
    "±8 mm",
    "fitted to",
  ),
  known(
    "notch-g4-360",
    "360 × 18, called G4",
    "notch",
    "P",
    "length quoted from a tutor of 1974; its pitch is not stated",
    "",
    "doubtful",
  ),
  known(
    "boehm-c4",
    "cylindrical flute by the schema of 1871, A = 435, C4 … C5",
    "transverse",
    "P",
    "T. Boehm, The Flute and Flute-Playing, 1871, transl. D. C. Miller 1908/1922: 670 mm less 51.5, hole n at 670·2^(−n/12) − 51.5; rims of holes from memory",
    "",
    "fitted to",
  ),
  known(
    "tube-flute-d4",
    "six holes, 525 × 20.9 of plastic tube, D4",
    "transverse",
    "P",
    "length and mouth hole from a workshop page, 2004/2011; finger holes from memory",
    "520–545 mm",
    "fitted to",
  ),
  known(
    "tube-fife-bb4",
    "fife of ¾-inch tube, 305, B♭4",
    "transverse",
    "P",
    "how-to page, rough",
    "±5 mm",
    "fitted to",
  ),
  known("bamboo-side-b3", "bass bamboo, 630 × 25, B3", "transverse", "M", "from memory", "±10 mm"),
  known("bamboo-side-d4", "bamboo, 528 × 18.5, D4", "transverse", "M", "from memory", "±10 mm, bores 17–21"),
  known("traverso-d4-415", "one key, conical, A = 415, D4", "transverse", "M", "from memory", "530–555 mm"),
  known(
    "keyless-conical-d4",
    "keyless, conical, D4",
    "transverse",
    "M",
    "from memory; remembered length and bore contradict each other",
    "515–545 mm",
    "doubtful",
  ),
  known(
    "fife-bb4",
    "wooden fife, 320 × 11.5, B♭4",
    "transverse",
    "M",
    "from memory; about 340 mm would fit",
    "",
    "doubtful",
  ),
  known(
    "organ-c4",
    "open flue pipe, 60 mm, C4 at 15 °C",
    "duct",
    "R",
    "L = c/2f − 5/3 D, Cavaillé-Coll's rule; its own air",
    "±1 % of L",
    "fitted to",
  ),
  known(
    "two-chamber-a4",
    "two-chamber flute, 340 × 19, A4",
    "duct",
    "R",
    "c/2f = L + D/3 + 2.5 D, makers' rules on the web",
    "constant 2.2–2.8 D",
    "fitted to",
  ),
  known("whistle-d5", "six-hole whistle, 268 × 12, D5", "duct", "M", "from memory", "262–272 mm"),
  known("whistle-low-d4", "six-hole whistle, 538 × 22, D4", "duct", "M", "from memory", "528–545 mm"),
  known(
    "whistle-copper-d5",
    "½-inch copper, 274 (the most a 300 mm pipe allows), D5",
    "duct",
    "P",
    "pipe and window from a workshop page of 1997; length inferred, so a lower bound",
    "",
    "doubtful",
  ),
  known(
    "recorder-alto-f4",
    "seven holes and thumb, F4",
    "duct",
    "M",
    "total of 470–480 (encyclopedia); rest from memory",
    "total ±8 mm",
  ),
  known(
    "recorder-soprano-c5",
    "the same, C5",
    "duct",
    "M",
    "total of 320 (encyclopedia); rest from memory",
    "total 315–330 mm",
  ),
  known(
    "three-hole-g4",
    "one-handed pipe, 415 × 12, G4",
    "duct",
    "M",
    "46 cm overall in G (workshop page), rough; rest from memory",
    "±10 mm",
  ),
  known("three-hole-d5", "one-handed pipe, 273 × 9.5, D5", "duct", "M", "from memory; 1 : 30 to 40 bore to length", ""),
  known(
    "overtone-a2",
    "overtone flute, 1524 × 25.4, A2",
    "duct",
    "P",
    "“5 ft … 110 Hz” from a web article, rounded",
    "±25 mm",
  ),
  known(
    "overtone-bass-g2",
    "bass overtone flute, 1660 × 34, G2",
    "duct",
    "M",
    "1500–1700 long (encyclopedia); key and bore from memory",
    "±40 mm",
  ),
  known(
    "panpipe-half-inch",
    "½-inch plastic, C4 … A5",
    "pan pipe",
    "P",
    "table of tube lengths on the web, two errors left out",
    "scatter of the list 10 cents",
    "fitted to",
  ),
  known(
    "panpipe-alto-g4",
    "alto, 210 × 14.5, G4",
    "pan pipe",
    "P",
    "length from an article; bore from memory",
    "±2 mm",
    "fitted to",
  ),
  known(
    "bottle-half-litre",
    "half-litre bottle blown across, 146 Hz",
    "vessel",
    "P",
    "volume and pitch measured (HyperPhysics, Waves/coke); neck from memory",
    "",
    "doubtful",
  ),
  known("vessel-four-c5", "four holes, 75 cm³, C5", "vessel", "M", "from memory; far too large", "", "doubtful"),
  known(
    "vessel-ten-c5",
    "ten holes, 110 cm³, C5",
    "vessel",
    "M",
    "a formula its author had not tried; far too large",
    "",
    "doubtful",
  ),
];

export interface Found {
  readonly known: Known;
  /** Cents that the lowest note comes out above what is known, and the mean and spread of all notes of the first register. */
  readonly lowest: number;
  readonly mean: number;
  readonly below: number;
  readonly above: number;
  readonly notes: readonly { readonly register: number; readonly cents: number }[];
}

export function designOf(file: string) {
  const text = readFileSync(path.join("test/known", `${file}.bore.yaml`), "utf8");
  const [document] = readDesign(text, "yaml").documents;
  if (document === undefined) throw new Error(`nothing in ${file}`);
  return document;
}

/** Cents in the ±1 % to which makers' lengths agree. */
export const MAKERS = 17;

/** Cents that the lowest note comes out above what is known in the air in which it was blown: its own, else `played`. */
export function offWhenBlown({ file }: Known): number {
  return lowestOff(file, (text) => (/^air:/m.test(text) ? text : `${text}\nair: played\n`));
}

/** Cents that the lowest note would come out above what is known if its window had an upright lip, as an organ pipe's plate is. */
export function offWithUprightLip({ file }: Known): number {
  return lowestOff(file, (text) =>
    text.includes("labium:") ? text : text.replace(/^( +)cutUp: .*$/m, "$&\n$1labium: 1"),
  );
}

function lowestOff(file: string, changed: (text: string) => string): number {
  const text = readFileSync(path.join("test/known", `${file}.bore.yaml`), "utf8");
  const [document] = readDesign(changed(text), "yaml").documents;
  return (document && analyse(document.resolution.instrument).fingerings[0]?.cents) ?? Number.NaN;
}

export function foundOf(known: Known): Found {
  const { resolution } = designOf(known.file);
  const analysis = analyse(resolution.instrument);
  const [band] = bandsOf(resolution, analysis);
  const notes = analysis.fingerings.map(({ fingering: { register }, cents = Number.NaN }) => ({ register, cents }));
  const first = notes.filter(({ register }) => register === 1).map(({ cents }) => cents);
  return {
    known,
    lowest: first[0] ?? Number.NaN,
    mean: mean(first),
    below: band?.reach.below ?? Number.NaN,
    above: band?.reach.above ?? Number.NaN,
    notes,
  };
}

export const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

export const deviation = (values: readonly number[]) =>
  Math.sqrt(mean(values.map((value) => (value - mean(values)) ** 2)));

let all: readonly Found[] | undefined;
/** Worked out once. */
export const foundInstruments = (): readonly Found[] => {
  all ??= KNOWN.map(foundOf);
  return all;
};

/** The one number that stands for an instrument: the mean of a scale or a list, else the lowest note. */
export const offOf = ({ known: { file }, mean: whole, lowest }: Found): number =>
  file === "boehm-c4" || file === "panpipe-half-inch" ? whole : lowest;

/** The same relative to the middle of the note's band, which for a jet lies above the prediction. */
export const besideMiddle = (found: Found) => offOf(found) + (found.above - found.below) / 2;
