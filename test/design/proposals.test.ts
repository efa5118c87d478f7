/** What is proposed, whatever the instrument: every finding, remedy, action and band is made without an error. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkDocument } from "../../server/src/design/check.js";
import { bandsOf } from "../../server/src/design/predict/band.js";
import { codeActions } from "../../server/src/language/codeActions/index.js";
import { diagnostics } from "../../server/src/language/diagnostics.js";
import { documentOf, fileOf } from "../support/designs.js";
import { instrumentTexts } from "../support/instruments.js";
import { designOf } from "../support/language.js";

/** Growing or shrinking it leads to where its mouth takes away more than the mouth has. */
const SMALL_VESSEL = `borewright: 1
family: vessel
key: G4
wall: 1.5
mouth: { window: { width: 2.6, cutUp: 1.3 } }
vessel: { shape: ellipsoid, length: 24, width: 14, height: 20 }
holes: [ { name: H0, diameter: 1.5, angle: -150 } ]
fingerings:
  - { degree: 1, holes: ● }
`;

describe("any instrument", () => {
  it("is checked, with its bands, without an error", () => {
    fc.assert(
      fc.property(instrumentTexts, (text) => {
        const document = documentOf(fileOf(text));
        const { analysis } = checkDocument(document);
        bandsOf(document.resolution, analysis);
      }),
      { numRuns: 30, examples: [[SMALL_VESSEL]] },
    );
  });

  it("is offered its actions without an error", async () => {
    await fc.assert(
      fc.asyncProperty(instrumentTexts, async (text) => {
        const context = designOf(text);
        for (const { range } of diagnostics(context).slice(0, 3))
          await codeActions(context, { range, context: { diagnostics: [] } });
      }),
      { numRuns: 6, examples: [[SMALL_VESSEL]] },
    );
  });
});

it("a vessel that no size corrects is reported as far as possible", () => {
  const { findings } = checkDocument(documentOf(fileOf(SMALL_VESSEL)));
  expect(findings.map(({ code }) => code)).toContain("pitch/out-of-tune");
});
