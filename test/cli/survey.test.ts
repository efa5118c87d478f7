/** `borewright survey` as its users meet it; runs the built program. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { WHISTLE } from "../support/designs.js";

const PROGRAM = join(import.meta.dirname, "../../dist/cli.cjs");
let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "borewright survey ä "));
  writeFileSync(join(folder, "drawn.bore.yaml"), WHISTLE);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function run(...args: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [PROGRAM, ...args], { cwd: folder, encoding: "utf8" });
  return { status, stdout, stderr };
}

it("makes a design of a model, which check and pitch take, and heeds who made the model", () => {
  run("solid", "drawn.bore.yaml", "-o", "shared.3mf");
  const { status, stderr } = run("survey", "shared.3mf", "-o", "found.bore.yaml", "--name", "Found: it");
  expect({ status, stderr }).toEqual({
    status: 0,
    stderr: expect.stringMatching(
      /^Found: it: a duct flute, 6 holes, 13 fingerings proposed\.\n[\s\S]*\? Where does the block end[\s\S]*respect its licence/,
    ),
  });
  expect(readFileSync(join(folder, "found.bore.yaml"), "utf8")).toMatch(/licence[\s\S]*at: 210\.3, diameter: 8\.5/);
  expect(run("check", "found.bore.yaml")).toMatchObject({ status: 0 });
  expect(run("pitch", "found.bore.yaml").stdout).toMatch(/^Found: it · in G4/);
  expect(run("survey", "shared.3mf", "-o", "found.bore.yaml")).toEqual({
    status: 2,
    stdout: "",
    stderr: "found.bore.yaml: is there already: choose another name\n",
  });
});

it("says in a line why a file cannot be surveyed", () => {
  writeFileSync(join(folder, "note.stl"), "not a mesh");
  expect(run("survey", "note.stl")).toEqual({
    status: 2,
    stdout: "",
    stderr: "note.stl: cannot be surveyed. It is no STL file, or only the beginning of one\n",
  });
});
