/** What `Rekey to…` says of a note while it is typed. */
import { describe, expect, it, vi } from "vitest";
import { HIGHEST_MIDI, LOWEST_MIDI, noteFromMidi, parseNote } from "../../server/src/music/note.js";

vi.mock("vscode", () => import("../support/vscodeWords.js"));

const { noteProblem } = await import("../../client/src/noteInput.js");

describe("noteProblem", () => {
  it("accepts every note that the server accepts, written its way", () => {
    for (let midi = LOWEST_MIDI; midi <= HIGHEST_MIDI; midi++) {
      const { name } = noteFromMidi(midi) ?? { name: `the note ${midi}` };
      expect({ name, problem: noteProblem(name) }).toEqual({ name, problem: undefined });
    }
  });

  it.each(["a4", " Bb3 ", "F♯5", "E♭4", "F##4"])("accepts %j, and so does the server", (text) => {
    expect(noteProblem(text)).toBeUndefined();
    expect(parseNote(text)).toBeDefined();
  });

  it.each([
    ["", /octave/],
    ["A", /example A4/],
    ["bb", /example bb4/],
    ["H4", /not a note/],
    ["440", /not a note/],
  ])("says what is wrong with %j", (text, message) => {
    expect(noteProblem(text)).toMatch(message);
    expect(parseNote(text)).toBeUndefined();
  });
});
