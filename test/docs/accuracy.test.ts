import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { accuracyPage } from "../accuracy/page.js";

it("docs/accuracy.md is what the comparisons say now; else: npm run accuracy", () => {
  const page = readFileSync(join(import.meta.dirname, "../../docs/accuracy.md"), "utf8").replaceAll("\r\n", "\n");
  expect(page).toBe(accuracyPage());
});
