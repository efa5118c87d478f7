/** Whatever words a design or a file is named with: no output of any command steers a terminal or commands a workflow's runner. */
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { hostileText, hostileWords, nameDesign, STEERING, wordDesign } from "../support/hostileText.js";
import { runProgram } from "../support/program.js";

/** As many designs of each kind: one run of a command takes them all. */
const DESIGNS = 7;
const seed = Number(process.env.BOREWRIGHT_SEED ?? 20_260_101);
let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "borewright-words-"));
  const words = fc.sample(hostileWords, { numRuns: DESIGNS, seed });
  const names = fc.sample(hostileText.filter(isFileName), { numRuns: DESIGNS, seed });
  for (const kind of ["named", "worded"]) mkdirSync(join(folder, kind));
  words.forEach((each, i) => {
    writeFileSync(join(folder, "named", `${names[i]}${i}.bore.yaml`), nameDesign(each));
    writeFileSync(join(folder, "worded", `${names[i]}${i}.bore.yaml`), wordDesign(each));
  });
  writeFileSync(join(folder, "::error::x.bore.yaml"), new Uint8Array([0xff]));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What file systems take: no slash, no NUL, 255 bytes with the ending. */
function isFileName(text: string): boolean {
  return !/[/\0]/.test(text) && Buffer.byteLength(text) < 200;
}

async function run(args: readonly string[], cwd = folder) {
  const { status, stdout, stderr } = await runProgram(args, cwd);
  expect([0, 1, 2]).toContain(status);
  expect(stderr).not.toContain("internal error");
  return { status, stdout, stderr };
}

function expectHarmless(output: string, isOurs = (_: string) => false): void {
  const harmful = (line: string) => STEERING.test(line) || (!isOurs(line) && /^\s*::|##\[/.test(line));
  expect(output.split("\n").filter(harmful)).toEqual([]);
}

const isWorkflowLine = (line: string) => /^::(error|warning|notice) file=[^:,]+,line=\d+,col=\d+,/.test(line);

describe("check", () => {
  it.each(["text", "json", "sarif", "github"])("--format %s", async (format) => {
    const { stdout, stderr } = await run(["check", ".", "--format", format, "--rule", "pitch/out-of-tune=error"]);
    expectHarmless(stdout, format === "github" ? isWorkflowLine : undefined);
    expectHarmless(stderr);
    if (format === "github")
      expect(
        stdout
          .trimEnd()
          .split("\n")
          .filter((line) => !isWorkflowLine(line)),
      ).toEqual([]);
    if (format === "json") {
      const files = new Set(JSON.parse(stdout).map(({ file }: { file: string }) => file));
      for (const name of readdirSync(join(folder, "named"))) expect(files).toContain(`named/${name}`);
    }
    if (format === "sarif")
      for (const { message } of JSON.parse(stdout).runs[0].results) {
        expect(message.text.replace(/\{\{|\}\}/g, "")).not.toMatch(/[{}]/);
        expect(message.text).not.toMatch(/(?<!\\)\]\(/);
      }
  });
});

describe("the other commands", () => {
  it.each([
    [["pitch"]],
    [["pitch", "--bands"]],
    [["pitch", "--json"]],
    [["response"]],
    [["response", "--json"]],
    [["response", "--curve", "G4"]],
  ])("%j of all at once", async (args) => {
    const { status, stdout, stderr } = await run(
      [...args, "--", ...readdirSync(join(folder, "named"))],
      join(folder, "named"),
    );
    expect(status, stderr).toBe(0);
    expectHarmless(stdout);
  });

  it("refusing, rekeying and tabling", async () => {
    const [first = ""] = readdirSync(join(folder, "named"));
    const there = join(folder, "named");
    for (const name of readdirSync(join(folder, "worded")).slice(0, 4))
      expectHarmless((await run(["pitch", "--", name], join(folder, "worded"))).stderr);
    expectHarmless((await run(["rekey", "--to", "F4", "--by", "redraw", "--json", "--", first], there)).stdout);
    expectHarmless((await run(["rekey", "--to", "F4", "--by", "redraw", "-o", "copy", "--", first], there)).stderr);
    expectHarmless((await run(["rekey", "--table", "--", first], there)).stdout);
    expectHarmless((await run(["calibrate", "--", first], there)).stderr);
    expectHarmless((await run(["rekey", "--to", "\u001b[2J\n::error::x", "--", first], there)).stderr);
    expectHarmless((await run(["si\u001b[2Jng"])).stderr);
    expectHarmless((await run(["pitch", "::error::x.bore.yaml", "\u009b.bore.yaml"])).stderr);
  });

  it("a refit, whose remarks name the holes", async () => {
    const [name = ""] = readdirSync(join(folder, "named"));
    const { stderr } = await run(
      ["rekey", "--to", "D4", "--by", "refit", "-o", "../copy", "--", name],
      join(folder, "named"),
    );
    expect(stderr).toMatch(/G4 → D4/);
    expectHarmless(stderr);
  });
});
