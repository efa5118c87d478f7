/** What was meant is looked for as long as it is worth it: in a file full of faults not for every one among all names. */
import { describe, expect, it } from "vitest";
import { Suggestions } from "../../server/src/instrument/didYouMean.js";
import { documentOf, fileOf } from "../support/designs.js";

describe("names that are meant", () => {
  it("are found for the first of many that are wrong", () => {
    const { findings } = documentOf(
      fileOf("x: &breadth 1\ny: [*bredth, *widht]\nz: &width 2\nw: [*widht, *nothing]\n"),
    );
    expect(findings.map(({ message }) => message).filter((message) => message.includes("anchor"))).toEqual([
      "No anchor `&bredth` stands before this alias. Did you mean `breadth`?",
      "No anchor `&widht` stands before this alias.",
      "No anchor `&widht` stands before this alias. Did you mean `width`?",
      "No anchor `&nothing` stands before this alias.",
    ]);
  });

  it("are compared a limited number of times, however many there are or are wrong", () => {
    let compared = 0;
    function* names(count: number, length: number): Iterable<string> {
      for (let i = 0; i < count; i++) {
        compared++;
        yield `${i}`.padEnd(length, "n");
      }
    }
    const inAll = (wrong: number, count: number, length: number) => {
      const suggestions = new Suggestions();
      compared = 0;
      for (let i = 0; i < wrong; i++) suggestions.inWords(`m${i}`.padEnd(length, "n"), names(count, length));
      return compared;
    };
    // The work of one file, in letters: each comparison takes the product of the two lengths.
    expect(inAll(15_000, 15_000, 6)).toBe(inAll(1_000, 15_000, 6));
    expect(inAll(15_000, 15_000, 6) * 6 * 6).toBeLessThan(2.5e6);
    expect(inAll(15_000, 15_000, 60) * 60 * 60).toBeLessThan(2.5e6);
    // Few are all looked for.
    expect(inAll(20, 300, 10)).toBe(20 * 300);
  });
});
