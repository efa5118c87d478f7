/** What is proposed for one hole is what the design allows, and does what it says. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CodeActionKind } from "vscode-languageserver";
import { OUT_OF_TUNE } from "../../../server/src/design/rules/outOfTune.js";
import { codeActions } from "../../../server/src/language/codeActions/index.js";
import type { DesignContext } from "../../../server/src/language/designContext.js";
import { diagnostics } from "../../../server/src/language/diagnostics.js";
import { WHISTLE } from "../../support/designs.js";
import { instrumentTexts } from "../../support/instruments.js";
import { applied, designOf } from "../../support/language.js";

/** The whistle, whose L2 is too far down, with more said of that hole and of the hands. */
const said = (ofHole: string, hands = "hands: { fingertip: 11, reach: 45 }") =>
  `${WHISTLE.replace("at: 210.3, diameter: 8.5 }", `at: 210.3, diameter: 8.5${ofHole} }`)}${hands}\n`;

/** Longer work stays undone until it is chosen. */
const quick = (text: string) => designOf(text, { client: { resolvesCodeActions: true } });

const found = (context: DesignContext) => diagnostics(context).filter(({ code }) => code === OUT_OF_TUNE);

/** The fixes by one change. */
async function fixesOf(context: DesignContext) {
  const all = [];
  for (const diagnostic of found(context)) {
    const params = { range: diagnostic.range, context: { diagnostics: [diagnostic], only: [CodeActionKind.QuickFix] } };
    const actions = await codeActions(context, params);
    all.push(...actions.filter(({ title }) => /, (so that|which leaves) /.test(title) && !title.startsWith("Print")));
  }
  return all;
}

const onL2 = (text: string) => found(quick(text)).find(({ message }) => String(message).startsWith("E5"))?.message;

describe("the hole that is out of tune", () => {
  it("is moved where nothing forbids it", async () => {
    expect(onL2(said(""))).toMatch(/Move L2 \d/);
    expect((await fixesOf(quick(said("")))).map(({ title }) => title).join()).toMatch(/Move L2/);
  });

  it.each([
    ["fixed", ", fixed: true", "L2 is `fixed`"],
    ["held by its limits", ", limits: { at: [209, 211], diameter: [8.4, 8.6] }", "mm, outside its limits"],
  ])("is left where it is %s, and that is said", async (_, ofHole, reason) => {
    expect(onL2(said(ofHole))).toMatch(/No single change is allowed: /);
    expect(onL2(said(ofHole))).toContain(reason);
    expect(await fixesOf(quick(said(ofHole)))).toEqual([]);
  });

  it("is not opened wider than a fingertip closes, nor said to be", () => {
    const held = said(", limits: { at: [209, 211] }", "hands: { fingertip: 8.6, reach: 45 }");
    expect(onL2(held)).toContain("the fingertip covers 8.6 mm");
    expect(onL2(held)).not.toContain("open L2");
  });

  it("names the limit that forbids a width", () => {
    const narrow = WHISTLE.replace("at: 210.3, diameter: 8.5 }", "at: 215.3, diameter: 5 }");
    expect(onL2(narrow)).toMatch(/L2 would have to be 1\d.\d mm wide, too much for the bore at its place/);
  });

  it("keeps the wall to its neighbour at its length where it is oval", () => {
    const oval = WHISTLE.replace("at: 210.3, diameter: 8.5 }", "at: 200.3, diameter: 8.5, length: 14 }");
    const hands = "hands: { fingertip: 20, reach: 55, spacing: 5 }";
    expect(onL2(`${oval}${hands}\nprint: { holeGap: 7 }\n`)).toContain("Move L2 11.2 mm toward the foot");
    // Of the 7.8 mm that this leaves, a round hole as wide would leave 10.6.
    expect(onL2(`${oval}${hands}\nprint: { holeGap: 9 }\n`)).toContain("L2 and L3 would have only 7.8 mm of wall");
  });

  it("is reported again where only what is allowed has changed", () => {
    const [free, held] = [onL2(said("")), onL2(said(", fixed: true"))];
    expect(free).not.toBe(held);
  });

  it("of a vessel is opened no wider than a refit would open it", () => {
    const vessel = `borewright: 1
family: vessel
key: G4
tolerance: 5
wall: 4
mouth: { window: { width: 9, cutUp: 5, labium: 1 } }
vessel: { shape: ellipsoid, length: 70, width: 50, height: 45 }
holes: [ { name: L1, diameter: 8, angle: 90 } ]
fingerings: [ { degree: 1, holes: ● }, { degree: 6, holes: ○ } ]
`;
    const message = found(quick(vessel))
      .map((each) => each.message)
      .join("\n");
    expect(message).toMatch(/No single change is allowed: L1 would have to be wider than 1\d.\d mm/);
  });
});

describe("what has no limits of its own", () => {
  const pipe = (bed: string) => `borewright: 1
family: panpipe
key: A4
wall: 2
print: { bed: ${bed} }
pipes: [ { note: A4, length: 150, diameter: 12 } ]
`;

  it("a pipe is not made longer than the bed takes", async () => {
    const titles = async (text: string) => (await fixesOf(quick(text))).map(({ title }) => title).join();
    expect(await titles(pipe("[220, 220, 220]"))).toMatch(/Move the stopper .* away from the mouth/);
    expect(found(quick(pipe("[156, 20, 20]")))).toHaveLength(1);
    expect(await titles(pipe("[156, 20, 20]"))).not.toMatch(/stopper/);
  });

  const vessel = (gap: number) => `borewright: 1
family: vessel
key: G4
tolerance: 5
wall: 4
mouth: { window: { width: 9, cutUp: 5, labium: 1 } }
vessel: { shape: ellipsoid, length: 72, width: 50, height: 45 }
holes: [ { name: L1, diameter: 6, angle: 60 }, { name: L2, diameter: 6, angle: 84 } ]
fingerings: [ { degree: 1, holes: ●● }, { degree: 4, holes: ●○ } ]
print: { holeGap: ${gap} }
`;

  it("a vessel's hole is not opened into the gap to the next", async () => {
    const titles = async (text: string) => (await fixesOf(quick(text))).map(({ title }) => title).join();
    expect(await titles(vessel(1))).toMatch(/Open L2/);
    expect(await titles(vessel(4.86))).not.toMatch(/Open L2/);
    const said = found(quick(vessel(4.86)))
      .map(({ message }) => message)
      .join();
    expect(said).toMatch(/No single change is allowed: L2 and L1 would have less than 4.9 mm of wall/);
  });

  it("a vessel's hole that would need half its chamber names the limit", () => {
    const said = found(quick(vessel(1).replace("degree: 4", "note: C6")))
      .map(({ message }) => message)
      .join();
    expect(said).toContain(
      "L2 would have to be wider than 12 mm, the most that a fingertip covers or its limits allow",
    );
  });
});

it("a fix does what its title says, in any instrument", async () => {
  await fc.assert(
    fc.asyncProperty(instrumentTexts, async (text) => {
      const context = quick(text);
      for (const fix of await fixesOf(context)) {
        const name = /so that (\S+) is in tune(?:, but .*)?$/.exec(fix.title)?.[1];
        if (name === undefined) continue;
        const after = designOf(applied(text, fix.edit));
        const [document] = after.file.documents;
        if (document === undefined) throw new Error("no design");
        const { fingerings, tolerance } = after.analysis(document);
        const inTune = fingerings.some(
          ({ fingering, cents }) => fingering.target?.name === name && Math.abs(cents ?? Infinity) <= tolerance,
        );
        expect(inTune, fix.title).toBe(true);
      }
    }),
    { numRuns: 15 },
  );
});
