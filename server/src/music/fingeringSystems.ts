/**
 * Fingering systems of the trade, as tables to start from. All common practice, no source: makers and schools differ in the
 * cross-fingerings. Holes are listed from the mouth to the foot; x closed, o open, / half closed. The register is the resonance that
 * sounds, counted from the lowest.
 */
import { told } from "../words/translation.js";

export interface FingeringRow {
  /** Of the scale on the note with every hole closed. */
  readonly degree: number | `${"b" | "#"}${number}`;
  readonly holes: string;
  readonly register: number;
}

export interface FingeringSystem {
  /** In the maker's words. */
  readonly title: string;
  /** From the mouth to the foot: L and R by hand, T the thumb. */
  readonly holes: readonly string[];
  readonly rows: readonly FingeringRow[];
  /** Cents by which the breath bends the lowest and the highest note of an instrument that is tuned along it. */
  readonly breath?: { readonly lowest: number; readonly highest: number };
}

const rows = (register: number, list: string): FingeringRow[] =>
  list.split(" ").map((entry) => {
    const [degree, holes = ""] = entry.split(":");
    return {
      degree: (/^\d/.test(degree ?? "") ? Number(degree) : degree) as FingeringRow["degree"],
      holes,
      register,
    };
  });

/** Cents: a wide vessel's lowest notes are blown softly and its highest hard, the more so the farther it goes. Common practice, no source. */
const RISING_BREATH = {
  elevenNotes: { lowest: -50, highest: 50 },
  thirteenNotes: { lowest: -60, highest: 60 },
} as const;

export const FINGERING_SYSTEMS = {
  "six-hole": {
    title: told("six holes, diatonic, two registers"),
    holes: ["L1", "L2", "L3", "R1", "R2", "R3"],
    rows: [
      ...rows(1, "1:xxxxxx 2:xxxxxo 3:xxxxoo 4:xxxooo 5:xxoooo 6:xooooo b7:oxxooo 7:oooooo"),
      ...rows(2, "8:xxxxxx 9:xxxxxo 10:xxxxoo 11:xxxooo 12:xxoooo 13:xooooo"),
    ],
  },
  "five-hole-pentatonic": {
    title: told("five holes with thumb, minor pentatonic, two registers"),
    holes: ["T", "L1", "L2", "R1", "R2"],
    rows: [
      ...rows(1, "1:xxxxx b3:xxxxo 4:xxxoo 5:xxooo b7:xoooo 8:ooooo"),
      ...rows(2, "8:xxxxx b10:xxxxo 11:xxxoo 12:xxooo"),
    ],
  },
  "six-hole-and-thumb": {
    title: told("six holes and thumb, diatonic, two registers"),
    holes: ["T", "L1", "L2", "L3", "R1", "R2", "R3"],
    rows: [
      ...rows(1, "1:xxxxxxx 2:xxxxxxo 3:xxxxxoo 4:xxxxooo 5:xxxoooo 6:xxooooo 7:xoooooo 8:ooooooo"),
      ...rows(2, "8:xxxxxxx 9:xxxxxxo 10:xxxxxoo 11:xxxxooo 12:xxxoooo 13:xxooooo"),
    ],
  },
  "seven-hole-and-thumb": {
    title: told("seven holes and thumb, two registers by the pinched thumb"),
    holes: ["T", "L1", "L2", "L3", "R1", "R2", "R3", "R4"],
    rows: [
      ...rows(1, "1:xxxxxxxx 2:xxxxxxxo 3:xxxxxxoo 4:xxxxxoxx 5:xxxxoooo 6:xxxooooo 7:xxoooooo 8:xoxooooo 9:ooxooooo"),
      ...rows(2, "10:/xxxxxoo 11:/xxxxoxo 12:/xxxoooo 13:/xxooooo"),
    ],
  },
  "three-hole": {
    title: told("three holes for one hand, registers two to four"),
    holes: ["T", "L1", "L2"],
    rows: [...rows(2, "8:xxx 9:xxo 10:xoo 11:ooo"), ...rows(3, "12:xxx 13:xxo"), ...rows(4, "15:xxx 16:xxo")],
  },
  overtone: {
    title: told("no holes: the tube's own resonances, open foot"),
    holes: [],
    rows: [...rows(2, "8:"), ...rows(3, "12:"), ...rows(4, "15:"), ...rows(5, "17:"), ...rows(6, "19:")],
  },
  "two-chamber-six": {
    title: told("six holes, minor pentatonic, one register"),
    holes: ["L1", "L2", "L3", "R1", "R2", "R3"],
    rows: rows(1, "1:xxxxxx b3:xxxxxo 4:xxxxoo 5:xxxooo b7:xoxooo 8:ooxooo"),
  },
  "two-chamber-five": {
    title: told("five holes, minor pentatonic, one register"),
    holes: ["L1", "L2", "R1", "R2", "R3"],
    rows: rows(1, "1:xxxxx b3:xxxxo 4:xxxoo 5:xxooo b7:xoooo 8:ooooo"),
  },
  "vessel-six": {
    title: told("six holes opened one after the other"),
    holes: ["R1", "R2", "R3", "L1", "L2", "L3"],
    rows: rows(1, "1:xxxxxx 2:oxxxxx 3:ooxxxx 4:oooxxx 5:ooooxx 6:ooooox 7:oooooo"),
  },
  "vessel-ten": {
    title: told("ten holes opened one after the other"),
    holes: ["R4", "R3", "R2", "R1", "L3", "L2", "L1", "RT", "LT", "L4"],
    rows: rows(
      1,
      "1:xxxxxxxxxx 2:oxxxxxxxxx 3:ooxxxxxxxx 4:oooxxxxxxx 5:ooooxxxxxx 6:oooooxxxxx 7:ooooooxxxx 8:oooooooxxx 9:ooooooooxx 10:ooooooooox 11:oooooooooo",
    ),
    breath: RISING_BREATH.elevenNotes,
  },
  "vessel-twelve": {
    title: told("twelve holes opened one after the other, two of them beside others"),
    holes: ["R2b", "L2b", "R4", "R3", "R2", "R1", "L3", "L2", "L1", "RT", "LT", "L4"],
    rows: rows(
      1,
      "1:xxxxxxxxxxxx 2:oxxxxxxxxxxx b3:ooxxxxxxxxxx 4:oooxxxxxxxxx 5:ooooxxxxxxxx b6:oooooxxxxxxx b7:ooooooxxxxxx 8:oooooooxxxxx 9:ooooooooxxxx b10:oooooooooxxx 11:ooooooooooxx 12:ooooooooooox b13:oooooooooooo",
    ),
    breath: RISING_BREATH.thirteenNotes,
  },
  "vessel-four": {
    title: told("four holes, cross-fingered"),
    holes: ["R1", "R2", "L1", "L2"],
    rows: rows(1, "1:xxxx 2:oxxx 3:xoxx 4:ooxx 5:oxox 6:ooox 8:oooo"),
  },
} as const satisfies Readonly<Record<string, FingeringSystem>>;

/** Scales of a row of pipes, by degrees of its lowest note. */
export const PIPE_SCALES = {
  diatonic: [1, 2, 3, 4, 5, 6, 7, 8],
  pentatonic: [1, 2, 3, 5, 6, 8, 9, 10],
} as const;

export type FingeringSystemId = keyof typeof FINGERING_SYSTEMS;

/** A row as a design writes it: `{ degree: 9, holes: ●●○, register: 2 }`. */
export function fingeringText({ degree, holes, register }: FingeringRow): string {
  const signs = holes.replaceAll("x", "●").replaceAll("o", "○").replaceAll("/", "◐");
  return `{ ${[
    // A number sign begins a comment where it is not quoted.
    `degree: ${String(degree).startsWith("#") ? `"${degree}"` : degree}`,
    ...(signs === "" ? [] : [`holes: ${signs}`]),
    ...(register === 1 ? [] : [`register: ${register}`]),
  ].join(", ")} }`;
}
