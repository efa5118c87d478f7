/** Every fault that `npm run hostile` has found, tried again: each is a small file under cases/, named for what it showed. */
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { runProgram } from "../support/program.js";
import { faultsOfFile } from "./caseFile.js";
import type { Runner } from "./commandLine.js";

const CASES = join(import.meta.dirname, "cases");

/** In a process that is warm: these were not faults of a cold one. */
const warm: Runner = async (args, { cwd = "." } = {}) => {
  const { status, stdout, stderr } = await runProgram(args, cwd);
  return { args, code: status, signal: null, stdout, stderr, overdue: false, peak: 0 };
};

describe("what once failed", () => {
  it.each(readdirSync(CASES).filter((name) => !name.startsWith(".")))("%s", async (name) => {
    expect(await faultsOfFile(join(CASES, name), warm)).toEqual([]);
  });
});

const OPEN = join(import.meta.dirname, "open");
const open = existsSync(OPEN) ? readdirSync(OPEN) : [];

describe.skipIf(open.length === 0)("what still gives way: once mended, its file moves to cases", () => {
  it.fails.each(open)("%s", async (name) => {
    expect(await faultsOfFile(join(OPEN, name), warm)).toEqual([]);
  });
});
