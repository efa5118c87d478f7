/** `check --format sarif`: what a service that reviews changes is given. */
import { spawnSync } from "node:child_process";
import { chmodSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import standard from "@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json";
import validator from "@microsoft/sarif-multitool";
import Ajv from "ajv";
import type { Log, Result } from "sarif";
import { afterAll, beforeAll, expect, it } from "vitest";
import { WHISTLE } from "../support/designs.js";
import { runProgram } from "../support/program.js";

/** The schema of OASIS SARIF 2.1.0, as this package carries it; but for its own name it reads the same in later drafts of JSON Schema. */
const { $schema: _, id: __, ...SCHEMA } = standard;
let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "borewright-sarif-"));
  mkdirSync(join(folder, "work shop"));
  writeFileSync(join(folder, "work shop", "flat 1.bore.yaml"), WHISTLE);
  writeFileSync(join(folder, "flat.bore.yaml"), WHISTLE);
  writeFileSync(join(folder, "twice.bore.yaml"), `${WHISTLE.replace("name: L2", "name: L1")}hands: { reach: 20 }\n`);
  writeFileSync(join(folder, "broken.bore.yaml"), WHISTLE.replace("at: 394.1", "at: =nowhere"));
  writeFileSync(join(folder, "binary.bore.yaml"), new Uint8Array([0xff]));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function logOf(args: readonly string[], cwd = folder): Promise<Log> {
  return JSON.parse((await runProgram(["check", "--format", "sarif", ...args], cwd)).stdout);
}

const runOf = (log: Log) => log.runs[0] ?? expect.fail("no run");
const resultsOf = (log: Log): Result[] => runOf(log).results ?? [];

it("is valid by the schema of the standard", async () => {
  const valid = new Ajv({ strict: false, validateFormats: false, unicodeRegExp: false, logger: false }).compile(SCHEMA);
  expect(valid({ version: "2.1.0", runs: [{}] })).toBe(false);
  for (const args of [["."], ["work shop"], [join(folder, "twice.bore.yaml")]]) {
    valid(await logOf(args));
    expect(valid.errors).toBeNull();
  }
});

it("has for each rule what code scanning asks for", async () => {
  // "SARIF support for code scanning" (docs.github.com): what is required of a reportingDescriptor, and its greatest lengths.
  const { rules = [] } = runOf(await logOf(["."])).tool.driver;
  expect(rules.map(({ id }) => id)).toEqual(
    expect.arrayContaining(["pitch/out-of-tune", "hole/duplicate-name", "file/unreadable", "expression/unknown-name"]),
  );
  for (const { id, name = "", shortDescription, fullDescription, help } of rules) {
    expect(name).toMatch(/^([A-Z][a-z]+)+$/);
    for (const text of [shortDescription?.text, fullDescription?.text, help?.text]) {
      expect(text, id).toMatch(/^[A-Z].{10,}\.$/);
      expect(text?.length).toBeLessThanOrEqual(1024);
    }
    expect(help?.markdown).toContain("**What to do.**");
  }
  const levels = Object.fromEntries(rules.map(({ id, defaultConfiguration }) => [id, defaultConfiguration?.level]));
  expect(levels).toMatchObject({ "pitch/out-of-tune": "warning", "expression/unknown-name": "error" });
  expect(rules.find(({ id }) => id === "pitch/out-of-tune")?.shortDescription?.text).toBe(
    "A fingering sounds farther from its note than the tolerance allows.",
  );
});

it("names files as the repository does, wherever they are named from", async () => {
  const uris = (log: Log) => resultsOf(log).map(({ locations }) => locations?.[0]?.physicalLocation?.artifactLocation);
  const flat = { uri: "work%20shop/flat%201.bore.yaml", uriBaseId: "%SRCROOT%" };
  expect(uris(await logOf(["work shop"]))).toContainEqual(flat);
  expect(uris(await logOf([`./work shop/../work shop/`]))).toContainEqual(flat);
  expect(uris(await logOf([join(folder, "work shop")]))).toContainEqual(flat);
  const [outside] = uris(await logOf([".."], join(folder, "work shop")));
  expect(outside?.uri).toMatch(/^file:\/\/\//);
  expect(outside?.uriBaseId).toBeUndefined();
});

it("gives the related places of a finding", async () => {
  const twice = resultsOf(await logOf(["twice.bore.yaml"])).find(({ ruleId }) => ruleId === "hole/duplicate-name");
  const [other] = twice?.relatedLocations ?? [];
  expect(other?.message?.text).toMatch(/./);
  expect(other?.physicalLocation?.region?.startLine).not.toBe(
    twice?.locations?.[0]?.physicalLocation?.region?.startLine,
  );
});

it("recognizes a finding after lines and numbers have changed, and distinguishes two at one place", async () => {
  const printsOf = async (text: string) => {
    writeFileSync(join(folder, "work shop", "flat 1.bore.yaml"), text);
    return resultsOf(await logOf(["work shop"])).map(
      ({ partialFingerprints }) => partialFingerprints?.primaryLocationLineHash,
    );
  };
  const before = await printsOf(WHISTLE);
  expect(await printsOf(`# one more line\n${WHISTLE.replace("at: 210.3", "at: 211.3")}`)).toEqual(before);
  const all = resultsOf(await logOf(["."])).map(
    ({ partialFingerprints, locations }) =>
      `${locations?.[0]?.physicalLocation?.artifactLocation?.uri} ${partialFingerprints?.primaryLocationLineHash}`,
  );
  expect(new Set(all).size).toBe(all.length);
});

it("has the fixes of a finding, which make of the file what they say", async () => {
  // §3.55: each fix by itself; §3.57: what is deleted, and what stands there instead.
  const [result] = resultsOf(await logOf(["flat.bore.yaml"]));
  expect(result?.fixes?.length).toBeGreaterThan(1);
  const [{ description, artifactChanges } = expect.fail("no fix")] = result?.fixes ?? [];
  expect(description?.text).toMatch(/^(Move|Open) .* so that E5 is in tune/);
  expect(artifactChanges.map(({ artifactLocation }) => artifactLocation.uri)).toEqual(["flat.bore.yaml"]);
  const [{ deletedRegion, insertedContent } = expect.fail("nothing replaced")] = artifactChanges[0]?.replacements ?? [];
  const { startLine = 0, startColumn = 0, endLine, endColumn = 0 } = deletedRegion;
  expect(endLine).toBe(startLine);
  const lines = WHISTLE.split("\n");
  const line = lines[startLine - 1] ?? "";
  lines[startLine - 1] = `${line.slice(0, startColumn - 1)}${insertedContent?.text ?? ""}${line.slice(endColumn - 1)}`;
  writeFileSync(join(folder, "fixed.bore.yaml"), lines.join("\n"));
  expect(resultsOf(await logOf(["fixed.bore.yaml"])).filter(({ message }) => message.text?.startsWith("E5"))).toEqual(
    [],
  );
  rmSync(join(folder, "fixed.bore.yaml"));
});

it("passes the rules of a validator, those for code scanning, too", async () => {
  // SARIF Multitool (Microsoft), a program of its own that npm brings for this platform.
  chmodSync(validator, 0o755); // npm leaves it as it was packed where scripts of packages are not run
  const log = await logOf(["."]);
  // Written by a release, which .ci/release.mjs checks; a build from sources has none.
  for (const { tool } of log.runs) tool.driver.informationUri = "https://forge.example/harbour/borewright";
  writeFileSync(join(folder, "all.sarif"), JSON.stringify(log));
  const args = ["validate", "all.sarif", "-o", "told.sarif", "--rule-kind", "Sarif;Gh", "--log", "ForceOverwrite"];
  // The machine may have no library of languages.
  const env = { ...process.env, DOTNET_SYSTEM_GLOBALIZATION_INVARIANT: "1" };
  spawnSync(validator, args, { cwd: folder, env });
  const told = resultsOf(JSON.parse(readFileSync(join(folder, "told.sarif"), "utf8").replace(/^\ufeff/, "")) as Log);
  expect(told.map(({ ruleId, message }) => `${ruleId}: ${message.text}`)).toEqual([]);
});
