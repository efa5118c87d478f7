/** How findings call a place in a design: things by their name, or counted from 1 as hovers count them. */
import { describe, it } from "vitest";
import { expectFinding, tube } from "../support/marked.js";

describe("a finding calls", () => {
  it.each([
    [
      "a hole by its name",
      "holes: [{ name: L1, at: 170, diameter: [[-7]] }]",
      "value/not-positive",
      /^`diameter` of L1 must/,
    ],
    [
      "one without by its number",
      "holes: [{ at: 170, diameter: 7 }, { at: 200, diameter: [[wide]] }]",
      "schema/wrong-kind",
      /^`diameter` of hole 2 takes/,
    ],
    [
      "a blank name no name",
      "holes: [{ name: ' ', at: 170, diameter: [[-7]] }]",
      "value/not-positive",
      /^`diameter` of hole 1 must/,
    ],
    [
      "a station by its number",
      "bore: [{ at: 0, diameter: 16 }, { at: 352, diameter: [[16 mm]] }]",
      "schema/wrong-kind",
      /^`diameter` of station 2 takes/,
    ],
    [
      "a fingering by its number",
      "fingerings: [{ note: G4, register: [[17]] }]",
      "value/out-of-range",
      /^`register` of fingering 1 must/,
    ],
    [
      "a measured note by its number",
      "measured: [{ note: G4, hz: [[-1]] }]",
      "value/not-positive",
      /^`hz` of measured note 1 must/,
    ],
    [
      "a number of a list by its number",
      "print: { bed: [220, [[-1]], 250] }",
      "value/not-positive",
      /^number 2 of `print\.bed` must/,
    ],
    [
      "one deep inside by both",
      "holes: [{ name: L1, at: 170, diameter: 7, limits: { diameter: [ [[six]], 8 ] } }]",
      "schema/wrong-kind",
      /^number 1 of `limits\.diameter` of L1 takes/,
    ],
    [
      "anything else as it is written",
      "mouth: { window: { width: [[-1]], cutUp: 4 } }",
      "value/not-positive",
      /^`mouth\.window\.width` must/,
    ],
    [
      "a value in a formula as the formula must have it",
      "parameters: { x: '=[[holes[0].att]]' }\nholes: [{ at: 170, diameter: 7 }]",
      "expression/unknown-name",
      /^There is no value called `holes\[0\]\.att`\. Did you mean `holes\[0\]\.at`\?/,
    ],
  ])("%s", (_, changes, code, says) => {
    expectFinding(tube(changes), code, says, { alone: false });
  });
});
