/** Which fingering of a design a measured note is for. */
import { expect, it } from "vitest";
import { drained } from "../../../server/src/acoustics/steps.js";
import { measuredQuerySteps } from "../../../server/src/design/calibrate/measuredQueries.js";
import { checked, WHISTLE } from "../../support/designs.js";

const found = (measured: string) => {
  const text = `${WHISTLE}  - { note: E5, holes: ●○●○○○ }\nmeasured:\n  - { note: E5, hz: 660${measured} }\n`;
  return drained(measuredQuerySteps(checked(text).analysis)).map((query) => [query?.index, query?.covers.join("")]);
};

it("a note is of the first fingering listed for it, of the one drawn beside it, or of none that is listed", () => {
  expect(found("")).toEqual([[5, "100000"]]);
  expect(found(", holes: ●○○○○○")).toEqual([[5, "100000"]]);
  expect(found(", holes: ●○●○○○")).toEqual([[7, "101000"]]);
  expect(found(", holes: ●○●●○○")).toEqual([[-1, "101100"]]);
});
