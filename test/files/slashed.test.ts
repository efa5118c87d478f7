import { join } from "node:path";
import { expect, it } from "vitest";
import { githubReport } from "../../server/src/cli/reports/github.js";
import { LineIndex } from "../../server/src/document/lineIndex.js";
import { slashed } from "../../server/src/files/slashed.js";

it("turns the separators of another system, and leaves other characters of this one", () => {
  expect(slashed("designs\\alto\\a.bore.yaml", "\\")).toBe("designs/alto/a.bore.yaml");
  expect(slashed("a\\b.bore.yaml", "/")).toBe("a\\b.bore.yaml");
});

it("is how GitHub expects a path", () => {
  const code = "file/syntax";
  const finding = {
    code,
    severity: "error",
    message: "no",
    path: [],
    span: { start: 0, end: 0 },
    identity: code,
  } as const;
  const file = join("designs", "a.bore.yaml");
  expect(githubReport([{ file, lines: new LineIndex(""), findings: [finding] }])).toContain(
    "file=designs/a.bore.yaml,",
  );
});
