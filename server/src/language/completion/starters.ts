/** Whole files to start from, one per family. Sizes as in examples/: each is in tune as it is. */
import { CompletionItemKind } from "vscode-languageserver";
import { DEFAULTS } from "../../instrument/defaults.js";
import { t, told } from "../../words/translation.js";
import { escapeSnippet } from "./render.js";
import type { Question, Suggestion } from "./suggestion.js";

interface Starter {
  readonly label: string;
  readonly describe: string;
  readonly design: Readonly<Record<string, unknown>>;
}

/** The scale of a six-hole flute, opened from the foot. */
const FINGERINGS = [0, 1, 2, 3, 4, 5, 6].map((open) => ({
  degree: open + 1,
  holes: "●".repeat(6 - open) + "○".repeat(open),
}));

const hole = (name: string, at: number, diameter: number) => ({ name, at, diameter });

const pipe = (note: string, length: number, diameter: number) => ({ note, length, diameter });
const round = (name: string, diameter: number, angle: number) => ({ name, diameter, angle });

export const STARTERS: readonly Starter[] = [
  {
    label: told("duct flute (whistle)"),
    describe: told("A whistle in G4 with six holes and a cylindrical bore."),
    design: {
      borewright: 1,
      name: "My whistle",
      family: "duct",
      key: "G4",
      air: { temperature: 22, humidity: 60 },
      mouth: { window: { width: 8.9, cutUp: 4.3 } },
      bore: [
        { at: 0, diameter: 16 },
        { at: 394.6, diameter: 16 },
      ],
      wall: 3,
      holes: [
        hole("L1", 173.3, 7),
        hole("L2", 205.3, 8.5),
        hole("L3", 229.8, 7),
        hole("R1", 270.8, 7),
        hole("R2", 289.6, 8.5),
        hole("R3", 321.4, 6.5),
      ],
      fingerings: FINGERINGS,
      print: { nozzle: 0.4, scale: "100 %", shrinkage: "0.2 %", holeUndersize: 0.15 },
    },
  },
  {
    label: told("transverse flute"),
    describe: told("A transverse flute in D4 with six holes, its body narrowing toward the foot."),
    design: {
      borewright: 1,
      name: "My flute",
      family: "transverse",
      key: "D4",
      temperament: "just",
      tolerance: 15,
      air: { temperature: 22, humidity: 60 },
      mouth: { hole: { length: 10.5, width: 11.5 }, cover: DEFAULTS.transverseCover, stopper: 18 },
      bore: [
        { at: -18, diameter: 19 },
        { at: 170, diameter: 19 },
        { at: 531, diameter: 16.8 },
      ],
      wall: 4,
      holes: [
        hole("L1", 239.7, 7.4),
        hole("L2", 282.8, 8.3),
        hole("L3", 313.4, 7.2),
        hole("R1", 369.7, 7.9),
        hole("R2", 397.6, 8.9),
        hole("R3", 431.7, 6.4),
      ],
      fingerings: FINGERINGS,
      print: { nozzle: 0.4, scale: "100 %", shrinkage: "0.2 %", holeUndersize: 0.15 },
    },
  },
  {
    label: told("rim or notch flute"),
    describe: told("An end-blown flute in G4 with a thumb hole and five finger holes."),
    design: {
      borewright: 1,
      name: "My notch flute",
      family: "rim",
      key: "G4",
      tolerance: 12,
      air: { temperature: 22, humidity: 60 },
      mouth: { notch: { width: 8.5, depth: 4.5 } },
      bore: [
        { at: 0, diameter: 20 },
        { at: 117.3, diameter: 18.6 },
        { at: 385.4, diameter: 17.9 },
      ],
      wall: 3.2,
      holes: [
        { ...hole("T", 166.8, 9.8), side: "back" },
        hole("L1", 194.5, 9.9),
        hole("L2", 220.9, 8.3),
        hole("L3", 253.2, 6.2),
        hole("R1", 285.7, 12.1),
        hole("R2", 325.7, 11.3),
      ],
      fingerings: FINGERINGS,
      print: { nozzle: 0.4, scale: "100 %", shrinkage: "0.2 %", holeUndersize: 0.15 },
    },
  },
  {
    label: told("pan pipes"),
    describe: told("A row of eight stopped pipes in G4, as wide from G4 to C5 as from D5 on."),
    design: {
      borewright: 1,
      name: "My pan pipes",
      family: "panpipe",
      key: "G4",
      air: { temperature: 22, humidity: 60 },
      mouth: { cover: 0.55 },
      wall: 2,
      pipes: [
        pipe("G4", 208.5, 15),
        pipe("A4", 184.8, 15),
        pipe("B4", 163.6, 15),
        pipe("C5", 153.9, 15),
        pipe("D5", 137.8, 12),
        pipe("E5", 121.9, 12),
        pipe("F#5", 107.8, 12),
        pipe("G5", 101.4, 12),
      ],
      print: { nozzle: 0.4, scale: "100 %", shrinkage: "0.2 %" },
    },
  },
  {
    label: told("vessel flute (ocarina)"),
    describe: told("An egg in C5 with six holes round it, opened one after the other."),
    design: {
      borewright: 1,
      name: "My vessel flute",
      family: "vessel",
      key: "C5",
      air: { temperature: 22, humidity: 60 },
      mouth: { window: { width: 9.4, cutUp: 4.5 } },
      vessel: { shape: "ellipsoid", length: 62.3, width: 44, height: 40 },
      wall: 3,
      holes: [
        round("R1", 3.45, 50),
        round("R2", 3.8, 90),
        round("R3", 2.75, 130),
        round("L1", 4.85, -50),
        round("L2", 5.5, -90),
        round("L3", 6.25, -130),
      ],
      fingerings: [0, 1, 2, 3, 4, 5, 6].map((open) => ({
        degree: open + 1,
        holes: "○".repeat(open) + "●".repeat(6 - open),
      })),
      print: { nozzle: 0.4, scale: "100 %", shrinkage: "0.2 %", holeUndersize: 0.15 },
    },
  },
];

export function starterSuggestions({ rendering, cursor, context }: Question): Suggestion[] {
  const json = context.file.syntax === "json";
  // Inside the braces of a JSON file that has them already, only the entries are wanted.
  return STARTERS.map(({ label, describe, design }, i) => ({
    label: t`New ${t(label)}`,
    kind: CompletionItemKind.Snippet,
    documentation: t(describe),
    text: withStops(
      json ? jsonText(design, cursor.path.length === 0 && cursor.role === "key") : yamlText(design),
      rendering.tabStops,
    ),
    isSnippet: true,
    filter: `${cursor.quote ?? ""}${t`New ${t(label)}`}`,
    rank: i / 100,
  }));
}

function jsonText(design: Starter["design"], entriesOnly: boolean): string {
  const entries = Object.entries(design).map(([name, value]) => `  ${JSON.stringify(name)}: ${jsonValue(value)}`);
  return entriesOnly ? `\n${entries.join(",\n")}\n` : `{\n${entries.join(",\n")}\n}\n`;
}

function jsonValue(value: unknown): string {
  if (!Array.isArray(value)) return flow(value, true);
  return `[\n${value.map((item) => `    ${flow(item, true)}`).join(",\n")}\n  ]`;
}

export function yamlText(design: Starter["design"]): string {
  return Object.entries(design)
    .map(([name, value]) =>
      Array.isArray(value)
        ? `${name}:\n${value.map((item) => `  - ${flow(item, false)}\n`).join("")}`
        : `${name}: ${flow(value, false)}\n`,
    )
    .join("");
}

function flow(value: unknown, json: boolean): string {
  if (typeof value !== "object" || value === null)
    return typeof value === "string" && !json ? value : JSON.stringify(value);
  const entries = Object.entries(value).map(
    ([name, item]) => `${json ? JSON.stringify(name) : name}: ${flow(item, json)}`,
  );
  return `{ ${entries.join(", ")} }`;
}

/** The width of the bore or of the widest pipes, and the length of a vessel, in YAML or JSON. */
const WIDTH = /(\{ "?(?:at|note)"?: [^{}]*?"?diameter"?: )([\d.]+)( \})/g;
const VESSEL = /("?shape"?: "?\w+"?, "?length"?: )([\d.]+)/;

/** Tab stops at what the maker will change first: the name, the key and the size. All stations and pipes as wide as the first follow it. */
function withStops(text: string, tabStops: boolean): string {
  if (!tabStops) return text;
  const first = [...text.matchAll(WIDTH)][0]?.[2];
  const stop = (line: string, number: number, name: string) =>
    line.replace(
      new RegExp(`^(\\s*"?${name}"?: "?)([^"\n]*?)("?,?)$`, "m"),
      (_, head, value, tail) => `${head}${open(number)}${value}${CLOSE}${tail}`,
    );
  const marked = stop(stop(text, 1, "name"), 2, "key")
    .replace(WIDTH, (whole, head, width, tail) =>
      width === first ? `${head}${open(3)}${width}${CLOSE}${tail}` : whole,
    )
    .replace(VESSEL, (_, head, length) => `${head}${open(3)}${length}${CLOSE}`);
  return escapeSnippet(marked).replace(/⟦(\d)/g, "${$1:").replaceAll(CLOSE, "}");
}

/** Stand for a stop's signs until the rest is escaped. */
const open = (number: number) => `⟦${number}`;
const CLOSE = "⟧";
