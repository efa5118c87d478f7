/** DEVELOPERS.md gives a reason for every package that is bundled, and names every one we build and test with. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

const ROOT = join(import.meta.dirname, "../..");
const page = readFileSync(join(ROOT, "DEVELOPERS.md"), "utf8");
const { dependencies = {}, devDependencies } = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8")) as {
  readonly dependencies?: Record<string, string>;
  readonly devDependencies: Record<string, string>;
};
/** Those of our packages whose code is in one of the bundles, by the maps from bundle to source; and one that stands beside them. */
const bundled = new Set(
  readdirSync(join(ROOT, "dist"))
    .filter((name) => /js\.map$/.test(name))
    .flatMap((name) => JSON.parse(readFileSync(join(ROOT, "dist", name), "utf8")).sources as string[])
    .map((source) => /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(source)?.[1] ?? "")
    .filter((name) => name in devDependencies)
    .concat(existsSync(join(ROOT, "dist", "manifold.mjs")) ? ["manifold-3d"] : []),
);
const section = page.slice(page.indexOf("## Dependencies"));
const rows = section.split("\n").filter((line) => line.startsWith("| `"));
const named = rows.flatMap((row) => [...(row.split("|")[1] ?? "").matchAll(/`([^`]+)`/g)].map(([, name]) => name));

describe("the list of dependencies", () => {
  it("has every package that is bundled, and no other", () => {
    expect(named.toSorted()).toEqual([...bundled].toSorted());
  });

  it("leaves none to install with the package", () => {
    expect(dependencies).toEqual({});
  });

  it.each(Object.keys(devDependencies).filter((name) => name !== "@types/node" && name !== "@types/vscode"))(
    "names %s",
    (name) => expect(section).toContain(`\`${name}\``),
  );
});
