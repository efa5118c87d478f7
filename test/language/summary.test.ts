/** What a change of key did, in one line: in the words of the family. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { DEFAULT_SETTINGS } from "../../server/src/design/settings.js";
import { type ChangeWork, perform } from "../../server/src/language/longWork/job.js";
import { WHISTLE } from "../support/designs.js";

const example = (name: string) => readFileSync(new URL(`../../examples/${name}.bore.yaml`, import.meta.url), "utf8");
const summary = async (text: string, work: ChangeWork) =>
  (await perform({ text, syntax: "yaml", documentIndex: 0, settings: DEFAULT_SETTINGS, work }, () => false)).message;

describe("the summary of a change of key", () => {
  it("of a vessel speaks of its chamber", async () => {
    const said = await summary(example("lantern-vessel"), { do: "rekey", to: "D5", by: "refit" });
    expect(said).toMatch(/dimensions? changed, chamber ([\d.]+ mm → |stays )[\d.]+ mm; worst note/);
    expect(said).not.toContain("bore");
  });

  it("of a pan pipe speaks of its pipes", async () => {
    const said = await summary(example("breakwater-pipes"), { do: "rekey", to: "A4", by: "refit" });
    expect(said).toMatch(/dimensions changed, longest pipe [\d.]+ mm → [\d.]+ mm; worst note/);
  });

  it("of a pan pipe printed smaller says what becomes of its widths, too", async () => {
    const said = await summary(example("breakwater-pipes"), { do: "rekey", to: "D5", by: "print-scale" });
    expect(said).toMatch(
      /Everything shrinks in proportion: widest pipe [\d.]+ mm → [\d.]+ mm, longest pipe [\d.]+ mm → [\d.]+ mm\./,
    );
  });

  it("names one key where it stays, and what else stays", async () => {
    const said = await summary(WHISTLE, { do: "retune", freedom: "holes" });
    expect(said).toMatch(/^G4: \d+ dimensions? changed, bore stays [\d.]+ mm; worst note/);
  });

  it("gives the percentage of a print or a redraw", async () => {
    expect(await summary(WHISTLE, { do: "rekey", to: "A4", by: "print-scale" })).toMatch(
      /^G4 to A4: print at 8\d\.\d+ %; worst/,
    );
    expect(await summary(WHISTLE, { do: "rekey", to: "A4", by: "redraw" })).toMatch(
      /^G4 to A4: every dimension 8\d\.\d+ % of what it was;/,
    );
  });
});
