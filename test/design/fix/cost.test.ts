/** Where putting one note right puts another out of tune, the finding and the fix say so: else two fixes undo each other. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { codeActions } from "../../../server/src/language/codeActions/index.js";
import { checked } from "../../support/designs.js";
import { designOf } from "../../support/language.js";

// Its octave is wide: G4 6.7 cents flat, G5 9.2 sharp, both with every hole closed.
const STRICTER = readFileSync(join(import.meta.dirname, "../../../examples/quay-whistle.bore.yaml"), "utf8").replace(
  "tolerance: 10",
  "tolerance: 8.5",
);

it("says what lengthening for the octave costs the lowest note, and where the middle lies", () => {
  const message = checked(STRICTER).findings.find((finding) => finding.message.startsWith("G5 sounds"))?.message;
  expect(message).toMatch(
    /longer puts it right\. That leaves G4 about 16 cents flat; midway both are about 8\.0 cents off\.$/,
  );
});

it("says so in the title of the fix, too", async () => {
  const context = designOf(STRICTER, { client: { resolvesCodeActions: true } });
  const line = STRICTER.split("\n").findIndex((each) => each.includes("degree: 8,"));
  const range = { start: { line, character: 6 }, end: { line, character: 6 } };
  const actions = await codeActions(context, { range, context: { diagnostics: [] } });
  expect(actions.map(({ title }) => title)).toContainEqual(
    expect.stringMatching(/^Lengthen the bore by [\d.]+ mm, so that G5 is in tune, but G4 gets 1\d cents flat$/),
  );
});
