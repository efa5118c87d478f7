import { describe, expect, it } from "vitest";
import { FINGERING_SYSTEMS, type FingeringSystem, fingeringText } from "../../server/src/music/fingeringSystems.js";

describe("a fingering as a design writes it", () => {
  it.each([
    [{ degree: 1, holes: "xxo", register: 1 }, "{ degree: 1, holes: ●●○ }"],
    [{ degree: 10, holes: "/xo", register: 2 }, "{ degree: 10, holes: ◐●○, register: 2 }"],
    [{ degree: "b7", holes: "oxx", register: 1 }, "{ degree: b7, holes: ○●● }"],
    // A number sign would begin a comment.
    [{ degree: "#4", holes: "oox", register: 1 }, '{ degree: "#4", holes: ○○● }'],
    [{ degree: 8, holes: "", register: 2 }, "{ degree: 8, register: 2 }"],
  ] as const)("%o", (row, text) => {
    expect(fingeringText(row)).toBe(text);
  });
});

/** Of one that plays the major scale on its lowest note: common practice, no source. */
it("the scales of the systems of six holes", () => {
  const degrees = ({ rows }: FingeringSystem) => rows.map(({ degree, register }) => `${degree}/${register}`).join(" ");
  expect(degrees(FINGERING_SYSTEMS["six-hole"])).toBe("1/1 2/1 3/1 4/1 5/1 6/1 b7/1 7/1 8/2 9/2 10/2 11/2 12/2 13/2");
  expect(degrees(FINGERING_SYSTEMS["two-chamber-six"])).toBe("1/1 b3/1 4/1 5/1 b7/1 8/1");
  expect(FINGERING_SYSTEMS["six-hole"].rows[0]?.degree).toBe(1);
});
