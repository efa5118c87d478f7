/** Every library whose code is in a bundle has its notice beside it, in both packages. `npm test` has built dist/ before. */
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

const ROOT = join(import.meta.dirname, "../..");
const NOTICES = "dist/THIRD-PARTY-NOTICES.txt";
const notices = readFileSync(join(ROOT, NOTICES), "utf8");

/** By the maps from bundle to source. */
const bundled = readdirSync(join(ROOT, "dist"))
  .filter((file) => /js\.map$/.test(file))
  .flatMap((file) => JSON.parse(readFileSync(join(ROOT, "dist", file), "utf8")).sources as string[])
  .flatMap((source) => /(?:.*\/)?node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(source)?.[1] ?? []);
/** Copied beside the bundles. */
const beside = ["manifold-3d"];
const libraries = [...new Set([...bundled, ...beside])].sort();

describe("the notices of the libraries", () => {
  it("cover more than a few", () => expect(libraries).toEqual(expect.arrayContaining(["yaml", "acorn"])));

  it.each(libraries)("have that of %s", (name) => {
    const own = notices.split("=".repeat(80)).filter((part) => part.trimStart().startsWith(`${name} `));
    expect(own.length).toBeGreaterThan(0);
    for (const part of own) expect(part).toMatch(/copyright/i);
  });

  // That they are in the npm package: test/package/packed.test.ts, which packs it.
  it("are in the .vsix", () => {
    const vsce = join(ROOT, "node_modules/@vscode/vsce/vsce");
    const packed = execFileSync(process.execPath, [vsce, "ls", "--no-dependencies"], { cwd: ROOT, encoding: "utf8" });
    expect(packed.split("\n")).toEqual(expect.arrayContaining([NOTICES, "dist/client.cjs"]));
  });
});
