/** From a recording to a calibrated design, through the program. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readDesign } from "../../server/src/document/read.js";
import { bareSamples, mulberry, type Play, synthesise, wav } from "../sound/synthesis.js";
import { PROGRAM, runProgram } from "../support/program.js";

const DESIGN = readFileSync(join(import.meta.dirname, "../../examples/quay-whistle.bore.yaml"), "utf8");
/** How far the print sounds from the prediction, cents; how a player's breath scatters. */
const OFFSET = -16;
const LIPS = 4;
let folder = "";
let predicted: readonly { readonly note: string; readonly predictedHz: number }[] = [];

const run = (args: readonly string[]) => runProgram(args, folder);

/** The scale up and down, twice, with breath noise. */
function recording(only = (_: number) => true): Float32Array {
  const random = mulberry(7);
  const once = [...predicted.keys()].filter(only);
  const order = [once, [...once].reverse()].flat();
  const plays: Play[] = [...order, ...order].map((i) => {
    const cents = OFFSET + LIPS * (random() + random() - 1);
    return { hz: (predicted[i]?.predictedHz ?? 0) * 2 ** (cents / 1200), seconds: 0.7, rest: 0.2 };
  });
  return synthesise(plays, { noise: 0.01, rate: 22_050 });
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "borewright-listen-"));
  writeFileSync(join(folder, "quay.bore.yaml"), DESIGN);
  predicted = JSON.parse((await run(["pitch", "--json", "quay.bore.yaml"])).stdout)[0].fingerings;
  writeFileSync(join(folder, "take.wav"), wav(recording(), "s16le", 22_050));
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("borewright listen", () => {
  it("lists the notes of a recording without a design", async () => {
    const { status, stdout } = await run(["listen", "take.wav", "--json"]);
    expect(status).toBe(0);
    expect(JSON.parse(stdout).notes).toHaveLength(4 * predicted.length);
  });

  it("finds every fingering, writes it under `measured`, keeps every other byte, and leads to a calibrated design", async () => {
    const { status, stdout } = await run([
      "listen",
      "take.wav",
      "--design",
      "quay.bore.yaml",
      "--temperature",
      "22",
      "--write",
    ]);
    expect(stdout).toContain(`${predicted.length} of ${predicted.length} fingerings heard.`);
    expect(status).toBe(0);
    const written = readFileSync(join(folder, "quay.bore.yaml"), "utf8");
    expect(written.startsWith(DESIGN.trimEnd())).toBe(true);
    const measured = readDesign(written, "yaml").documents[0]?.resolution.instrument.measured ?? [];
    expect(measured.map(({ note }) => note.name)).toEqual(predicted.map(({ note }) => note));
    for (const [i, { hz, uncertainty }] of measured.entries()) {
      expect(Math.abs(1200 * Math.log2(hz / (predicted[i]?.predictedHz ?? 0)) - OFFSET)).toBeLessThan(LIPS);
      expect(uncertainty).toBeGreaterThan(0.5);
      expect(uncertainty).toBeLessThan(6);
    }
    const calibrated = JSON.parse((await run(["calibrate", "--json", "quay.bore.yaml"])).stdout).calibrations[0];
    expect(calibrated.rmsResidualCents).toBeLessThan(LIPS);
  });

  it("goes from a recording to the next print by one command, note by note", async () => {
    writeFileSync(join(folder, "first.bore.yaml"), DESIGN);
    const args = ["correct", "first.bore.yaml", "take.wav", "--temperature", "22"];
    const { status, stdout } = await run([...args, "-o", "next.bore.yaml"]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/^note +measured Hz +this print +unexplained +next print$/m);
    expect(stdout).toMatch(/^mouth\.extra: 0 → \d/m);
    const rows = [...stdout.matchAll(/^G4 +([\d.]+) +(\S+) +\S+ +(\S+)$/gm)][0]?.slice(1) ?? [];
    // The print sounded flat by what was recorded; the next one is brought into tune with that mouth.
    const hz = Number(rows[0]);
    expect(Number(rows[1]?.replace("−", "-"))).toBeCloseTo(1200 * Math.log2(hz / 391.995), 0);
    expect(Math.abs(Number(rows[2]?.replace("−", "-")))).toBeLessThan(8);
    const next = readFileSync(join(folder, "next.bore.yaml"), "utf8");
    expect(next).toMatch(/extra: \d/);
    expect(next).toContain("measured:");
    expect(readFileSync(join(folder, "first.bore.yaml"), "utf8")).toBe(DESIGN);
    // They were measured on the first print: the next one has no notes yet.
    const stale = await run(["correct", "next.bore.yaml", "--calibrate-only"]);
    expect(stale.status).toBe(2);
    expect(stale.stderr).toContain("set aside");
    const left = await run([...args, "--calibrate-only", "--json", "-o", "same.bore.yaml"]);
    expect(JSON.parse(left.stdout).notes[0].nextPrintCents).toBeNull();
    // The same measured notes lead to the bench instead.
    const bench = await run(["correct", "same.bore.yaml", "--bench"]);
    expect(bench.stdout).toMatch(/^mouth\.extra|^note +measured Hz/m);
    expect(bench.stdout).toMatch(/Order of work|nothing is left to do/);
  });

  it("corrects by earlier prints, too, each with the notes measured on it", async () => {
    const measured = (name: string, cents: number) => {
      const notes = predicted.map(
        ({ note, predictedHz }) => `  - { note: ${note}, hz: ${predictedHz * 2 ** (cents / 1200)} }\n`,
      );
      writeFileSync(join(folder, name), `${DESIGN.trimEnd()}\nmeasured:\n${notes.join("")}`);
    };
    measured("print-1.bore.yaml", -10);
    measured("print-2.bore.yaml", -30);
    writeFileSync(join(folder, "bare.bore.yaml"), DESIGN);
    const args = ["correct", "print-2.bore.yaml", "--calibrate-only"];
    const lengthBy = async (...earlier: readonly string[]) => {
      const { fitted } = JSON.parse((await run([...args, "--json", ...earlier])).stdout);
      return Number(fitted[0].after);
    };
    const alone = await lengthBy();
    // Of notes 30 cents flat, and of 10 that count twice, the mean is 17: so much shorter is the mouth.
    const twice = await lengthBy("--earlier", "print-1.bore.yaml", "--earlier", "print-1.bore.yaml");
    expect(twice / alone).toBeCloseTo(5 / 9, 1);
    const told = await run([...args, "--earlier", "print-1.bore.yaml"]);
    expect(told.stdout).toContain(`Fitted to ${predicted.length} notes of an earlier print, too`);
    const refused = await run(["correct", "print-2.bore.yaml", "--earlier", "bare.bore.yaml"]);
    expect(refused.status).toBe(2);
    expect(refused.stderr).toMatch(/bare\.bore\.yaml: has no measured notes.*borewright listen/);
  });

  it("leaves what was measured before, and says so", async () => {
    writeFileSync(
      join(folder, "old.bore.yaml"),
      `${DESIGN.trimEnd()}\nmeasured: [{ note: ${predicted[0]?.note}, hz: 400 }]\n`,
    );
    const { stderr } = await run(["listen", "take.wav", "--design", "old.bore.yaml", "--write"]);
    expect(stderr).toContain(`left as it is: ${predicted[0]?.note}`);
    expect(readFileSync(join(folder, "old.bore.yaml"), "utf8")).toContain("hz: 400 }");
  });

  it("takes bare samples from standard input", () => {
    const bare = bareSamples(synthesise([{ hz: 440 }], { rate: 16_000 }), "s16le");
    const args = ["listen", "-", "--raw", "s16le", "--rate", "16000", "--json"];
    const stdout = spawnSync(process.execPath, [PROGRAM, ...args], { input: bare }).stdout.toString();
    expect(JSON.parse(stdout).notes[0].hz).toBeCloseTo(440, 0);
  });

  it("questions a note that belongs to no fingering, leaves it out, and exits with 1", async () => {
    const fingerings = [...predicted.keys()].slice(0, 7);
    const plays: Play[] = fingerings.map((i) => ({
      hz: (predicted[i]?.predictedHz ?? 0) * (i === 3 ? 2 ** (-0.5 / 12) : 1),
      seconds: 0.7,
    }));
    writeFileSync(join(folder, "wrong.wav"), wav(synthesise(plays, { rate: 22_050 }), "s16le", 22_050));
    const { status, stdout } = await run(["listen", "wrong.wav", "--design", "quay.bore.yaml"]);
    expect(status).toBe(1);
    expect(stdout).toMatch(/\? .*/);
    expect(stdout).toContain("left out");
  });

  it.each([
    ["text.wav", Buffer.from("no sound at all"), "is not a WAV file"],
    ["short.wav", Buffer.from("RIFF"), "ends before its first sample"],
    ["song.wav", Buffer.from("ID3\u0004 and so on, tags"), "is MP3"],
    [
      "broken.wav",
      Buffer.concat([wav(new Float32Array(10)).subarray(0, 22), Buffer.alloc(40)]),
      "kind that cannot be read here",
    ],
  ])("says what is wrong with %s, in one line", async (name, bytes, says) => {
    writeFileSync(join(folder, name), bytes);
    const { status, stdout, stderr } = await run(["listen", name]);
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(stderr).toContain(`${name}: `);
    expect(stderr).toContain(says);
    expect(stderr.trimEnd().split("\n")).toHaveLength(1);
  });
});
