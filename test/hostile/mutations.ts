/** Damage done to the text of a design: bytes, lines, keys, numbers, structure, anchors, encodings, sizes. */
import type { Random } from "./random.js";

type Mutation = (text: string, random: Random) => string;

/** Characters and pieces that mean something to YAML, JSON, terminals, Markdown or workflow logs. */
const AWKWARD = [
  ..."{ } [ ] : - \" ' # = | > % @ ` ? & * ! , \\ ~ <<: *a &a !!float !!str !x ● é 🎶 <b> \u200b \u00a0".split(" "),
  ...["\n", "\r\n", "\t", ": ", "- ", " #", "---\n", "...\n", "%YAML 1.2\n---\n", "::error::x\n", "](command:x)"],
  ..."\u0000 \u001b[31m \u0007 \u0085 \u2028 \u202e \ufeff \ud800".split(" "),
];
/** What may stand in place of a number. */
const NUMBERS = [
  ..."0 -0 -1 1e308 -1e308 1e-308 1e400 .nan .inf -.inf 0x1F 0o17 007 +5 5,5 1_000 1e3 '' ~ true 0.02 999999999999".split(
    " ",
  ),
  ..."1/3 =1/0 =0/0 =-tube =nothing =wall*1e300 =holes[0].at =holes[99].at =(((1 =2^^3 2026-11-26 12:30:00 [7]".split(
    " ",
  ),
  ...['"12 mm"', '"100 %"', "!!float 7", "!!int 7", "!!str 7", "{ a: 7 }"],
];
const KEYS = [
  ..."holes bore fingerings mouth print hands parameters vessel pipes measured rules limits at diameter length".split(
    " ",
  ),
  ..."width window register degree note << __proto__ constructor toString = 1 null".split(" "),
];

/** Longest text that damage makes, in UTF-16 units: more makes every feature slow, and is `sizes` of its own. */
const LONGEST = 60_000;
const MANY = 300;

const slice = (text: string, random: Random, longest: number): readonly [number, number] => {
  const start = random.whole(0, text.length);
  return [start, Math.min(text.length, start + random.whole(0, longest))];
};
const replaced = (text: string, start: number, end: number, put: string) =>
  text.slice(0, start) + put + text.slice(end);

function onLines(change: (lines: string[], at: number, random: Random) => void): Mutation {
  return (text, random) => {
    const lines = text.split("\n");
    change(lines, random.whole(0, lines.length - 1), random);
    return lines.join("\n");
  };
}

/** Replaces one match of a pattern, chosen at random. */
function onMatch(pattern: RegExp, put: (match: string, random: Random) => string): Mutation {
  return (text, random) => {
    const matches = [...text.matchAll(pattern)];
    if (matches.length === 0) return text;
    const match = random.pick(matches);
    return replaced(text, match.index, match.index + match[0].length, put(match[0], random));
  };
}

const NUMBER = /(?<=[\s:[,=])-?\d+(?:\.\d+)?(?=[\s,}\]%]|$)/gm;
const VALUE = /(?<=: )[^\s,{}[\]#][^,{}[\]#\n]*/g;
const KEY = /(?<=[\s{,"]|^)[A-Za-z]+(?="?:)/gm;

const MUTATIONS: Readonly<Record<string, readonly Mutation[]>> = {
  bytes: [
    (text, random) => replaced(text, ...slice(text, random, 40), ""),
    (text, random) => replaced(text, ...slice(text, random, 3), random.pick(AWKWARD)),
    (text, random) => {
      const [start, end] = slice(text, random, 60);
      return replaced(text, random.whole(0, text.length), text.length, "").concat(text.slice(start, end));
    },
    (text, random) => replaced(text, ...slice(text, random, 1), String.fromCharCode(random.whole(0, 0xffff))),
    (text, random) => text.slice(0, random.whole(0, text.length)),
  ],
  lines: [
    onLines((lines, at) => lines.splice(at, 1)),
    onLines((lines, at) => lines.splice(at, 0, lines[at] ?? "")),
    onLines((lines, at, random) => {
      const other = random.whole(0, lines.length - 1);
      [lines[at], lines[other]] = [lines[other] ?? "", lines[at] ?? ""];
    }),
    onLines((lines, at) => lines.splice(at, 2, lines.slice(at, at + 2).join(" "))),
    onLines((lines, at, random) => {
      lines[at] = random.pick(["  ", "\t", "    ", "- ", "# ", "? "]) + lines[at];
    }),
    onLines((lines, at) => {
      lines[at] = lines[at]?.trimStart() ?? "";
    }),
  ],
  keys: [
    onMatch(KEY, (_, random) => random.pick(KEYS)),
    onMatch(KEY, (key) => `${key.slice(1)}${key.charAt(0)}`),
    onMatch(KEY, (key, random) => random.pick([`"${key}"`, `'${key}'`, `? ${key}\n`, `${key} `, key.toUpperCase()])),
  ],
  numbers: [
    onMatch(NUMBER, (_, random) => random.pick(NUMBERS)),
    onMatch(NUMBER, (number, random) => String(Number(number) * random.pick([0.001, 0.1, 0.5, 0.99, 2, 10, 1000, -1]))),
    onMatch(NUMBER, (number, random) => String(Number(number) + random.between(-5, 5))),
    onMatch(NUMBER, () => ""),
  ],
  structure: [
    onMatch(VALUE, (value, random) =>
      random.pick(["", "{}", "[]", "~", `[${value}]`, `{ a: ${value} }`, `{ x: `, "|\n", ">-\n"]),
    ),
    onMatch(/- \{[^\n]*\}/g, (item) => item.replace(/[{}]/g, "")),
    onMatch(/- \{[^\n]*\}/g, (item) => item.slice(2)),
    onMatch(/\[|\]|\{|\}/g, (_, random) => random.pick(["[", "]", "{", "}", ""])),
    onLines((lines, at, random) =>
      lines.splice(at, 0, random.pick(["---", "...", "--- # two", "%TAG ! x", "borewright: 1"])),
    ),
    (text) => `${text}\n---\n${text}`,
  ],
  anchors: [
    (text, random) => onMatch(VALUE, (value) => `&a ${value}`)(onMatch(VALUE, () => "*a")(text, random), random),
    onMatch(VALUE, (value) => `&a ${value}`),
    onMatch(VALUE, (_, random) => random.pick(["*a", "*b", "&b *b", "*"])),
    onMatch(/- \{/g, (_, random) => random.pick(["- &a {", "- { <<: *a,", "- { <<: [*a, *a],", "- &a { <<: *a,"])),
    onMatch(/ \}$/gm, (_, random) => random.pick([" <<: *a }", ", <<: *a }", ", <<: *a, }"])),
    onMatch(
      VALUE,
      (value, random) => `${random.pick(["!!float", "!!str", "!!int", "!!binary", "!!set", "!x", "!<x>"])} ${value}`,
    ),
  ],
  encodings: [
    (text) => `\ufeff${text}`,
    (text) => text.replaceAll("\n", "\r\n"),
    (text) => text.replaceAll("\n", "\r"),
    onMatch(/\n/g, () => "\r\n"),
    (text, random) => text.replaceAll("\n", random.pick(["\u0085", "\u2028", "\n\n", "\n\t"])),
    (text) => Buffer.from(text, "utf8").toString("latin1"),
    (text) => [...text].join("\u0000").slice(0, LONGEST),
    onMatch(/ {2}/g, () => "\t"),
  ],
  sizes: [
    onLines((lines, at, random) => lines.splice(at, 0, ...Array(random.whole(2, MANY)).fill(lines[at] ?? ""))),
    onMatch(VALUE, (value, random) => value.repeat(random.whole(2, MANY))),
    (text, random) => text + random.pick(["[", "{ a: ", "- ", "#", "\n", "x: 1\n", "●"]).repeat(random.whole(2, MANY)),
    (text, random) => replaced(text, ...slice(text, random, 0), "x".repeat(random.whole(1000, LONGEST / 2))),
  ],
};

export const WAYS = Object.keys(MUTATIONS);

/** One to five damages, most of one way. */
export function damaged(text: string, random: Random): string {
  const favourite = random.pick(WAYS);
  let result = text;
  for (let left = random.whole(1, 5); left > 0; left--) {
    const way = random.chance(0.6) ? favourite : random.pick(WAYS);
    const next = random.pick(MUTATIONS[way] ?? [])(result, random);
    if (next.length <= LONGEST) result = next;
  }
  return result;
}
