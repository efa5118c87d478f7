/** Every finding links to a page of its own, and no page explains what there is not. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";

const ROOT = join(import.meta.dirname, "../..");
const AREAS =
  "bore|design|expression|file|fingering|hands|hole|key|limits|model|mouth|note|pipe|pitch|print|response|rules|schema|temperament|value|vessel|measured|solid";

function sources(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return entry.name === "generated" ? [] : sources(path);
    return [readFileSync(path, "utf8")];
  });
}

it("has one page for each rule code in the sources, headed with the code", () => {
  const pattern = new RegExp(`"((?:${AREAS})/[a-z-]+)"`, "g");
  const codes = new Set(
    sources(join(ROOT, "server/src")).flatMap((text) => [...text.matchAll(pattern)].map((m) => m[1])),
  );
  const folder = join(ROOT, "docs/rules");
  const headings = readdirSync(folder).map((name) => {
    const code = /^# (.*)/.exec(readFileSync(join(folder, name), "utf8"))?.[1] ?? "";
    expect(name).toBe(`${code.replace("/", "-")}.md`);
    return code;
  });
  expect(headings.sort()).toEqual([...codes].sort());
});
