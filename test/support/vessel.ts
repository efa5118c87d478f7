/** A vessel for tests, and what is asked of it. */
import { parseNote } from "../../server/src/music/note.js";
import { checked } from "./designs.js";

/** B is too narrow. Dimensions invented. */
export const BODY = "vessel: { shape: sphere, diameter: 60 }";
export const VESSEL = `borewright: 1
family: vessel
key: E4
tolerance: 8
air: { temperature: 22, humidity: 60 }
mouth: { window: { width: 8, cutUp: 5, labium: 1 } }
${BODY}
wall: 4
holes:
  - { name: A, diameter: 6.1, angle: 60 }
  - { name: B, diameter: 7, angle: 120 }   # too narrow
  - { name: C, diameter: 5, angle: -60 }
fingerings:
  - { degree: 1, holes: ●●● }
  - { note: A4, holes: ○●● }
  - { note: C#5, holes: ○○● }
`;
export const tune = (text: string) => checked(text).findings.filter(({ code }) => code === "pitch/out-of-tune");
export const note = (name: string) => {
  const parsed = parseNote(name);
  if (parsed === undefined) throw new Error(name);
  return parsed;
};
export const lowest = (text: string) => checked(text).analysis.fingerings[0]?.predictedHz ?? Number.NaN;
export const cents = (a: number, b: number) => 1200 * Math.log2(a / b);
