/**
 * Fingering systems of the trade, as tables to start from. All common practice, no source: makers and schools differ in the
 * cross-fingerings. Holes are listed from the mouth to the foot; x closed, o open.
 */

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
}

const rows = (register: number, list: string): FingeringRow[] =>
  list
    .trim()
    .split(/\s+/)
    .map((entry) => {
      const [degree, holes = ""] = entry.split(":");
      return {
        degree: (/^\d/.test(degree ?? "") ? Number(degree) : degree) as FingeringRow["degree"],
        holes,
        register,
      };
    });

export const FINGERING_SYSTEMS = {
  "six-hole": {
    title: "six holes, diatonic, two registers",
    holes: ["L1", "L2", "L3", "R1", "R2", "R3"],
    rows: [
      ...rows(1, "1:xxxxxx 2:xxxxxo 3:xxxxoo 4:xxxooo 5:xxoooo 6:xooooo b7:oxxooo 7:oooooo"),
      ...rows(2, "8:xxxxxx 9:xxxxxo 10:xxxxoo 11:xxxooo 12:xxoooo 13:xooooo"),
    ],
  },
  "five-hole-pentatonic": {
    title: "five holes with thumb, minor pentatonic, two registers",
    holes: ["T", "L1", "L2", "R1", "R2"],
    rows: [
      ...rows(1, "1:xxxxx b3:xxxxo 4:xxxoo 5:xxooo b7:xoooo 8:ooooo"),
      ...rows(2, "8:xxxxx b10:xxxxo 11:xxxoo 12:xxooo"),
    ],
  },
  "six-hole-and-thumb": {
    title: "six holes and thumb, diatonic, two registers",
    holes: ["T", "L1", "L2", "L3", "R1", "R2", "R3"],
    rows: [
      ...rows(1, "1:xxxxxxx 2:xxxxxxo 3:xxxxxoo 4:xxxxooo 5:xxxoooo 6:xxooooo 7:xoooooo 8:ooooooo"),
      ...rows(2, "8:xxxxxxx 9:xxxxxxo 10:xxxxxoo 11:xxxxooo 12:xxxoooo 13:xxooooo"),
    ],
  },
  "two-chamber-five": {
    title: "five holes, minor pentatonic, one register",
    holes: ["L1", "L2", "R1", "R2", "R3"],
    rows: rows(1, "1:xxxxx b3:xxxxo 4:xxxoo 5:xxooo b7:xoooo 8:ooooo"),
  },
  "vessel-six": {
    title: "six holes opened one after the other",
    holes: ["R1", "R2", "R3", "L1", "L2", "L3"],
    rows: rows(1, "1:xxxxxx 2:oxxxxx 3:ooxxxx 4:oooxxx 5:ooooxx 6:ooooox 7:oooooo"),
  },
  "vessel-four": {
    title: "four holes, cross-fingered",
    holes: ["R1", "R2", "L1", "L2"],
    rows: rows(1, "1:xxxx 2:oxxx 3:xoxx 4:ooxx 5:oxox 6:ooox 8:oooo"),
  },
} as const satisfies Readonly<Record<string, FingeringSystem>>;

export type FingeringSystemId = keyof typeof FINGERING_SYSTEMS;
