/** What the rules count of a tube beside its drawn bore, head, tenons, a stopped foot's wall, is what is drawn and made. */
import { describe, expect, it } from "vitest";
import { outlineOf } from "../../../server/src/design/outline/index.js";
import { partsOf } from "../../../server/src/instrument/making/joints.js";
import { printingOf } from "../../../server/src/instrument/printed/printing.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { seededDesign } from "../../support/seededDesigns.js";

describe("a tube's parts on the bed", () => {
  it("are as long as its outline's, in random designs", () => {
    let looked = 0;
    for (let seed = 0; seed < 200; seed++) {
      const { resolution, findings } = documentOf(fileOf(seededDesign(seed)));
      const outline = outlineOf(resolution, "laid");
      if (outline?.body.kind !== "tube" || resolution.draft.bore === undefined) continue;
      if (findings.some(({ severity }) => severity === "error")) continue;
      const { unitMillimetres, printScale } = printingOf(resolution.draft);
      const counted = partsOf(resolution.draft).map(({ from, to }) => (to - from) * unitMillimetres * printScale);
      const drawn = outline.body.parts.map(({ from, to, tenon }) => to - from + (tenon?.length ?? 0));
      expect(counted.length, seededDesign(seed)).toBe(drawn.length);
      for (const [i, length] of drawn.entries()) expect(counted[i], seededDesign(seed)).toBeCloseTo(length, 6);
      looked++;
    }
    expect(looked).toBeGreaterThan(75);
  });
});
