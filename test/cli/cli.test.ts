/** The command line as its users meet it: arguments in; text, data and exit status out. Runs the built program. */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { WHISTLE } from "../support/designs.js";
import { runProgram } from "../support/program.js";

const EXAMPLES = join(import.meta.dirname, "../../examples");
const TUNED = WHISTLE.replace("at: 210.3", "at: 205.3");
let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "borewright-cli-"));
  cpSync(EXAMPLES, join(folder, "examples"), { recursive: true });
  mkdirSync(join(folder, "node_modules"));
  writeFileSync(join(folder, "node_modules", "other.bore.yaml"), "not: ours");
  writeFileSync(join(folder, "flat.bore.yaml"), WHISTLE);
  writeFileSync(join(folder, "tuned.bore.yaml"), TUNED);
  writeFileSync(join(folder, "broken.bore.yaml"), TUNED.replace("at: 394.1", "at: =nowhere"));
  writeFileSync(join(folder, "two.bore.yaml"), `${TUNED}---\n${TUNED}`);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...args: string[]) => runProgram(args, folder);

describe("borewright pitch", () => {
  it("prints a row for each fingering and a summary", async () => {
    const { status, stdout } = await run("pitch", "tuned.bore.yaml");
    expect(status).toBe(0);
    expect(stdout.split("\n").filter((line) => /[●○]/.test(line))).toHaveLength(7);
    expect(stdout).toMatch(/^G4 +●●●●●● +1 +392\.0 +\d+\.\d +[+−]\d+\.\d/m);
    expect(stdout).toContain("farther than ±10 cents");
  });

  it("prints data in the published form", async () => {
    const [report] = JSON.parse((await run("pitch", "--json", "tuned.bore.yaml")).stdout);
    expect(Object.keys(report).sort()).toEqual(
      ["airTemperature", "calibrated", "file", "fingerings", "key", "name", "rmsCents", "worstCents"].sort(),
    );
    expect(report).toMatchObject({ file: "tuned.bore.yaml", key: "G4", name: "Test whistle", airTemperature: 22 });
    expect(report.fingerings[0]).toMatchObject({ note: "G4", holes: "●●●●●●", register: 1 });
    // ISO 16 and equal temperament: G4 is 391.995 Hz.
    expect(report.fingerings[0].targetHz).toBeCloseTo(391.995, 2);
    expect(1200 * Math.log2(report.fingerings[0].predictedHz / report.fingerings[0].targetHz)).toBeCloseTo(
      report.fingerings[0].cents,
      6,
    );
  });

  it("says how sure each note is: in data, in a closing line, and in a column where asked", async () => {
    const [report] = JSON.parse((await run("pitch", "--json", "tuned.bore.yaml")).stdout);
    expect(report.calibrated).toBe(false);
    for (const each of report.fingerings) {
      const { bandCents, bandBelowCents, bandAboveCents, bandMostly, bandTogetherCents, bandAgainstCents } = each;
      expect(bandMostly).toBe("mouth");
      expect(bandAboveCents).toBe(bandCents);
      expect(bandBelowCents).toBeLessThan(bandAboveCents);
      expect(bandCents).toBeGreaterThan(bandAgainstCents);
      expect(bandTogetherCents).toBeGreaterThan(bandAgainstCents);
    }
    const plain = (await run("pitch", "tuned.bore.yaml")).stdout;
    expect(plain).toMatch(/^Good to −\d+ to \+\d+ cents, mostly the mouth/m);
    expect(plain).not.toMatch(/mouth$(?<!Sure.*)/m);
    expect((await run("pitch", "--bands", "tuned.bore.yaml")).stdout).toMatch(/^G4 .* −\d+ to \+\d+ +mouth/m);
  });

  it("gives one entry for each instrument of a file, and takes several files", async () => {
    expect(JSON.parse((await run("pitch", "--json", "two.bore.yaml", "tuned.bore.yaml")).stdout)).toHaveLength(3);
  });

  it("says where a design cannot be used, on stderr, with status 2", async () => {
    const { status, stdout, stderr } = await run("pitch", "broken.bore.yaml");
    expect(status).toBe(2);
    expect(stdout).toBe("");
    expect(stderr).toMatch(/broken\.bore\.yaml:\d+:\d+: error: There is no value called `nowhere`/);
  });

  it.each([["no-such.bore.yaml"], ["examples"]])("refuses %s", async (path) => {
    const { status, stderr } = await run("pitch", path);
    expect(status).toBe(2);
    expect(stderr).toMatch(new RegExp(`^${path}: `));
  });
});

describe("borewright response", () => {
  it("prints a row for each fingering and how even they are", async () => {
    const { status, stdout } = await run("response", "tuned.bore.yaml");
    expect(status).toBe(0);
    expect(stdout.split("\n").filter((line) => /[●○]/.test(line))).toHaveLength(2 * 7);
    expect(stdout).toMatch(/^G4 .* mm \(\d+ Pa\) .*\+\d\.\d/m);
    expect(stdout).toContain("Breath. An estimate by a model of the jet, in mm of water");
    expect(stdout).toMatch(/^Register 1, 6 notes: \d+ dB deep ±\d\.\d, cut-off ±\d+ %\.$/m);
    const [{ fingerings }] = JSON.parse((await run("response", "--json", "tuned.bore.yaml")).stdout);
    expect(fingerings[0].cutOffHz).toBeNull();
    expect(fingerings[4].quality).toBeGreaterThan(20);
    expect(fingerings[0].breath.speaksFromPa).toBeLessThan(fingerings[0].breath.ordinaryPa);
  });

  it("prints a curve whose lowest minimum is the note", async () => {
    const lines = (await run("response", "--curve", "G4", "tuned.bore.yaml")).stdout.trim().split("\n");
    expect(lines[0]).toBe("hz,decibels,phase");
    const points = lines.slice(1).map((line) => line.split(",").map(Number) as [number, number, number]);
    const first = points.find(([, db], i) => i > 0 && db < (points[i - 1]?.[1] ?? 0) && db < (points[i + 1]?.[1] ?? 0));
    // Equal temperament: G4 is 392.0 Hz; the curve's steps are half a percent.
    expect(Math.abs(1200 * Math.log2((first?.[0] ?? 0) / 392))).toBeLessThan(20);
    expect((await run("response", "--curve", "C2", "tuned.bore.yaml")).status).toBe(2);
  });
});

describe("borewright calibrate", () => {
  const MEASURED = `${TUNED}measured:\n  - { note: G4, hz: 384.2 }\n  - { note: D5, hz: 573.9 }\n`;

  it("reports what it fitted and what each note has left, and writes only when told to", async () => {
    const file = join(folder, "measured.bore.yaml");
    writeFileSync(file, MEASURED);
    const { status, stdout } = await run("calibrate", "measured.bore.yaml");
    expect(status).toBe(0);
    expect(stdout).toMatch(/^G4 +384\.2 +−\d+\.\d +[+−]?\d+\.\d$/m);
    expect(stdout).toMatch(/^mouth\.extra: 0 → \d\.\d+ mm$/m);
    expect(readFileSync(file, "utf8")).toBe(MEASURED);
    await run("calibrate", "--write", "measured.bore.yaml");
    expect(readFileSync(file, "utf8")).toMatch(/^ {2}extra: \d\.\d+$/m);
    expect((await run("pitch", "measured.bore.yaml")).stdout).toMatch(/· calibrated$/m);
    expect(JSON.parse((await run("pitch", "--json", "measured.bore.yaml")).stdout)[0].calibrated).toBe(true);
  });

  it("prints data", async () => {
    writeFileSync(join(folder, "measured2.bore.yaml"), MEASURED);
    const { calibrations, text } = JSON.parse((await run("calibrate", "--json", "measured2.bore.yaml")).stdout);
    expect(calibrations[0].fitted[0].path).toBe("mouth.extra");
    expect(calibrations[0].notes).toHaveLength(2);
    expect(text).toContain(`extra: ${calibrations[0].fitted[0].after}`);
  });

  it.each([
    [
      "breakwater-pipes.bore.yaml",
      "G4",
      388.1,
      /^mouth\.extra: 0 → \d\.\d+ mm, alike for all pipes$/m,
      "in G4 · air 22 °C",
    ],
    ["lantern-vessel.bore.yaml", "C5", 515.2, /^mouth\.extra: 0 → \d\.\d+ mm$/m, "in C5 · air 22 °C"],
  ])("fits the mouth of %s, which then says so", async (example, note, hz, fitted, title) => {
    const file = join(folder, `measured-${example}`);
    const text = readFileSync(join(EXAMPLES, example), "utf8");
    const measured = `measured:\n  - { note: ${note}, hz: ${hz} }\n`;
    writeFileSync(file, text + measured);
    const { status, stdout } = await run("calibrate", `measured-${example}`);
    expect(status).toBe(0);
    expect(stdout).toMatch(new RegExp(`^${note} +${hz} +−\\d+\\.\\d +[+−]?0\\.\\d$`, "m"));
    expect(stdout).toMatch(fitted);
    await run("calibrate", "--write", `measured-${example}`);
    const written = readFileSync(file, "utf8");
    expect(written).toMatch(/extra: \d\.\d+/);
    expect(written.replace(/(, |\n {2})extra: [\d.]+/, "")).toBe(text + measured);
    expect((await run("pitch", `measured-${example}`)).stdout).toContain(`${title} · calibrated`);
    expect(JSON.parse((await run("pitch", "--json", `measured-${example}`)).stdout)[0].calibrated).toBe(true);
  });

  it("says what is missing, with status 2", async () => {
    const { status, stderr } = await run("calibrate", "tuned.bore.yaml");
    expect(status).toBe(2);
    expect(stderr).toMatch(/^tuned\.bore\.yaml: there are no measured notes/);
  });
});

describe("borewright calibrate with a note that cannot be read", () => {
  it("says on stderr that it was not used", async () => {
    writeFileSync(
      join(folder, "slip.bore.yaml"),
      `${TUNED}measured:\n  - { note: G4, hz: 390 }\n  - { note: A4, hz: x }\n`,
    );
    const { status, stdout, stderr } = await run("calibrate", "slip.bore.yaml");
    expect(status).toBe(0);
    expect(stdout).toContain("1 measured note");
    expect(stderr).toMatch(/^slip\.bore\.yaml:\d+:\d+: error: `hz` of measured note 2 takes a number/);
  });
});

describe("borewright check", () => {
  it("finds the designs of a folder, not those of installed packages", async () => {
    const { stdout } = await run("check", ".", "--fail-on", "never");
    expect(stdout).toContain("flat.bore.yaml:");
    expect(stdout).not.toContain("node_modules");
  });

  it.each([
    ["never", 0],
    ["error", 0],
    ["warning", 1],
    ["hint", 1],
  ])("of an out-of-tune design with --fail-on %s exits with %i", async (severity, status) => {
    expect((await run("check", "flat.bore.yaml", "--fail-on", severity)).status).toBe(status);
  });

  it("grades findings by the design's `rules` and by --rule, and fails accordingly", async () => {
    const status = async (...args: string[]) => (await run("check", ...args)).status;
    expect(await status("flat.bore.yaml", "--rule", "pitch/out-of-tune=error")).toBe(1);
    expect(await status("flat.bore.yaml", "--fail-on", "warning", "--rule", "pitch/out-of-tune=off")).toBe(0);
    writeFileSync(join(folder, "grave.bore.yaml"), `${WHISTLE}rules: { pitch/out-of-tune: error }\n`);
    expect(await status("grave.bore.yaml")).toBe(1);
    // The design's own word wins, and other rules stay as they are.
    expect(await status("grave.bore.yaml", "--rule", "pitch/out-of-tune=off", "--rule", "response/weak-note=off")).toBe(
      1,
    );
    expect((await run("check", "grave.bore.yaml")).stdout).toContain(": error: E5 sounds");
  });

  it.each([
    [["--rule", "pitch/out-of-tun=off"], /Did you mean `pitch\/out-of-tune`/],
    [["--rule", "file/syntax=off"], /always stay/],
    [["--rule", "pitch/out-of-tune"], /write pitch\/out-of-tune= and one of off, information, warning, error/],
  ])("refuses %j with a reason", async (args, reason) => {
    const { status, stderr } = await run("check", "flat.bore.yaml", ...args);
    expect(status).toBe(2);
    expect(stderr).toMatch(reason);
  });

  it("reports all of the others where one file cannot be read, and exits with 2", async () => {
    mkdirSync(join(folder, "mixed"));
    writeFileSync(join(folder, "mixed", "a.bore.yaml"), new Uint8Array([0xff, 0xfe, 0]));
    writeFileSync(join(folder, "mixed", "b.bore.yaml"), WHISTLE);
    const { status, stdout } = await run("check", "mixed");
    rmSync(join(folder, "mixed"), { recursive: true });
    expect(status).toBe(2);
    expect(stdout).toMatch(/a\.bore\.yaml:1:1: error: .*not UTF-8 text.* \[file\/unreadable\]/);
    expect(stdout).toMatch(/b\.bore\.yaml:\d+:\d+: warning: E5 sounds/);
  });

  it("ends with a count of everything it said", async () => {
    expect((await run("check", "flat.bore.yaml")).stdout).toMatch(/^1 file: 0 errors, 1 warning\.$/m);
    expect((await run("check", "flat.bore.yaml", "--rule", "pitch/out-of-tune=information")).stdout).toMatch(
      /^1 file: 0 errors, 0 warnings, 1 information\.$/m,
    );
  });

  it("fails on errors by default, with the place in compilers' form", async () => {
    const { status, stdout } = await run("check", "broken.bore.yaml");
    expect(status).toBe(1);
    expect(stdout).toMatch(/^broken\.bore\.yaml:\d+:\d+: error: .* \[expression\/unknown-name\]$/m);
  });

  it("prints JSON with places counted from 1", async () => {
    const [finding] = JSON.parse((await run("check", "--format", "json", "flat.bore.yaml")).stdout);
    const { file, code, severity, message, line, column, endLine, endColumn } = finding;
    expect({ file, code, severity }).toEqual({
      file: "flat.bore.yaml",
      code: "pitch/out-of-tune",
      severity: "warning",
    });
    expect(message).toMatch(/cents flat/);
    const text = WHISTLE.split("\n")[line - 1] ?? "";
    expect(endLine).toBe(line);
    expect(text.slice(column - 1, endColumn - 1)).toBe("210.3");
  });

  it("prints SARIF 2.1.0 (OASIS): version, one run, rules by index, 1-based regions", async () => {
    const log = JSON.parse((await run("check", "--format", "sarif", "flat.bore.yaml")).stdout);
    expect(log.version).toBe("2.1.0");
    const [only] = log.runs;
    const [result] = only.results;
    expect(only.tool.driver.rules[result.ruleIndex].id).toBe(result.ruleId);
    expect(result).toMatchObject({ ruleId: "pitch/out-of-tune", level: "warning" });
    expect(result.locations[0].physicalLocation.artifactLocation.uri).toBe("flat.bore.yaml");
    expect(result.locations[0].physicalLocation.region.startLine).toBeGreaterThan(1);
  });

  it("prints workflow commands for GitHub, one per line, special characters escaped", async () => {
    const { stdout } = await run("check", "--format", "github", "flat.bore.yaml");
    expect(stdout.trim()).toMatch(
      /^::warning file=flat\.bore\.yaml,line=\d+,col=\d+,endLine=\d+,endColumn=\d+,title=pitch\/out-of-tune::E5 sounds/,
    );
    expect(stdout.trim().split("\n")).toHaveLength(1);
  });

  it("takes temperature and tolerance where the design states none", async () => {
    const silent = TUNED.replace("tolerance: 10\n", "").replace(/air: .*\n/, "");
    writeFileSync(join(folder, "silent.bore.yaml"), silent);
    const notes = async (...args: string[]) =>
      (await run("check", "silent.bore.yaml", "--fail-on", "never", ...args)).stdout;
    expect((await notes("--tolerance", "0.5")).split("out-of-tune").length).toBeGreaterThan(
      (await notes()).split("out-of-tune").length,
    );
    expect((await run("pitch", "silent.bore.yaml", "--air-temperature", "30")).stdout).toContain("air 30 °C");
  });
});

describe("borewright rekey", () => {
  it("prints the design in its new key, and a summary beside it", async () => {
    const { status, stdout, stderr } = await run("rekey", "tuned.bore.yaml", "--to", "F4", "--by", "redraw");
    expect(status).toBe(0);
    expect(stdout).toMatch(/^key: F4$/m);
    expect(stderr).toMatch(
      /^G4 → F4: every dimension 11\d\.\d+ % of what it was \(the interval alone would say 11\d\.\d+ %\)/,
    );
    expect(readFileSync(join(folder, "tuned.bore.yaml"), "utf8")).toBe(TUNED);
  });

  it("writes in place or into a copy, in folders still to be made", async () => {
    writeFileSync(join(folder, "mine.bore.yaml"), TUNED);
    expect((await run("rekey", "mine.bore.yaml", "--to", "A4", "--write")).status).toBe(0);
    expect(readFileSync(join(folder, "mine.bore.yaml"), "utf8")).toMatch(/^print: \{ scale: 8\d\.\d+ % \}$/m);
    expect((await run("rekey", "tuned.bore.yaml", "--to", "F4", "-o", "new/place/copy.bore.yaml")).status).toBe(0);
    expect((await run("check", "new/place/copy.bore.yaml", "--fail-on", "warning")).status).toBe(0);
  });

  it("prints data with before and after", async () => {
    const report = JSON.parse((await run("rekey", "tuned.bore.yaml", "--to", "F4", "--json")).stdout);
    expect(report).toMatchObject({ file: "tuned.bore.yaml", from: "G4", to: "F4", by: "print-scale" });
    expect(report.fingerings[0]).toMatchObject({ note: "G4", after: { note: "F4" } });
    expect(report.text).toContain(`scale: ${report.printScalePercent} %`);
  });

  it("moves the instrument asked for", async () => {
    expect((await run("rekey", "two.bore.yaml", "--to", "F4")).stderr).toContain("holds 2 instruments");
    const { stdout } = await run("rekey", "two.bore.yaml", "--to", "F4", "--instrument", "2", "--by", "redraw");
    expect(stdout.startsWith(`${TUNED}---\n`)).toBe(true);
  });

  it.each([
    [["rekey", "tuned.bore.yaml", "--to", "H4"], "is not a note"],
    [["rekey", "broken.bore.yaml", "--to", "F4"], "not fully described"],
    [["rekey", "tuned.bore.yaml"], "--to"],
    [["rekey", "tuned.bore.yaml", "--to", "F4", "--by", "guess"], "Allowed choices"],
    [["rekey", "tuned.bore.yaml", "--to", "F4", "--write", "-o", "x"], "choose one"],
    [["rekey", "two.bore.yaml", "--to", "F4", "--instrument", "3"], "no instrument 3"],
    [["pitch", "tuned.bore.yaml", "--tolerance", "much"], "write a number"],
    [["check", "node_modules/.."], ""],
    [["sing"], "unknown command"],
  ])("%j ends with status 2 or findings and says why", async (args, reason) => {
    const { status, stderr, stdout } = await run(...args);
    if (reason === "") {
      expect(status).toBe(1);
      expect(stdout).not.toBe("");
      return;
    }
    expect(status).toBe(2);
    expect(stderr).toContain(reason);
  });

  it.each([
    [["--help"]],
    [["pitch", "--help"]],
    [["check", "--help"]],
    [["rekey", "--help"]],
    [["serve", "--help"]],
    [["--version"]],
  ])("%j helps and exits with 0", async (args) => {
    const { status, stdout } = await run(...args);
    expect(status).toBe(0);
    expect(stdout.length).toBeGreaterThan(4);
  });
});

describe("a command with an argument missing", () => {
  it("says where its own help is, kinds and examples included", async () => {
    const { status, stderr } = await run("new", "--key", "D5");
    expect(status).toBe(2);
    expect(stderr).toContain("borewright new --help");
    expect((await run("new", "--help")).stdout).toMatch(/Kinds:[\s\S]*whistle/);
  });
});
