/** `borewright scale`, as its users meet it. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { runProgram } from "../support/program.js";

const EXAMPLES = join(import.meta.dirname, "../../examples");

const run = (...args: string[]) => runProgram(args, EXAMPLES);

describe("of a design", () => {
  it("answers several sizes at once, with a sentence and a row for each", async () => {
    const { status, stdout } = await run("scale", "quay-whistle.bore.yaml", "125", "110 %");
    expect(status).toBe(0);
    expect(stdout).toMatch(
      /^Printed at 125 % it plays Eb4 \+1\d\.\d cents, between Eb4 and E4; Eb4 would be 126\.\d+ %, E4 119\.\d+ %\.$/m,
    );
    const page = readFileSync(join(EXAMPLES, "../docs/sizes.md"), "utf8");
    expect(page).toContain(`*${stdout.split("\n").find((line) => line.startsWith("Printed at 125 %"))}*`);
    expect(stdout).toMatch(/^Printed at 110 % it plays F4 \+3\d\.\d cents/m);
    expect(stdout).toMatch(
      /^ 125\.00 {2}Eb4 +\+1\d\.\d +±\d\.\d +492\.\d +39\.9 of 34\.0 +10\.5 +3\.8 +9\.4 {2}see below$/m,
    );
    expect(stdout).toMatch(/^125 %: L1 and L2 are 39\.9 mm apart; the stated reach is 34 mm\./m);
  });

  it("answers with data, and for notes", async () => {
    const data = JSON.parse((await run("scale", "quay-whistle.bore.yaml", "--to", "F4", "--json")).stdout);
    const [size] = data.sizes;
    expect(size).toMatchObject({ key: "F4", between: null, reachMillimetres: 34, fitsBed: true });
    expect(Math.abs(size.cents)).toBeLessThan(0.1);
    expect(size.findings.map(({ code }: { code: string }) => code)).toContain("hands/out-of-reach");
  });

  it("is where `rekey --to 125%` leads", async () => {
    const { status, stderr } = await run("rekey", "quay-whistle.bore.yaml", "--to", "125%");
    expect(status).toBe(2);
    expect(stderr).toContain("`borewright scale FILE 125` says what it plays at that size");
  });
});

describe("of an undescribed instrument", () => {
  it("answers by the interval alone and says what that leaves out", async () => {
    // Equal temperament: four semitones are a factor of 2^(4/12) = 1.2599; 5:4 is 386.31 cents.
    const { stdout } = await run("scale", "--from", "A4", "--to", "F4");
    expect(stdout).toContain("A4 to F4, a major third down (−400.0 cents): 125.99 %.");
    expect(stdout).toMatch(/By the interval alone\.\nLeft out: friction at the walls/);
    expect((await run("scale", "A4", "125")).stdout).toContain(
      "What sounds A4, at 125 % sounds F4 +13.7 cents, between F4 and F#4; F4 would be 125.99 %, F#4 118.92 %.",
    );
  });

  it.each([
    [["scale", "125"], "is a size: say of what"],
    [["scale", "H4", "125"], "H4: is neither a file nor a note"],
    [["scale"], "needs a size or a note"],
    [["scale", "--to", "F4"], "needs the note it sounds now"],
    [["scale", "A4", "0"], "is not a size"],
    [["scale", "A4", "abc"], "is not a size"],
  ])("says what is missing in %j", async (args, message) => {
    const { status, stderr } = await run(...args);
    expect(status).toBe(2);
    expect(stderr).toContain(message);
  });
});
