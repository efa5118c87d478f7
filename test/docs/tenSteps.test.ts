/**
 * The ten steps of docs/ten-steps.md, run as they stand there. The model somebody shared is our own solid of a design that is a little out of
 * tune; the recording is synthesised from a print whose mouth is not what the prediction takes it for.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { mulberry, type Play, synthesise, wav } from "../sound/synthesis.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";
import { runProgram } from "../support/program.js";
import { predictionsOf } from "../support/surveyedSolids.js";

const ROOT = join(import.meta.dirname, "../..");
const PAGE = readFileSync(join(ROOT, "docs/ten-steps.md"), "utf8");
/** What the print's mouth acts deeper than the model has it, mm, and how a player's breath scatters, cents. */
const HIDDEN_MOUTH = 3.5;
const LIPS = 3;
let folder = "";

const run = (args: readonly string[]) => runProgram(args, folder);

const read = (name: string) => readFileSync(join(folder, name), "utf8");
const withMouth = (text: string) => text.replace(/^mouth:$/m, `mouth:\n  extra: ${HIDDEN_MOUTH}`);

/** Hz of each fingering as the print of a design sounds. */
const printed = (name: string) =>
  predictionsOf(documentOf(fileOf(withMouth(read(name).replace(/^ {2}extra: .*\n/m, "")))));

/** Played up and down, twice. */
function record(): void {
  const random = mulberry(11);
  const notes = [...printed("mine.bore.yaml").values()];
  const order = [...notes, ...notes.toReversed()];
  const plays: Play[] = [...order, ...order].map((hz) => ({
    hz: hz * 2 ** ((LIPS * (random() + random() - 1)) / 1200),
    seconds: 0.7,
    rest: 0.2,
  }));
  writeFileSync(join(folder, "take.wav"), wav(synthesise(plays, { noise: 0.01, rate: 22_050 }), "s16le", 22_050));
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "borewright-ten-steps-"));
  writeFileSync(join(folder, "drawn.bore.yaml"), WHISTLE);
  expect((await run(["solid", "drawn.bore.yaml", "-o", "shared.3mf"])).status).toBe(0);
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("leads from a shared model to a print in another key, step by step", { timeout: 300_000 }, async () => {
  const steps = [...PAGE.matchAll(/^\*\*(\d+)\. [\s\S]*?^```sh\nborewright (.*)\n```$/gm)];
  expect(steps.map(([, number]) => Number(number))).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
  let corrected = "";
  for (const [, number, line = ""] of steps) {
    const [command = "", ...tail] = line.split(" || ");
    if (number === "7") record();
    const { status, stdout, stderr } = await run(command.split(" "));
    if (number === "8") corrected = `${stdout}${stderr}`;
    expect({ number, stderr: status === 0 || tail.length > 0 ? "" : `${stdout}${stderr}` }).toEqual({
      number,
      stderr: "",
    });
  }
  // In the new key, as measured, and brought into tune with the mouth that was hidden.
  expect(read("mine-2.bore.yaml")).toMatch(/^key: A4/m);
  const extra = Number(/^ {2}extra: ([\d.]+)/m.exec(read("mine-2.bore.yaml"))?.[1]);
  expect(Math.abs(extra - HIDDEN_MOUTH)).toBeLessThan(0.3);
  const { instrument } = documentOf(fileOf(read("mine-2.bore.yaml"))).resolution;
  const rmsOf = (name: string) => {
    const hz = printed(name);
    const off = instrument.fingerings.flatMap(({ pattern, register, target }) => {
      const sounds = hz.get(`${pattern} ${register}`);
      return sounds === undefined || target === undefined
        ? []
        : [1200 * Math.log2(sounds / (440 * 2 ** ((target.midi - 69) / 12)))];
    });
    expect(off.length).toBeGreaterThan(6);
    return Math.hypot(...off) / Math.sqrt(off.length);
  };
  // With this mouth the octave of a straight bore is too wide, half of it on either note: that is said, and no hole mends it.
  expect(rmsOf("mine-2.bore.yaml")).toBeLessThan(rmsOf("mine.bore.yaml") / 3);
  expect(corrected).toContain("A4 and A5, fingered with every hole closed");
  // What is said to help does.
  const shaped = read("mine.bore.yaml").replace(
    /^( {2}- \{ at: )[\d.]+(, diameter: 16 \}).*\n(?=wall)/m,
    "$1120$2\n$&",
  );
  writeFileSync(join(folder, "shaped.bore.yaml"), `${shaped}\nrefit: { taper: free }\n`);
  expect((await run(["correct", "shaped.bore.yaml", "-o", "shaped-2.bore.yaml"])).status).toBe(0);
  expect(rmsOf("shaped-2.bore.yaml")).toBeLessThan(3);
});
