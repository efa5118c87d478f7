/** A key that no refit reaches is refused alike in the list of ways, as a code action, in the bore view's proposal, and on the command line. */
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { client, PULLING, URI } from "../support/client.js";
import { titled } from "../support/language.js";
import { runProgram } from "../support/program.js";

/** In tune in D5; the bed takes little more. */
const SHORT_BED = `borewright: 1
family: duct
key: D5
air: { temperature: 20 }
mouth: { window: { width: 8.5, cutUp: 4, chimney: 1.5 } }
bore: [{ at: 0, diameter: 13 }, { at: 263.1, diameter: 13 }]
wall: 1.5
holes: [{ name: R1, at: 183.9, diameter: 6.5 }, { name: R2, at: 200.9, diameter: 9.6 }, { name: R3, at: 228.3, diameter: 8 }]
fingerings:
  - { degree: 1, holes: xxx }
  - { degree: 2, holes: xxo }
  - { degree: 3, holes: xoo }
  - { degree: 4, holes: ooo }
print: { bed: [220, 220, 250], nozzle: 0.4 }
`;
const REFUSED =
  /A refit of this instrument cannot reach \S+, and nothing is changed: .* Held back by: the tube would have to be \d+(\.\d)? mm long, but the bed takes 2\d\d(\.\d)? mm\. To come closer, split it .* Printed at \d+(\.\d+)? % it plays in /;

const folder = mkdtempSync(join(tmpdir(), "borewright-reach-"));
afterAll(() => rmSync(folder, { recursive: true }));

describe("a key that no refit reaches", () => {
  it("is refused among the ways to it, which the others are not", async () => {
    const self = await client(PULLING);
    self.open(SHORT_BED);
    const previews: readonly { by: string; possible: boolean; outcome: string }[] = await self.connection.sendRequest(
      "borewright/rekeyPreview",
      { uri: URI, documentIndex: 0, note: "A4" },
    );
    expect(previews.map(({ by, possible }) => [by, possible])).toEqual([
      ["print-scale", true],
      ["redraw", true],
      ["refit", false],
    ]);
    expect(previews.at(-1)?.outcome).toMatch(REFUSED);
  });

  it("is refused as a code action, with no edit", async () => {
    const self = await client(PULLING);
    self.open(SHORT_BED);
    const range = { start: { line: 2, character: 5 }, end: { line: 2, character: 5 } };
    const asked = { textDocument: { uri: URI }, range, context: { diagnostics: [] } };
    const action = titled(await self.connection.sendRequest("textDocument/codeAction", asked), /^Refit to C5/);
    await expect(self.connection.sendRequest("codeAction/resolve", action)).rejects.toThrow(REFUSED);
  });

  it("is refused by the command line, which writes nothing", async () => {
    writeFileSync(join(folder, "slip.bore.yaml"), SHORT_BED);
    const words = ["rekey", "slip.bore.yaml", "--to", "A4", "--by", "refit", "-o", "in-a.bore.yaml"];
    const { status, stderr, stdout } = await runProgram(words, folder);
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(REFUSED);
    expect(existsSync(join(folder, "in-a.bore.yaml"))).toBe(false);
  });
});
