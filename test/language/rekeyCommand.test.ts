/** The command `borewright.rekey`: what it takes and what it answers. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CannotRekey } from "../../server/src/design/rekey/rekeyResult.js";
import { readRekeyRequest, rekeyed } from "../../server/src/language/rekeyCommand.js";
import { WHISTLE } from "../support/designs.js";
import { applied, designOf, YAML_URI } from "../support/language.js";

describe("readRekeyRequest", async () => {
  it("reads one map or four arguments", async () => {
    const expected = { uri: YAML_URI, documentIndex: 1, by: "redraw", to: expect.objectContaining({ name: "Bb4" }) };
    expect(readRekeyRequest([{ uri: YAML_URI, documentIndex: 1, note: "bb4", by: "redraw" }])).toEqual(expected);
    expect(readRekeyRequest([YAML_URI, 1, "B♭4", "redraw"])).toEqual(expected);
  });

  it("takes the first instrument and the print scale by default", async () => {
    expect(readRekeyRequest([{ uri: YAML_URI, note: "A4" }])).toMatchObject({ documentIndex: 0, by: "print-scale" });
  });

  it.each([
    ["the note", { uri: YAML_URI, note: "H2" }, /"H2" is not a note/],
    ["the way", { uri: YAML_URI, note: "A4", by: "magic" }, /"magic" is not a way/],
    ["the instrument", { uri: YAML_URI, note: "A4", documentIndex: 1.5 }, /1\.5 is not the number/],
    ["the file", { note: "A4" }, /URI/],
  ])("says what is wrong with %s", async (_, argument, message) => {
    expect(() => readRekeyRequest([argument])).toThrow(message);
  });

  it("refuses anything else in the same way", async () => {
    fc.assert(
      fc.property(fc.array(fc.anything()), (args) => {
        try {
          readRekeyRequest(args);
        } catch (error) {
          expect(error).toBeInstanceOf(CannotRekey);
        }
      }),
    );
  });
});

describe("rekeyed", async () => {
  const never = () => false;

  it("gives the edit and says in one line what it comes to", async () => {
    const request = readRekeyRequest([{ uri: YAML_URI, note: "A4", by: "print-scale" }]);
    const { edit, label, message } = await rekeyed(designOf(WHISTLE), request, never);
    expect(label).toBe("Rekey from G4 to A4");
    expect(message).toMatch(/^G4 to A4: print at 8\d(\.\d+)? %; worst note −\d+\.\d cents \(flat\)\./);
    const after = applied(WHISTLE, edit);
    expect(after).toContain("key: A4");
    expect(after).toMatch(/print:.*scale.*8\d(\.\d+)? %/);
  });

  it("says why it cannot", async () => {
    const to = (documentIndex: number) => readRekeyRequest([{ uri: YAML_URI, note: "A4", documentIndex }]);
    await expect(rekeyed(designOf(WHISTLE), to(3), never)).rejects.toThrow(/no instrument 4/);
    await expect(rekeyed(designOf("borewright: 1\n"), to(0), never)).rejects.toThrow(CannotRekey);
  });
});
