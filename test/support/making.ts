/** Where a design stops being something that can be made. */
import { expect, it } from "vitest";
import { preflight } from "../../server/src/design/making/preflight.js";
import { documentOf, fileOf, WHISTLE } from "./designs.js";

/** Why a design's text cannot be made, each reason with its place. */
export const refused = (text: string) =>
  preflight(documentOf(fileOf(text)).resolution).refused.map(({ path, message }) => `${path.join(".")}: ${message}`);

/** [what, refused at, allowed at, design of the size, what is said] */
type Case = readonly [string, number, number, (size: number) => string, string];

/** Each limit holds from both sides, close to it, and its message gives size and limit. */
export function holdFromBothSides(cases: readonly Case[]): void {
  it.each(cases)("%s: refused at %d, not at %d", (_, at, allowed, design, said) => {
    expect(refused(design(at))).toEqual([said]);
    expect(refused(design(allowed))).toEqual([]);
  });
}

/** WHISTLE's bore is 16 mm wide and its wall 3, so that the outside has a radius of 11; its window lies from −2.25 to 2.25. */
const hole = (name: string, written: string) => (text: string) =>
  text.replace(new RegExp(`name: ${name}, at: [\\d.]+, diameter: [\\d.]+`), `name: ${name}, ${written}`);
export const firstHole = (written: string, text = WHISTLE) => hole("L1", written)(text);
export const secondHole = (written: string, text = WHISTLE) => hole("L2", written)(text);
export const lastHole = (written: string, more = "") => hole("R3", written)(WHISTLE) + more;
export const jointed = (at: number | string, more = "") =>
  WHISTLE.replace("  - { at: 394.1", `  - { at: ${at}, diameter: =tube, joint: true }\n  - { at: 394.1`) + more;
export const walled = (wall: number, text = WHISTLE) => text.replace("wall: 3,", `wall: ${wall},`);
