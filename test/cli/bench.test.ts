/** `borewright bench`, as its users meet it. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { WHISTLE } from "../support/designs.js";
import { runProgram } from "../support/program.js";

const MEASURED = `${WHISTLE.replace("at: 210.3", "at: 205.3")}measured:
  - { note: G4, cents: -12, temperature: 19, uncertainty: 2 }
  - { note: A4, cents: -30, temperature: 19, uncertainty: 2 }
`;
let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "borewright-bench-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function run(text: string, ...args: string[]) {
  const file = join(folder, "a.bore.yaml");
  writeFileSync(file, text);
  const ran = await runProgram(["bench", file, ...args], folder);
  return { ...ran, written: readFileSync(file, "utf8") };
}

describe("borewright bench", () => {
  it("gives the order of work in the air of the measured notes, with the cautions", async () => {
    const { status, stdout } = await run(MEASURED);
    expect(status).toBe(0);
    expect(stdout).toContain("Readings at 19 °C, it is to be in tune at 22 °C; tuner's A4 at 440 Hz.");
    expect(stdout).toMatch(
      /^ 1\. open R3 by 0\.\d+ mm, to [67]\.\d+ mm; then A4 should read −\d+ \(not beyond \d\.\d+ mm\)\.$/m,
    );
    expect(stdout).toMatch(/^A4 +−30 +−9 {2}measured, ±2$/m);
    expect(stdout).toMatch(/Please note\nHold it in padded jaws/);
    expect(stdout).toMatch(/eye protection[\s\S]*Dust[\s\S]*touches the mouth[\s\S]*Local rules/);
  });

  it("says that nothing is measured, where nothing is", async () => {
    expect((await run(WHISTLE)).stdout).toContain("Nothing is measured yet");
  });

  it("writes what is done and says what it took out", async () => {
    const { stderr, written } = await run(MEASURED, "--done", "1", "--write");
    expect(written).toMatch(/name: R3, at: 321\.4, diameter: (6\.[6-9]|7)[.\d]* }/);
    expect(written).toContain("measured:\n  []");
    expect(stderr).toMatch(
      /Written as done: R3\.\nRemoved, since they were measured before: G4 389\.\d+ Hz, A4 432\.\d+ Hz\. Measure again\./,
    );
  });

  it("gives data, in millimetres and cents", async () => {
    const data = JSON.parse((await run(MEASURED, "--json", "--temperature", "24")).stdout);
    expect(data).toMatchObject({ workshopTemperature: 24, temperature: 22, pitchStandard: 440, isMeasured: true });
    expect(data.steps[0]).toMatchObject({ kind: "open", part: "R3", path: "holes[5].diameter" });
    expect(data.cautions.length).toBeGreaterThan(3);
  });

  it.each([
    [["--write"], /--write: needs to know what is done/],
    [["--done", "99"], /--done: takes a number of steps from 1 to \d+/],
    [["--within", "-1"], /--within: takes cents above 0/],
  ])("refuses %j in words", async (args, message) => {
    const { status, stderr } = await run(MEASURED, ...args);
    expect(status).toBe(2);
    expect(stderr).toMatch(message);
  });

  it("draws a design flat that no retune brings closer, and does not say that nothing is changed", async () => {
    // Every dimension is held, and one note that no dimension brings nearer is left aside.
    const held = WHISTLE.replace("holes: ●●●●●●, register: 2", "holes: ●●●●●●")
      .replace("tolerance: 10", "tolerance: 2\nbench: { holesFlat: 25, lengthFlat: 16, room: 12 }")
      .replace("at: 394.1, diameter: =tube", "at: 394.1, diameter: =tube, fixed: true")
      .replace(/(name: (?:L1|L3|R\d), at: [\d.]+, diameter: [\d.]+)/g, "$1, fixed: true")
      .replace("diameter: 8.5 }   #", "diameter: 8.5, limits: { at: [210.2, 210.4], diameter: [8.4, 8.6] } }   #");
    const { status, stderr } = await run(held, "--draw-flat", "--write");
    expect([status, stderr]).toEqual([0, expect.stringContaining("G5 cannot be reached")]);
    expect(stderr).not.toContain("Nothing is changed");
  });
});
