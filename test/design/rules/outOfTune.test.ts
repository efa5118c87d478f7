/** pitch/out-of-tune on columns whose notes are as far off as the test likes: which notes are told, where, beside which others, and how. */
import { describe, expect, it } from "vitest";
import { checkDocument } from "../../../server/src/design/check.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { vessel } from "../../support/families.js";
import { tube } from "../../support/marked.js";

function outOfTune(text: string) {
  const { findings, analysis } = checkDocument(documentOf(fileOf(text)));
  return {
    told: findings.filter(({ code }) => code === "pitch/out-of-tune"),
    cents: analysis.fingerings.map(({ cents = Number.NaN }) => cents),
  };
}
/** As messages round: whole cents from ten on. */
const inWords = (cents: number) => `${Math.abs(cents).toFixed(Math.abs(cents) < 9.95 ? 1 : 0)} cents`;

/** A pipe each for A4 that lies about so many cents off a length near right: a stopper's way is the pitch's. */
const pipes = (...off: readonly number[]) =>
  `borewright: 1\nfamily: panpipe\ntolerance: 10\nwall: 2\npipes:\n${off
    .map((cents) => `  - { note: A4, length: ${(186 * 2 ** (-cents / 1200)).toFixed(2)}, diameter: 12 }\n`)
    .join("")}`;

describe("of pipes that are off together", () => {
  const where = (...off: readonly number[]) => outOfTune(pipes(...off)).told.map(({ path }) => path.slice(0, 2).join());
  it("one that scatters is told besides, several are left to the finding for all", () => {
    expect(where(-200, -200, -200, -200, -200)).toEqual(["pipes,0"]);
    expect(where(-200, -200, -200, -200, -160)).toEqual(["pipes,0", "pipes,4"]);
    expect(where(-200, -200, -200, -200, -160, -240)).toEqual(["pipes,0"]);
    // As off from the others as is shared whatever all are off by: then each is told.
    expect(where(-200, -200, -200, -200, -185, -215)).toEqual(["pipes,0", "pipes,4", "pipes,5"]);
  });
  it("one that does not share it is told with any number of those that scatter", () => {
    expect(where(-200, -200, -200, -200, -200, -160, -240, 0)).toEqual(["pipes,0", "pipes,7"]);
    expect(where(-200, -200, -200, -200, -200, -160, 0)).toEqual(["pipes,0", "pipes,5", "pipes,6"]);
  });
  it("are told with the flattest and the sharpest, and how far the one lies from them, not from its note", () => {
    const { told, cents } = outOfTune(pipes(-200, -200, -200, -200, -160, -240, 0));
    const [whole, single] = told;
    const places = [5, 4].map((pipe) => ["pipes", pipe]);
    expect(whole?.related?.map(({ path }) => path)).toEqual(places);
    expect(whole?.related?.map(({ message }) => message.replace(/^.*: /, ""))).toEqual(
      [5, 4].map((pipe) => `${inWords(cents[pipe] ?? 0)} flat`),
    );
    expect(whole).toMatchObject({ severity: "error", data: { fingerings: [0, 1, 2, 3, 4, 5] } });
    const [median = 0, last = 0] = [cents[0], cents[6]];
    expect(single?.message).toMatch(
      new RegExp(
        `^A4 sounds ${inWords(last - median)} sharper than the other notes\\. Move the stopper [\\d.]+ mm away from the mouth\\.$`,
      ),
    );
    // What it sounds is told as it is.
    expect(single?.related?.map(({ message }) => message)).toEqual([
      expect.stringMatching(
        new RegExp(`^A4 should be 440\\.0 Hz, .*: ${inWords(last)} ${last < 0 ? "flat" : "sharp"}$`),
      ),
    ]);
    expect(single?.severity).toBe("error");
    expect(single?.data).toEqual({ beside: expect.closeTo(median, 9), fingerings: [6] });
  });
  it("are told one by one where they are two, or less than half a semitone off", () => {
    expect(where(-200, -200)).toEqual(["pipes,0", "pipes,1"]);
    expect(where(-40, -40, -40)).toEqual(["pipes,0", "pipes,1", "pipes,2"]);
  });
  it("each is told alone, an error beyond half a semitone", () => {
    const { told, cents } = outOfTune(pipes(-30, 0, 60));
    expect(cents.map((each) => Math.abs(each) > 50)).toEqual([false, false, true]);
    expect(told.map(({ severity, data }) => [severity, data])).toEqual([
      ["warning", { fingerings: [0] }],
      ["error", { fingerings: [2] }],
    ]);
  });
});

/** A textbook tube that sounds near G4 with everything closed, asked for several notes so. */
const column = (notes: string, more = "") =>
  tube(
    `tolerance: 20\nbore: [{ at: 0, diameter: 16 }, { at: 200, diameter: 16 }, { at: 431, diameter: 16 }]\nholes: [{ at: 330, diameter: 7 }]\nfingerings: [${notes}]\n${more}`,
  );

describe("of several notes that one length decides", () => {
  it("the worst is told, with those that are out as places, at the last station", () => {
    const { told, cents } = outOfTune(
      column("{ note: F#4, holes: ● }, { note: A4, holes: ● }, { note: G4, holes: ● }"),
    );
    const [first = 0, worst = 0] = cents;
    expect(told).toHaveLength(1);
    expect(told[0]).toMatchObject({ severity: "error", path: ["bore", 2, "at"], data: { fingerings: [1, 0, 2] } });
    expect(told[0]?.related?.map(({ path }) => path)).toEqual([1, 0].map((index) => ["fingerings", index]));
    // One lies on each side of its note.
    expect(told[0]?.message).toMatch(
      new RegExp(
        `^A4 sounds ${inWords(worst)} flat, closer to G4\\. A bore [\\d.]+ mm shorter puts it right\\. But F#4 is ${inWords(first)} sharp: the bore's length alone cannot put both right\\.$`,
      ),
    );
  });
  it("what putting it right costs the other is told where that goes out of tune", () => {
    const { told, cents } = outOfTune(column("{ note: A4, holes: ● }, { note: G4, holes: ● }"));
    const [worst = 0, other = 0] = cents;
    expect(told[0]?.message).toMatch(
      new RegExp(
        ` That leaves G4 about ${inWords(other - worst)} sharp; midway both are about ${inWords((other - worst) / 2)} off\\.$`,
      ),
    );
    // The octave of a textbook's tube is as far off as the note itself, within the tolerance.
    const [octave] = outOfTune(column("{ note: A4, holes: ● }, { note: A5, holes: ●, register: 2 }")).told;
    expect(octave?.message).toMatch(/puts it right\.$/);
  });
  it("one within the tolerance stands against no other", () => {
    // −2 cents or so: flat by less than the tolerance, while F#4 is a semitone sharp.
    const { told } = outOfTune(column("{ note: F#4, holes: ● }, { note: G4, holes: ● }"));
    expect(told[0]?.message).toMatch(/ longer puts it right\. That leaves G4 about /);
  });
  it("those that are off from notes that are off together stand against one another, and nothing else is their cost", () => {
    const together = "{ note: A4, holes: ● }, ".repeat(9);
    const beside = (notes: string) =>
      outOfTune(column(`${together}{ note: A4, holes: ○ }, ${notes}`)).told.at(-1)?.message;
    expect(beside("{ note: G#4, holes: ● }")).toMatch(
      /^G#4 sounds 100 cents sharper than the other notes\. A bore [\d.]+ mm longer puts it right\.$/,
    );
    expect(beside("{ note: B4, holes: ● }, { note: G#4, holes: ● }")).toMatch(
      /^B4 sounds 200 cents flatter than the other notes\. .* But G#4 is 100 cents sharper than the other notes: the bore's length alone cannot put both right\.$/,
    );
  });
  it("a length that is held is told instead, and no cost of what is not allowed", () => {
    const held = column("{ note: A4, holes: ● }", "").replace(
      "at: 431, diameter: 16",
      "at: 431, diameter: 16, fixed: true",
    );
    expect(outOfTune(held).told[0]?.message).toMatch(
      /^A4 sounds \d+ cents flat, closer to G4\. No single change is allowed: .*`fixed`.*\.$/,
    );
  });
  it("a hole's are told at its place, as its own", () => {
    const { told } = outOfTune(column("{ note: G4, holes: ● }, { note: C5, holes: ○ }, { note: A4, holes: ○ }"));
    expect(told.map(({ path, data }) => [path, data])).toEqual([[["holes", 0, "at"], { hole: 0, fingerings: [1, 2] }]]);
    expect(told[0]?.message).toMatch(/ But A4 is \d+ cents sharp: this hole alone cannot put both right\.$/);
  });
  it("a vessel's size decides likewise, and is told by its name", () => {
    const sized = (shape: string, notes: string) =>
      outOfTune(vessel(`holes: []\nfingerings: [${notes}]`, shape)).told.map(({ path, message }) => [path, message]);
    expect(sized("volume: 200", "{ note: C4, holes: '' }, { note: E4, holes: '' }")).toEqual([
      [
        ["vessel", "volume"],
        expect.stringMatching(
          /^E4 sounds \d+ cents flat, closer to C#4\. Make the volume [\d.]+ cm³\. But C4 is \d+ cents sharp: the size of the vessel alone cannot put both right\.$/,
        ),
      ],
    ]);
    expect(sized("shape: sphere, diameter: 60", "{ note: C4, holes: '' }")).toEqual([
      [["vessel", "diameter"], expect.stringMatching(/ Make the chamber [\d.]+ mm in diameter\.$/)],
    ]);
  });
});

it("a note that no size of its hole corrects is told so, by the kind of body", () => {
  const small = vessel(
    "holes: [{ diameter: 6, angle: 90 }]\nfingerings: [{ note: E4, holes: ● }, { note: C4, holes: ○ }]",
    "shape: ellipsoid, length: 90, width: 60, height: 45",
  );
  expect(outOfTune(small).told.map(({ message }) => message)).toContainEqual(
    expect.stringMatching(/ No size of hole 1 alone puts it right: look at the other open holes, and at the mouth\.$/),
  );
});
