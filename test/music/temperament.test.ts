import { expect, it } from "vitest";
import { TEMPERAMENT_NAMES } from "../../server/src/music/temperament.js";
import { holdEach } from "../accuracy/hold.js";
import { TEMPERAMENT_ROWS, tuningTables } from "../accuracy/tuning.js";

it("has a published row for each name", () => {
  expect(Object.keys(TEMPERAMENT_ROWS).sort()).toEqual([...TEMPERAMENT_NAMES].sort());
});

/** Sources: the tables' own. */
for (const table of tuningTables) holdEach(table);
