/** Links of the pages to one another lead somewhere: the file is there, and the heading too. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, it } from "vitest";

const ROOT = join(import.meta.dirname, "../..");
const pages = ["README.md", "DEVELOPERS.md", "CHANGELOG.md"].concat(
  ["docs", "recipes", "test"].flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: "utf8" })
      .filter((name) => name.endsWith(".md"))
      .map((name) => join(folder, name)),
  ),
);

/** As GitHub makes them of headings: from memory. */
const anchors = (page: string) =>
  [...page.matchAll(/^#+ (.*)$/gm)].map(([, heading = ""]) =>
    heading
      .toLowerCase()
      .replace(/[^\p{L}\p{N}_ -]/gu, "")
      .replaceAll(" ", "-"),
  );

it.each(pages)("%s links to what is there", (name) => {
  const text = readFileSync(join(ROOT, name), "utf8").replace(/^```[\s\S]*?^```$/gm, "");
  const dead = [...text.matchAll(/\]\((?!\w+:)([^)\s#]*)(?:#([^)\s]*))?\)/g)].filter(([, file = "", anchor]) => {
    const target = file === "" ? join(ROOT, name) : join(ROOT, dirname(name), file);
    if (!existsSync(target)) return true;
    return anchor !== undefined && !anchors(readFileSync(target, "utf8")).includes(anchor);
  });
  expect(dead.map(([link]) => link)).toEqual([]);
});
