import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { accuracyPage } from "../accuracy/page.js";

const REFERENCE = join(import.meta.dirname, "../reference");
const stored = readdirSync(REFERENCE).filter((name) => name.endsWith(".json"));

/** The cases of a stored table have a name, whatever else they have. */
function namesIn(file: string): string[] {
  const lists = Object.values(JSON.parse(readFileSync(join(REFERENCE, file), "utf8"))).filter(Array.isArray);
  return lists.flat().map((each: { name: string }) => each.name);
}

it.each(stored)("the page has every case of test/reference/%s", (file) => {
  const page = accuracyPage();
  const names = namesIn(file);
  expect(page).toContain(`test/reference/${file}`);
  expect(names.length).toBeGreaterThan(0);
  for (const name of names) expect(page).toContain(`| ${name}`);
});

it("docs/accuracy.md is what the comparisons say now; else: npm run accuracy", () => {
  const page = readFileSync(join(import.meta.dirname, "../../docs/accuracy.md"), "utf8").replaceAll("\r\n", "\n");
  expect(page).toBe(accuracyPage());
});

it.each(["README.md", "DEVELOPERS.md"])("%s quotes the page on the holes of a tube", (name) => {
  const text = readFileSync(join(import.meta.dirname, "../..", name), "utf8").replaceAll(/\s+/g, " ");
  const [, first, second, weak] =
    /notes of a tube with holes.* first register within ([\d.]+), second within ([\d.]+) \(weak ones ([\d.]+)\)/.exec(
      accuracyPage(),
    ) ?? [];
  const all = Math.max(Number(first), Number(second)).toFixed(1);
  expect(text).toMatch(new RegExp(`within ${all} cent, (on )?weak notes (within )?${weak}\\b`));
});

it("the model's page quotes the summary of what finite elements say", () => {
  const page = readFileSync(join(import.meta.dirname, "../../docs/coupled-model.md"), "utf8");
  const rows = [
    ...accuracyPage().matchAll(/^\| ([^|]+ \| (?:finite elements|the wave equation)[^|]* \| [^|]+) \| [^|]+ \|$/gm),
  ];
  expect(rows.length).toBeGreaterThan(5);
  for (const [, row] of rows) expect(page).toContain(`| ${row} |`);
});

it("the model's page names files that exist", () => {
  const page = readFileSync(join(import.meta.dirname, "../../docs/coupled-model.md"), "utf8");
  const there = new Set(
    readdirSync(join(import.meta.dirname, "../../server/src/acoustics"), { recursive: true }).map(String),
  );
  const named = [...page.matchAll(/`([\w/]+\.ts)`/g)].map(([, file]) => file ?? "");
  expect(named.length).toBeGreaterThan(20);
  for (const file of named) expect(there).toContain(file);
});
