/** What the view says of its numbers. A stopped tube's second register lies a twelfth up: Chaigne & Kergomard, closed-open tube. */
import { describe, expect, it } from "vitest";
import { fingeringSigns, fingeringWords, responseWords } from "../../../client/view/words.js";

const answer = { row: 0, curve: [], strength: 29, quality: 46, cutOffHz: 1344, stretch: -3.2, breath: undefined };

describe("responseWords", () => {
  it("says of an open tube's second register how far it is from the octave, of a stopped one's from the twelfth", () => {
    expect(responseWords(answer, false)).toContain("second register −3.2 cents from the octave");
    expect(responseWords(answer, true)).toContain("second register −3.2 cents from the twelfth");
  });

  it("leaves out what is not known", () => {
    const none = { ...answer, strength: undefined, quality: undefined, cutOffHz: undefined, stretch: undefined };
    expect(responseWords(none, false)).toBe("");
  });
});

describe("a fingering", () => {
  it("is written in the signs of the file, and in words for those who listen", () => {
    expect(fingeringSigns([1, 0.9, 0])).toBe("●◐○");
    expect(fingeringWords([1, 0.5, 0], ["L1", "L2"])).toEqual(["L1 closed", "L2 half closed", "hole 3 open"]);
  });
});
