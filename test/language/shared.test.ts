/** Fixes of numbers that aliases, merge keys and formulas share: what moves is what the title says. */
import { describe, expect, it } from "vitest";
import { type CodeAction, CodeActionKind } from "vscode-languageserver";
import { retune } from "../../server/src/design/refit/rekeyByRefit.js";
import { codeActions } from "../../server/src/language/codeActions/index.js";
import { diagnostics } from "../../server/src/language/diagnostics.js";
import { applied, designOf, YAML_URI } from "../support/language.js";

/** A duct flute of which the first, third and fourth hole are to be equally wide. Dimensions invented. */
const design = (holes: readonly string[]) => `borewright: 1
family: duct
key: G4
mouth: { window: { width: 10, cutUp: 4.5 } }
bore:
  - { at: 0, diameter: 16 }
  - { at: 394.6, diameter: 16 }
wall: 3
holes:
${holes.map((hole) => `  - ${hole}\n`).join("")}fingerings:
  - { degree: 1, holes: ●●●●●● }
  - { degree: 2, holes: ●●●●●○ }
  - { degree: 3, holes: ●●●●○○ }
  - { degree: 4, holes: ●●●○○○ }
  - { degree: 5, holes: ●●○○○○ }
  - { degree: 6, holes: ●○○○○○ }
  - { degree: 7, holes: ○○○○○○ }
`;
const FOOT = ["{ name: R2, at: 289.6, diameter: 8.5 }", "{ name: R3, at: 321.4, diameter: 6.5 }"];
const second = "{ name: L2, at: 205.3, diameter: 8.5 }";

const SHARED = {
  "by aliases": design([
    "{ name: L1, at: 160, diameter: &d 7 }",
    second,
    "{ name: L3, at: 229.8, diameter: *d }",
    "{ name: R1, at: 262, diameter: *d }",
    ...FOOT,
  ]),
  "by merge keys that stand last": design([
    "&h { name: L1, at: 160, diameter: 7 }",
    second,
    "{ name: L3, at: 229.8, <<: *h }",
    "{ name: R1, at: 262, <<: *h }",
    ...FOOT,
  ]),
  "by merge keys that stand first": design([
    "&h { name: L1, at: 160, diameter: 7 }",
    second,
    "{ <<: *h, name: L3, at: 229.8 }",
    "{ <<: *h, name: R1, at: 262 }",
    ...FOOT,
  ]),
};

type Fix = CodeAction & { readonly title: string };

async function fixesOf(text: string): Promise<Fix[]> {
  const context = designOf(text, { client: { resolvesCodeActions: true } });
  const all: Fix[] = [];
  for (const found of diagnostics(context)) {
    const params = { range: found.range, context: { diagnostics: [found], only: [CodeActionKind.QuickFix] } };
    all.push(...(await codeActions(context, params)).filter(({ edit }) => edit !== undefined));
  }
  return all;
}

/** What the numbers of a design come to, by name of place. */
function numbersOf(text: string): Map<string, number> {
  const [document] = designOf(text).file.documents;
  return new Map(document?.resolution.numbers.map(({ path, value }) => [path.join("."), value]));
}

function changed(before: string, after: string): string[] {
  const [old, now] = [numbersOf(before), numbersOf(after)];
  return [...new Set([...old.keys(), ...now.keys()])].filter((key) => old.get(key) !== now.get(key));
}

describe.each(Object.entries(SHARED))("a width shared %s", (_, text) => {
  it("changes where the fix says and nowhere else, on a text that every reader reads", async () => {
    const holes = (await fixesOf(text)).filter(({ title }) => /^(Move|Open|Narrow) (L1|L3|R1)/.test(title));
    expect(holes.map(({ title }) => title.split(" ")[0])).toContain("Narrow");
    for (const { title, edit } of holes) {
      const after = applied(text, edit);
      const [, verb = "", name = ""] = /^(\w+) (\w+)/.exec(title) ?? [];
      const place = `holes.${["L1", "L2", "L3", "R1"].indexOf(name)}.${verb === "Move" ? "at" : "diameter"}`;
      expect(changed(text, after), title).toEqual([place]);
      expect(designOf(after).file.documents[0]?.findings.filter(({ code }) => code.startsWith("file/"))).toEqual([]);
    }
  });

  it("comes out of a refit as the refit says", () => {
    const { file } = designOf(text);
    const result = retune(file, 0, "holes");
    const written = numbersOf(result.text);
    for (const { path, to } of result.moves) expect(written.get(path.join("."))).toBe(to);
    expect(changed(text, result.text).sort()).toEqual(result.moves.map(({ path }) => path.join(".")).sort());
  });
});

it("a number that others refer to says what moves along", async () => {
  const text = design([
    "{ name: L1, at: 160, diameter: 7 }",
    second,
    "{ name: L3, at: 229.8, diameter: '=L1.diameter' }",
    "{ name: R1, at: 270.8, diameter: 7 }",
    ...FOOT,
  ]);
  const fix = (await fixesOf(text)).find(({ title }) => /^(Open|Narrow) L1/.test(title));
  expect(fix?.title).toMatch(/ \(moves .*L3.* along\)$/);
  expect(changed(text, applied(text, fix?.edit, YAML_URI))).toEqual(["holes.0.diameter", "holes.2.diameter"]);
});
