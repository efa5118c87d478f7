/** Work whose length goes with the size of a file is done in steps, and no more of it than is asked for: counted, not timed. */
import { describe, expect, it, vi } from "vitest";
import { frustaBetween } from "../../server/src/acoustics/bore.js";
import { drained, type Steps } from "../../server/src/acoustics/steps.js";
import { patternSteps } from "../../server/src/design/fingerings/patterns.js";
import { analyse } from "../../server/src/design/predict/analyse.js";
import { playsAs } from "../../server/src/design/rekey/playsAs.js";
import { sizeFactor } from "../../server/src/design/rekey/sizeFactor.js";
import { checkedEditSteps } from "../../server/src/document/checkedEdits.js";
import { meaning, setRaw } from "../../server/src/document/edits.js";
import { fingersTooNear } from "../../server/src/instrument/rules/hands.js";
import { boreViewSteps } from "../../server/src/language/boreView/data.js";
import { designContext } from "../../server/src/language/designs.js";
import { INITIAL_SETTINGS } from "../../server/src/language/settings.js";
import { referencesIn } from "../../server/src/language/symbols/references.js";
import { sized } from "../bench/sized.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";
import { FULL_CLIENT, YAML_URI } from "../support/language.js";

function countOf(steps: Steps<unknown>): number {
  let count = 0;
  while (steps.next().done !== true) count++;
  return count;
}

describe("in steps", () => {
  it("reads the other designs of a file again one by one before an edit is offered", () => {
    const file = fileOf(Array.from({ length: 20 }, () => WHISTLE).join("---\n"));
    const path = ["holes", 0, "diameter"];
    const edits = meaning({ path, value: 7.5 }, setRaw(documentOf(file), path, "7.5"));
    expect(drained(checkedEditSteps(file, 0, edits))?.edits).toHaveLength(1);
    // Once taken over, once compared.
    expect(countOf(checkedEditSteps(file, 0, edits))).toBeGreaterThan(40);
  });

  it("searches patterns for a hundred holes", () => {
    expect(countOf(patternSteps(100, [], true))).toBeGreaterThan(50);
  });

  it("makes the handles of a bore of many stations one by one, by hand and by limits", () => {
    const stations = 60;
    const text = sized(7, 2, stations);
    const context = designContext({ uri: YAML_URI, version: 1, getText: () => text }, INITIAL_SETTINGS, FULL_CLIENT);
    const document = documentOf(context.file);
    drained(boreViewSteps(context, document, true));
    // A width and a place each.
    expect(countOf(boreViewSteps(context, document, true))).toBeGreaterThan(4 * (stations - 1));
  });
});

describe("only the work that is needed", () => {
  it("checks no rule of hands where only notes or sizes are asked for", () => {
    const { resolution } = documentOf(fileOf(WHISTLE));
    const analysis = analyse(resolution.instrument);
    const rule = vi.spyOn(fingersTooNear, "check");
    expect(playsAs(resolution, analysis)?.key.name).toBe("G4");
    expect(sizeFactor(resolution, analysis, {})).toBeCloseTo(1, 1);
    expect(rule).not.toHaveBeenCalled();
    rule.mockRestore();
  });

  it("looks at the signs of no fingering but the one at the cursor", () => {
    const text = sized(20, 30);
    const document = documentOf(fileOf(text));
    const all = referencesIn(document).filter(({ as }) => as === "sign");
    const here = referencesIn(document, text.indexOf("○")).filter(({ as }) => as === "sign");
    expect([all.length, here.length]).toEqual([20 * 30, 20]);
    expect(all).toEqual(expect.arrayContaining(here));
  });

  it("looks at no station of a long bore but those of the section", () => {
    const bore = Array.from({ length: 1001 }, (_, i) => ({ x: i / 1000, radius: 0.008 + i * 1e-6 }));
    let looks = 0;
    const watched = new Proxy(bore, {
      get(target, key) {
        if (typeof key === "string" && /^\d+$/.test(key)) looks++;
        return Reflect.get(target, key);
      },
    });
    const [from, to] = [0.50025, 0.50375];
    expect(frustaBetween(watched, from, to, true)).toEqual(frustaBetween(bore.slice(498, 507), from, to, true));
    expect(looks).toBeLessThan(60);
  });
});
