/** Designs whose own words would do something in the place they are shown in, were they not escaped for it. */
import fc from "fast-check";
import { anyText } from "./anyText.js";
import { WHISTLE } from "./designs.js";

/** Signs that steer a terminal or turn the direction of writing (Unicode: Cc, Zl, Zp, Bidi_Control). */
export const STEERING = /[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}]/u;

/** Each does harm somewhere: terminals, workflow logs, Markdown, notifications, lists, SARIF. */
const HARMFUL = [
  "\u001b[2J",
  "\u001b]0;title\u0007",
  "\u009b31m",
  "\u0007",
  "\u007f",
  "\u0085",
  "\u202egnol",
  "\u2066",
  "\u200f",
  "\u061c",
  "\u2028",
  "\n::error::x",
  "::set-output name=a::b",
  "  ::warning::x",
  "##[error]x",
  "%0A::error::x",
  "\r\n",
  "\n\n# heading",
  "[x](command:y)",
  "![x](https://a.example/i)",
  "[x](1)",
  "<b>x</b>",
  "https://a.example",
  "www.a.example",
  "`",
  "**",
  "|",
  "{0}",
  "{{1}}",
  "$(trash)",
  "&#91;",
  "\\",
] as const;

/** Some of those with any other text between. No surrogate stands alone: no file holds one. */
export const hostileText = fc
  .array(fc.oneof({ weight: 3, arbitrary: fc.constantFrom(...HARMFUL) }, anyText(4)), {
    minLength: 1,
    maxLength: 5,
  })
  .map((parts) => parts.join(""));

interface Words {
  readonly name: string;
  readonly holes: readonly string[];
  readonly parameter: string;
  readonly key: string;
  readonly note: string;
}

export const hostileWords: fc.Arbitrary<Words> = fc.record({
  name: hostileText,
  holes: fc.array(hostileText, { minLength: 6, maxLength: 6 }),
  parameter: hostileText,
  key: hostileText,
  note: hostileText,
});

/** A design that can be predicted, its notes out of tune, whose names are these words. JSON, which is YAML as well. */
export function nameDesign({ name, holes }: Words): string {
  const places = [173.3, 210.3, 229.8, 270.8, 289.6, 321.4];
  return JSON.stringify({
    borewright: 1,
    name,
    family: "duct",
    key: "G4",
    tolerance: 2,
    mouth: { window: { width: 9.82, cutUp: 4.5, labium: 1 } },
    bore: [
      { at: 0, diameter: 16 },
      { at: 394.1, diameter: 16 },
    ],
    wall: 3,
    holes: places.map((at, i) => ({ name: holes[i], at, diameter: i === 3 ? 17 / 2 : 7 })),
    fingerings: ["●●●●●●", "●●●●●○", "●●●●○○", "●●●○○○", "●●○○○○", "●○○○○○"].map((pattern, i) => ({
      degree: i + 1,
      holes: pattern,
    })),
    hands: { reach: 20, fingertip: 8 },
  });
}

/** One in which these words stand where none should: keys, notes, fingerings, expressions, units. */
export function wordDesign({ name, holes, parameter, key, note }: Words): string {
  const text = WHISTLE.replace("name: Test whistle", `name: ${JSON.stringify(name)}`)
    .replace("key: G4", `key: ${JSON.stringify(key)}\n${JSON.stringify(key)}: 3`)
    .replace("wall: 3,", `wall: 3, ${JSON.stringify(parameter)}: ${JSON.stringify(`=wall + ${parameter}`)},`)
    .replace("note: D5, holes: ●●○○○○", `note: ${JSON.stringify(note)}, holes: ${JSON.stringify(note)}`)
    .replace("at: 289.6", `at: ${JSON.stringify(`=${note}`)}`)
    .replace("temperature: 22", `temperature: ${JSON.stringify(note)}`);
  return holes.reduce((all, hole, i) => all.replace(/name: [LR]\d/, `name: ${JSON.stringify(`${hole}${i}`)}`), text);
}
