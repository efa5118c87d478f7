/** `check` as a gate for changes: limits on warnings, reports of build servers, colour, names. */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { XMLParser, XMLValidator } from "fast-xml-parser";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { junitReport } from "../../server/src/cli/reports/junit.js";
import { LineIndex } from "../../server/src/document/lineIndex.js";
import { xmlText } from "../../server/src/escape/xml.js";
import { WHISTLE } from "../support/designs.js";
import { hostileText, STEERING } from "../support/hostileText.js";
import { PROGRAM, runProgram } from "../support/program.js";

const TUNED = WHISTLE.replace("at: 210.3", "at: 205.3");
let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "borewright-review-"));
  writeFileSync(join(folder, "flat.bore.yaml"), WHISTLE);
  writeFileSync(join(folder, "tuned.bore.yaml"), TUNED);
  mkdirSync(join(folder, "loud"));
  writeFileSync(join(folder, "loud", "LOUD.BORE.YAML"), WHISTLE);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function run(args: readonly string[], env: Record<string, string> = {}) {
  const { NO_COLOR: _, FORCE_COLOR: __, ...rest } = process.env;
  return runProgram(["check", ...args], folder, { env: { ...rest, ...env } });
}

describe("--max-warnings", () => {
  it.each([
    [["flat.bore.yaml", "--max-warnings", "0"], 1],
    [["flat.bore.yaml", "--max-warnings", "1"], 0],
    [["flat.bore.yaml", "loud", "--max-warnings", "1"], 1],
    [["tuned.bore.yaml", "--max-warnings", "0"], 0],
    [["flat.bore.yaml", "--max-warnings", "few"], 2],
    [["flat.bore.yaml", "--max-warnings", "-1"], 2],
  ])("%j exits with %i", async (args, status) => {
    expect((await run(args)).status).toBe(status);
  });

  it("says by how much", async () => {
    expect((await run(["flat.bore.yaml", "--max-warnings", "0"])).stderr).toBe("1 warning: --max-warnings allows 0.\n");
  });
});

it("finds designs whose names are in capital letters", async () => {
  expect((await run(["loud"])).stdout).toMatch(/^loud\/LOUD\.BORE\.YAML:\d+:\d+: warning: /);
});

describe("standard input", () => {
  const piped = (input: string | Buffer, ...args: string[]) =>
    spawnSync(process.execPath, [PROGRAM, "check", ...args], { cwd: folder, encoding: "utf8", input });

  it("is checked as -, under the name it is given, beside files", () => {
    expect(piped(WHISTLE, "-").stdout).toMatch(/^-:\d+:\d+: warning: E5 sounds/);
    const { status, stdout } = piped(WHISTLE, "-", "tuned.bore.yaml", "--stdin-name", "new/quay.bore.yaml");
    expect(status).toBe(0);
    expect(stdout).toMatch(/^new\/quay\.bore\.yaml:\d+:\d+: warning: E5 sounds.*\n2 files: /);
  });

  it("is read in the syntax of that name", () => {
    // A comment, which JSON has none of.
    expect(piped("# here", "-", "--stdin-name", "a.bore.json").stdout).toContain("[file/syntax]");
    expect(piped("# here", "-").stdout).not.toContain("[file/syntax]");
  });

  it("may be arbitrary bytes", () => {
    expect(piped(Buffer.from([0xff]), "-").stdout).toMatch(/^-:1:1: error: .*not UTF-8 text/);
    const { status, stderr } = piped(Buffer.alloc(4_000_000, "a"), "-", "tuned.bore.yaml");
    expect({ status, stderr }).toEqual({ status: 2, stderr: expect.stringMatching(/^-: larger than 3 MB[^\n]+\n$/) });
  });
});

describe("what is checked", () => {
  beforeAll(() => {
    for (const name of ["set/a", "set/old", "set/node_modules/b"]) {
      mkdirSync(join(folder, name), { recursive: true });
      writeFileSync(join(folder, name, "alto.bore.yaml"), WHISTLE);
      writeFileSync(join(folder, name, "tenor.bore.json"), "{}");
      writeFileSync(join(folder, name, "notes.txt"), "");
    }
  });
  const files = async (...args: string[]) =>
    [
      ...new Set(
        (JSON.parse((await run([...args, "--format", "json"])).stdout) as { file: string }[]).map(({ file }) => file),
      ),
    ].sort();

  it.each([
    [
      ["set/**"],
      ["set/a/alto.bore.yaml", "set/a/tenor.bore.json", "set/old/alto.bore.yaml", "set/old/tenor.bore.json"],
    ],
    [["set/*/alto*"], ["set/a/alto.bore.yaml", "set/old/alto.bore.yaml"]],
    [["./set/{a,b}/*.json"], ["set/a/tenor.bore.json"]],
    [
      ["set/a/t*", "set/**/alto*", "set/a"],
      ["set/a/alto.bore.yaml", "set/a/tenor.bore.json", "set/old/alto.bore.yaml"],
    ],
  ])("by the patterns %j is %j", async (patterns, expected) => {
    expect(await files(...patterns)).toEqual(expected);
  });

  it("by a pattern that matches nothing is an error, and a file's own name no pattern", async () => {
    const { status, stdout } = await run(["set/*/bass*"]);
    expect(status).toBe(2);
    expect(stdout).toMatch(/^set\/\*\/bass\*:1:1: error: .*no file of a design matches/);
    writeFileSync(join(folder, "[ab].bore.yaml"), WHISTLE);
    expect(await files("[ab].bore.yaml")).toEqual(["[ab].bore.yaml"]);
    rmSync(join(folder, "[ab].bore.yaml"));
  });

  it("leaves out what .borewrightignore names, unless it is named itself", async () => {
    // Patterns as in gitignore(5): a folder, a kind of file, and one of that kind taken back.
    writeFileSync(join(folder, ".borewrightignore"), "# copies\nold/\n*.json\n!/set/a/tenor.bore.json\n");
    const left = ["set/a/alto.bore.yaml", "set/a/tenor.bore.json"];
    expect(await files("set")).toEqual(left);
    expect(await files("set/**")).toEqual(left);
    expect((await files(join(folder, "set"))).map((file) => file.slice(folder.length + 1))).toEqual(left);
    expect(await files("set/old/alto.bore.yaml")).toEqual(["set/old/alto.bore.yaml"]);
    writeFileSync(join(folder, ".borewrightignore"), new Uint8Array([0xff]));
    expect(await run(["set"])).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(/^\.borewrightignore: not UTF-8/),
    });
    rmSync(join(folder, ".borewrightignore"));
  });
});

describe("colour", () => {
  const COLOURED = ": \u001b[33mwarning\u001b[39m: E5 sounds";

  it.each([
    ["without a terminal", {}, false],
    ["asked for without a terminal", { FORCE_COLOR: "1" }, true],
    ["switched off (no-color.org)", { FORCE_COLOR: "1", NO_COLOR: "1" }, false],
    ["an empty word, which says nothing", { FORCE_COLOR: "1", NO_COLOR: "" }, true],
  ])("%s", async (_, env, coloured) => {
    const { stdout } = await run(["flat.bore.yaml"], env);
    if (coloured) expect(stdout).toContain(COLOURED);
    else expect(stdout.replaceAll("\n", "")).not.toMatch(STEERING);
    expect((await run(["flat.bore.yaml", "--format", "json"], env)).stdout).not.toContain("\u001b");
  });

  it("on a terminal", (test) => {
    const line = `'${process.execPath}' '${PROGRAM}' check flat.bore.yaml`;
    // Node gives an unknown build server no colours, terminal or not.
    const { NO_COLOR: _, FORCE_COLOR: __, CI: ___, ...env } = process.env;
    const options = { cwd: folder, encoding: "utf8", env: { ...env, TERM: "xterm-256color" } } as const;
    const { error, stdout } = spawnSync("script", ["-qec", line, "/dev/null"], options);
    if (error !== undefined) return test.skip("no program `script` to make a terminal with");
    expect(stdout).toContain(COLOURED);
  });
});

describe("--format junit", () => {
  const THREE = ["flat.bore.yaml", "loud", "tuned.bore.yaml"];
  const parser = new XMLParser({
    ignoreAttributes: false,
    attributeNamePrefix: "",
    isArray: (name) => /^test(suites?|case)$/.test(name),
  });

  it("has a suite for each file and a test for each finding, failed from --fail-on", async () => {
    const { status, stdout } = await run([...THREE, "--format", "junit", "--fail-on", "warning"]);
    expect(status).toBe(1);
    expect(XMLValidator.validate(stdout)).toBe(true);
    const [whole] = parser.parse(stdout).testsuites;
    expect(whole).toMatchObject({ name: "borewright", tests: "3", failures: "2" });
    const [flat, loud, tuned] = whole.testsuite;
    expect(flat).toMatchObject({ name: "flat.bore.yaml", tests: "1", failures: "1" });
    expect(flat.testcase[0].failure).toMatchObject({ type: "pitch/out-of-tune" });
    expect(flat.testcase[0].failure["#text"]).toMatch(/^flat\.bore\.yaml:\d+:\d+: warning: E5 sounds/);
    expect(loud.name).toBe("loud/LOUD.BORE.YAML");
    expect(tuned).toMatchObject({ name: "tuned.bore.yaml", tests: "1", failures: "0" });
    const passed = parser.parse((await run([...THREE, "--format", "junit"])).stdout).testsuites[0];
    expect(passed.failures).toBe("0");
    expect(passed.testsuite[0].testcase[0]["system-out"]).toContain("E5 sounds");
  });

  it("is well-formed whatever the words of a design or a file", () => {
    fc.assert(
      fc.property(hostileText, fc.string({ unit: "binary-ascii" }), (message, file) => {
        const span = { start: 0, end: 0 };
        const identity = "file/syntax";
        const finding = { code: identity, severity: "error", message, path: [], span, identity } as const;
        const xml = junitReport([{ file, lines: new LineIndex(""), findings: [finding] }], () => true);
        expect(XMLValidator.validate(xml)).toBe(true);
        expect(xml.replaceAll("\n", "")).not.toMatch(STEERING);
      }),
    );
    expect(xmlText("a<b>&\"c' \uffff\ud800\u0000")).toBe("a&lt;b&gt;&amp;&quot;c&apos; \\u{ffff}\\u{d800}\\u{0}");
  });
});
