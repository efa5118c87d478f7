/** Every exported function of numbers in acoustics says in what unit they are, or that they have none. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";
import { expect, it } from "vitest";

const FOLDER = join(import.meta.dirname, "../../server/src/acoustics");
/** Units as comments write them; words for a unit, and for a number without one. */
const UNITS = /\b(m|m²|m³|mm|Hz|rad|K|Pa|s|kg|dB|cents?|percent|degrees)\b|°C|ρc/;
const IN_WORDS =
  /microseconds|cents|decibels|dimensionless|\bunits?\b|share|ratio|relative|over (the|its|b|a|bore)\b|number of|count|index|indices|whether/i;

function undocumented(file: string): readonly string[] {
  const source = ts.createSourceFile(file, readFileSync(join(FOLDER, file), "utf8"), ts.ScriptTarget.Latest, true);
  return source.statements.flatMap((node) => {
    if (!ts.isFunctionDeclaration(node) || node.body === undefined) return [];
    if (!node.modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword)) return [];
    const signature = node.getText().slice(0, node.body.getStart() - node.getStart());
    if (!/number|Float64Array/.test(signature)) return [];
    const comment = ts
      .getJSDocCommentsAndTags(node)
      .map((part) => part.getText())
      .join(" ");
    return UNITS.test(comment) || IN_WORDS.test(comment) ? [] : [`${file}: ${node.name?.text}`];
  });
}

it("units stand beside each function of numbers", () => {
  const files = readdirSync(FOLDER, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".ts"));
  expect(files.length).toBeGreaterThan(50);
  expect(files.flatMap(undocumented)).toEqual([]);
});
