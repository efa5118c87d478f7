/** `borewright survey` as its users meet it; runs the built program. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { WHISTLE } from "../support/designs.js";
import { runProgram } from "../support/program.js";

let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "borewright survey ä "));
  writeFileSync(join(folder, "drawn.bore.yaml"), WHISTLE);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...args: string[]) => runProgram(args, folder);

it("makes a design of a model, which check and pitch take, and credits its maker", async () => {
  await run("solid", "drawn.bore.yaml", "-o", "shared.3mf");
  const { status, stderr } = await run("survey", "shared.3mf", "-o", "found.bore.yaml", "--name", "Found: it");
  expect({ status, stderr }).toEqual({
    status: 0,
    stderr: expect.stringMatching(
      /^Found: it: a duct flute, 6 holes, 13 fingerings proposed\.\n[\s\S]*The block that lies beside it[\s\S]*respect its licence/,
    ),
  });
  expect(readFileSync(join(folder, "found.bore.yaml"), "utf8")).toMatch(/licence[\s\S]*at: 210\.3, diameter: 8\.5/);
  expect(await run("check", "found.bore.yaml")).toMatchObject({ status: 0 });
  expect((await run("pitch", "found.bore.yaml")).stdout).toMatch(/^Found: it · in G4/);
  expect(await run("survey", "shared.3mf", "-o", "found.bore.yaml")).toEqual({
    status: 2,
    stdout: "",
    stderr: "found.bore.yaml: exists already: choose another name\n",
  });
});

it("says in a line why a file cannot be surveyed", async () => {
  writeFileSync(join(folder, "note.stl"), "not a mesh");
  expect(await run("survey", "note.stl")).toEqual({
    status: 2,
    stdout: "",
    stderr: "note.stl: cannot be surveyed. It is not an STL file, or only the beginning of one\n",
  });
});
