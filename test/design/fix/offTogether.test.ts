/** pitch/out-of-tune where all notes are off by nearly the same amount: one finding, with the size or the key that would be right. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { codeActions } from "../../../server/src/language/codeActions/index.js";
import { checked, WHISTLE } from "../../support/designs.js";
import { applied, atCursor, chosen, marked, titled } from "../../support/language.js";

/** In tune within 9 cents in G4. */
const QUAY = readFileSync(new URL("../../../examples/quay-whistle.bore.yaml", import.meta.url), "utf8");
const PIPES = readFileSync(new URL("../../../examples/breakwater-pipes.bore.yaml", import.meta.url), "utf8");
const VESSEL = readFileSync(new URL("../../../examples/lantern-vessel.bore.yaml", import.meta.url), "utf8");
const inKey = (text: string, key: string) => text.replace(/^key: \w+#?/m, `key: ${key}`);
const outOfTune = (text: string) => checked(text).findings.filter(({ code }) => code === "pitch/out-of-tune");
const actionsOnKey = async (text: string) => {
  const { context, position } = atCursor(marked(text, "key: ", 6), { client: { resolvesCodeActions: true } });
  return codeActions(context, { range: { start: position, end: position }, context: { diagnostics: [] } });
};

describe("notes that are all off alike", () => {
  it("are reported once, at the key, with the key that they sound in and the size that would be right", () => {
    const text = inKey(QUAY, "Bb4");
    const [finding, ...others] = outOfTune(text);
    expect(others).toEqual([]);
    expect(finding).toMatchObject({ severity: "error", path: ["key"] });
    // Three semitones are a factor of 2^(3/12) = 1.189 in frequency; a smaller print loses a little more to friction.
    expect(finding?.message).toMatch(
      /^All 13 notes sound about (29|30)\d cents flat together: it sounds about G4, not Bb4\. The cause is its size, not its holes: print it at 8[34]\.\d+ % \(every dimension × 0\.8[34]\d\); or call its key G4\.$/,
    );
    // The flattest and the sharpest.
    expect(finding?.related).toHaveLength(2);
  });

  it("are reported so when sharp, too", () => {
    expect(outOfTune(inKey(QUAY, "F4")).map(({ message }) => message)).toEqual([
      expect.stringMatching(
        /^All 13 notes sound about \d+ cents sharp together: it sounds about G4, not F4\. .* print it at 11\d/,
      ),
    ]);
  });

  it("are reported once also where they are so far off that they scatter, with the remedy that works", () => {
    // A whistle from G4 in D5 on a narrower tube: its notes lie up to some 40 cents from the others.
    const [finding, ...others] = outOfTune(inKey(QUAY, "D5").replace(/tube: [\d.]+/, "tube: 14"));
    expect(others).toEqual([]);
    expect(finding?.path).toEqual(["key"]);
    expect(finding?.message).toMatch(
      /^All 13 notes sound about 6\d\d cents flat together.* print it at .* They differ by up to \d+ cents from that: bring every note into tune as well \(`retune`/,
    );
  });

  it("are reported once for a first drawing, too, whose notes differ before it is in tune anywhere", () => {
    const drawn = QUAY.replace(/(name: L2, at: )([\d.]+)/, (_, head, at) => `${head}${Number(at) + 14}`);
    const [finding, ...others] = outOfTune(inKey(drawn, "C#5"));
    expect(others).toEqual([]);
    expect(finding?.message).toMatch(/^All 13 notes .* They differ by up to 7\d cents from that/);
  });

  it("leave the one that is off as well to a finding of its own, against the others", () => {
    const text = inKey(QUAY, "Bb4").replace(
      /(name: L2, at: )([\d.]+)/,
      (_, before, at) => `${before}${Number(at) + 5}`,
    );
    const [whole, single, ...others] = outOfTune(text);
    expect(others).toEqual([]);
    expect(whole?.path).toEqual(["key"]);
    expect(single).toMatchObject({ severity: "warning", path: ["holes", 1, "at"] });
    expect(single?.message).toMatch(
      / sounds \d+ cents flatter than the other notes\. Move L2 \d(\.\d)? mm toward the mouth/,
    );
  });

  it("are reported at the first note where the design states no key", () => {
    const text = QUAY.replace(/^key: .*\n/m, "").replace(
      /degree: (\d+)/g,
      (_, degree) => `note: ${SCALE[Number(degree) - 1]}`,
    );
    const [finding, ...others] = outOfTune(text);
    expect(others).toEqual([]);
    expect(finding?.message).toMatch(
      /^All 13 notes sound about (29|30)\d cents flat together\. The cause is its size, .* 0\.8[34]\d\)\.$/,
    );
    expect(text.slice(finding?.span.start, finding?.span.end)).toBe("Bb4");
  });

  it.each([
    ["a pan pipe", PIPES, /^All 8 notes .* not single pipes: print it at/],
    ["a vessel", VESSEL, /^All 7 notes .* not its holes: print it at/],
  ])("are told of %s", (_, text, message) => {
    const up = (note: string) =>
      note.replace(/^([A-G]#?)(\d)$/, (_all, name, octave) => `${name}${Number(octave) - 1}`);
    const lower = text
      .replace(/^key: (\S+)/m, (_all, key) => `key: ${up(key)}`)
      .replace(/note: (\w#?\d)/g, (_all, note) => `note: ${up(note)}`);
    expect(outOfTune(lower).map((finding) => finding.message)).toEqual([expect.stringMatching(message)]);
  });
});

describe("notes that are not", () => {
  it.each([
    [
      "off by less than half a semitone: the mouth may be what is not known",
      QUAY.replace("pitchStandard: 440", "").replace(/^key/m, "pitchStandard: 447\nkey"),
    ],
    [
      "off by different amounts",
      WHISTLE.replace(
        /at: (\d+\.\d), diameter: (\d)/g,
        (_, at, d) => `at: ${(Number(at) * 1.1).toFixed(1)}, diameter: ${d}`,
      ),
    ],
    [
      "two",
      `${inKey(WHISTLE, "D5").split("fingerings:")[0]}fingerings:\n  - { degree: 1, holes: ●●●●●● }\n  - { degree: 2, holes: ●●●●●○ }\n`,
    ],
  ])("%s are told hole by hole", (_, text) => {
    const found = outOfTune(text);
    expect(found.length).toBeGreaterThan(0);
    for (const { path, message } of found) {
      expect(["holes", "bore"]).toContain(path[0]);
      expect(message).not.toContain("together");
    }
  });
});

describe("the fixes of notes that are off together", async () => {
  const text = inKey(QUAY, "Bb4");
  const actions = await actionsOnKey(text);
  const chosenOnKey = (title: RegExp) => chosen(atCursor(marked(text, "key: ", 6)), title);
  const worst = (after: string) => checked(after).analysis.summary?.worstCents ?? Number.NaN;

  it.each([
    ["another print scale", /^Print it at 8\d\.\d+ %, so that the notes are in tune on the whole$/],
    ["a redraw", /^Redraw every dimension × 0\.8\d+, so that the notes are in tune on the whole$/],
    ["the key it has", /^Keep its size and call its key G4$/],
  ])("%s brings every note about as near as it was in its own key", async (_, title) => {
    const after = applied(text, (await chosenOnKey(title)).edit);
    expect(Math.abs(worst(after))).toBeLessThan(Math.abs(worst(QUAY)) + 5);
    expect(outOfTune(after).map(({ path }) => path[0])).not.toContain("key");
  });

  it("change no more than they say", async () => {
    expect(applied(text, (await chosenOnKey(/call its key/)).edit)).toBe(QUAY);
    const printed = applied(text, (await chosenOnKey(/^Print it/)).edit);
    expect(printed.replace(/scale: [\d.]+ %/, "scale: 100 %")).toBe(text);
  });

  it("do not move holes without the bore, which would have to go impossibly far", () => {
    expect(actions.map(({ title }) => title)).not.toContain("Bring every hole into tune, keep the bore");
    expect(actions.map(({ title }) => title)).toContain(
      "Bring every note into tune: holes, and the bore toward the foot",
    );
  });

  it("of a hole that is off as well correct it against the others", async () => {
    const moved = text.replace(/(name: L2, at: )([\d.]+)/, (_, before, at) => `${before}${Number(at) + 5}`);
    const { context, position } = atCursor(marked(moved, "name: L2", 3), { client: { resolvesCodeActions: true } });
    const own = await codeActions(context, { range: { start: position, end: position }, context: { diagnostics: [] } });
    const after = applied(
      moved,
      titled(own, /^Move L2 [\d.]+ mm toward the mouth, so that \w+#?\d is in tune with the others$/).edit,
    );
    expect(outOfTune(after).map(({ path }) => path)).toEqual([["key"]]);
  });
});

/** Of B flat major over two octaves. */
const SCALE = ["Bb4", "C5", "D5", "Eb5", "F5", "G5", "A5", "Bb5", "C6", "D6", "Eb6", "F6", "G6"];
