/** What is looked at after the building, on solids that the numbers let through: none is known that does, so the facts are given. */
import { describe, expect, it } from "vitest";
import { partFindings } from "../../server/src/make/solid/verify.js";

const body = { name: "body", genus: 3, path: ["holes", 0] };

describe("a part after it is built", () => {
  it.each([
    ["in two pieces", { pieces: 2, genus: 3, volume: 1 }, /2 pieces/],
    ["with openings that run into one another", { pieces: 1, genus: 2, volume: 1 }, /2 ways through it, 3 wanted/],
    ["with a wall pierced", { pieces: 1, genus: 4, volume: 1 }, /4 ways through it, 3 wanted/],
  ])("is refused %s, at its place", (_, facts, words) => {
    expect(partFindings(body, facts)).toMatchObject([
      { code: "solid/not-one-piece", severity: "error", path: ["holes", 0], message: expect.stringMatching(words) },
    ]);
  });

  it("passes when whole", () => expect(partFindings(body, { pieces: 1, genus: 3, volume: 1 })).toEqual([]));
});
