/** Random designs, as data and as text of every style. */
import fc from "fast-check";
import { stringify } from "yaml";

type Data = Readonly<Record<string, unknown>>;

const millimetres = (min: number, max: number) =>
  fc.double({ min, max, noNaN: true }).map((value) => Number(value.toFixed(2)));
const words = fc.stringMatching(/^[A-Za-z äé笛🎵#:'"-]{0,12}$/u);

/** A tube with some holes and fingerings, most of it sensible, all of it readable. */
export const designs: fc.Arbitrary<Data> = fc
  .record({
    name: words,
    key: fc.constantFrom("G4", "D5", "Bb3", "F#4"),
    end: millimetres(300, 600),
    wide: millimetres(10, 20),
    scale: fc.constantFrom(100, "95 %", "97.5%", "=100 - 2"),
    holes: fc.array(fc.record({ diameter: millimetres(3, 9), named: fc.boolean(), back: fc.boolean() }), {
      maxLength: 6,
    }),
    registers: fc.array(fc.integer({ min: 1, max: 3 }), { maxLength: 4 }),
    mouth: fc.constantFrom<unknown>("ideal", { correction: 40 }, { window: { width: 9, cutUp: 4.5 } }),
  })
  .map(({ name, key, end, wide, scale, holes, registers, mouth }) => ({
    borewright: 1,
    name,
    family: "duct",
    key,
    parameters: { wide, gap: 21 },
    mouth,
    bore: [
      { at: 0, diameter: "=wide" },
      { at: end, diameter: wide },
    ],
    wall: 3,
    holes: holes.map(({ diameter, named, back }, i) => ({
      ...(named && { name: `L${i}` }),
      at: i === 0 ? 120 : i === 1 ? `=holes[0].at + gap` : 120 + 25 * i,
      diameter,
      ...(back && { side: "back" }),
    })),
    fingerings: registers.map((register, i) => ({ degree: i + 1, holes: "●".repeat(holes.length), register })),
    print: { scale, shrinkage: "0.3 %" },
  }));

/** How the same data may be written. */
export const STYLES = {
  block: (data: Data) => stringify(data),
  flow: (data: Data) => stringify(data, { collectionStyle: "flow", lineWidth: 0 }),
  wrapped: (data: Data) => stringify(data, { lineWidth: 30, indentSeq: false }),
  quoted: (data: Data) => stringify(data, { defaultStringType: "QUOTE_SINGLE", defaultKeyType: "PLAIN" }),
  json: (data: Data) => JSON.stringify(data, null, 2),
  dense: (data: Data) => JSON.stringify(data),
} as const;
export type Style = keyof typeof STYLES;

export const STYLE_NAMES = Object.keys(STYLES) as Style[];
