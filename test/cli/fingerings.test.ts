/** `borewright fingerings`: the chart, the data, and what cannot be asked. */
import { join } from "node:path";
import { expect, it } from "vitest";
import { runProgram } from "../support/program.js";

const EXAMPLES = join(import.meta.dirname, "../../examples");
const run = (...args: string[]) => runProgram(["fingerings", ...args], EXAMPLES);

it("charts every semitone from the lowest note to the highest", async () => {
  const { status, stdout } = await run("quay-whistle.bore.yaml", "--most", "1");
  expect(status).toBe(0);
  // G4 to E6, 22 notes.
  expect(stdout.match(/^[A-G][#b]?\d /gm)).toHaveLength(22);
  expect(stdout).toMatch(/^G4 +●●●●●● +1 +−?\d.*as in the design$/m);
  expect(stdout).toMatch(/^Ab4 +●●●●●◐ +1 +\+\d/m);
});

it("says the same as data", async () => {
  const { stdout } = await run(
    "quay-whistle.bore.yaml",
    "--notes",
    "F5, c#5",
    "--most",
    "4",
    "--no-half-holes",
    "--json",
  );
  const [{ notes }] = JSON.parse(stdout);
  expect(notes.map(({ note }: { note: string }) => note)).toEqual(["F5", "C#5"]);
  expect(notes[0].fingerings).toHaveLength(4);
  expect(notes[0].fingerings[0]).toMatchObject({
    holes: expect.stringMatching(/^[●○]{6}$/),
    register: 1,
    isInDesign: false,
  });
});

it.each([
  [["quay-whistle.bore.yaml", "--notes", "H4"], /H4 is not a note/],
  [["quay-whistle.bore.yaml", "--most", "0"], /whole number, 1 or more/],
  [["breakwater-pipes.bore.yaml"], /^breakwater-pipes\.bore\.yaml: pan pipes have no fingerings/],
])("refuses %j", async (args, message) => {
  expect(await run(...args)).toMatchObject({ status: 2, stdout: "", stderr: expect.stringMatching(message) });
});
