/**
 * Twelve whole jobs: the descriptions of test/jobs. What a refit makes of them takes minutes and is in docs/jobs.md, by `npm run jobs-report`;
 * here is only that they are what that page speaks of, and that nothing on it is not held.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { checked } from "../support/designs.js";
import { JOBS, jobText } from "../support/jobs.js";

const PAGE = readFileSync(new URL("../../docs/jobs.md", import.meta.url), "utf8");

describe("the jobs", () => {
  it("are twelve, each described in a file of its own", () => {
    expect(readdirSync("test/jobs").map((name) => name.replace(".bore.yaml", ""))).toEqual(
      JOBS.map(([name]) => name).sort(),
    );
    expect(JOBS).toHaveLength(12);
  });
  it.each(JOBS)("%s is described in full, and on the page", (name, title, keys) => {
    const { findings, analysis } = checked(jobText(name));
    const errors = findings.filter(({ code, severity }) => severity === "error" && !code.startsWith("pitch/"));
    expect(errors).toEqual([]);
    expect(analysis.fingerings.every(({ cents }) => cents !== undefined)).toBe(true);
    const section = PAGE.split("\n## ").find((part) => part.startsWith(title)) ?? "";
    // A head of two lines, the description as it was given, and a row a key.
    expect(section.match(/^\|/gm)).toHaveLength(3 + keys.length);
  });
  it("keep on the page what hands, holes and printer ask, and every pair of holes", () => {
    expect(PAGE).not.toContain("NOT HELD:");
  });
});
