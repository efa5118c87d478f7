/** DEVELOPERS.md gives a reason for every package that ships, and names every one we build and test with. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

const ROOT = join(import.meta.dirname, "../..");
const page = readFileSync(join(ROOT, "DEVELOPERS.md"), "utf8");
const { dependencies, devDependencies } = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8")) as Record<
  "dependencies" | "devDependencies",
  Record<string, string>
>;
const section = page.slice(page.indexOf("## Dependencies"));
const rows = section.split("\n").filter((line) => line.startsWith("| `"));
const named = rows.flatMap((row) => [...(row.split("|")[1] ?? "").matchAll(/`([^`]+)`/g)].map(([, name]) => name));

describe("the list of dependencies", () => {
  it("has every package that ships, and no other", () => {
    expect(named.toSorted()).toEqual(Object.keys(dependencies).toSorted());
  });

  it.each(Object.keys(devDependencies).filter((name) => name !== "@types/node" && name !== "@types/vscode"))(
    "names %s",
    (name) => expect(section).toContain(`\`${name}\``),
  );
});
