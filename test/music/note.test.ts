import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  degreeOfNote,
  HIGHEST_MIDI,
  LOWEST_MIDI,
  noteFromMidi,
  noteOfDegree,
  parseNote,
  transposed,
} from "../../server/src/music/note.js";

const note = (text: string) => {
  const found = parseNote(text);
  if (found === undefined) throw new Error(`no note: ${text}`);
  return found;
};

describe("notes in scientific pitch notation", () => {
  // The MIDI 1.0 specification numbers middle C (C4) 60 and A4 69.
  it.each([
    ["C4", 60],
    ["A4", 69],
    ["Bb3", 58],
    ["F#5", 78],
    ["a4", 69],
    ["b♭3", 58],
    ["F♯5", 78],
    ["B#3", 60],
    ["Cb4", 59],
    ["C0", 12],
    [" G4 ", 67],
    ["F##4", 67],
    ["Abb4", 67],
    ["G9", 127],
  ])("reads %s", (text, midi) => {
    expect(note(text).midi).toBe(midi);
  });

  it.each(["", "H4", "G", "4G", "G44", "G4x", "C-1", "G#b4", "G 4", "do", "G#9", "C10", "xG4", "G###4", "Gbbb4"])(
    "refuses %j",
    (text) => {
      expect(parseNote(text)).toBeUndefined();
    },
  );

  it("reads back the name of every note", () => {
    fc.assert(
      fc.property(fc.integer({ min: LOWEST_MIDI, max: HIGHEST_MIDI }), (midi) => {
        const named = noteFromMidi(midi);
        expect(named?.midi).toBe(midi);
        expect(parseNote(named?.name ?? "")).toEqual(named);
      }),
    );
  });
});

describe("degrees of a key", () => {
  // Common practice, no source: the major scale of G has F sharp, that of E flat has A flat.
  it.each([
    ["G4", 1, "G4"],
    ["G4", 7, "F#5"],
    ["G4", 8, "G5"],
    ["G4", 9, "A5"],
    ["Eb4", 4, "Ab4"],
    ["Bb3", 3, "D4"],
    ["G4", "b7", "F5"],
    ["C4", "#4", "F#4"],
    ["F4", "15", "F6"],
  ])("in %s, degree %s is %s", (key, degree, name) => {
    expect(noteOfDegree(note(key), degree)?.name).toBe(name);
  });

  // In C the letters are the degrees, so that each degree keeps its letter however it is altered.
  it.each(
    [..."CDEFGAB"].flatMap((letter, i) => ["", "#", "b"].map((sign) => [`${sign}${i + 1}`, `${letter}${sign}4`])),
  )("in C4, degree %s is %s", (degree, name) => {
    expect(noteOfDegree(note("C4"), degree)?.name).toBe(name);
  });

  it.each([
    [" 5 ", "G4"],
    ["b10", "Eb5"],
    ["#14", "B#5"],
    ["16", "D6"],
  ])("reads %j as %s above C4", (degree, name) => {
    expect(noteOfDegree(note("C4"), degree)?.name).toBe(name);
  });

  it("do not exist beyond the range of notes", () => {
    expect(noteOfDegree(note("C9"), "6")).toBeUndefined();
    expect(noteOfDegree(note("G9"), "2")).toBeUndefined();
  });

  it("are given for every note from the key up, lowered rather than raised", () => {
    const degrees = "1 b2 2 b3 3 4 b5 5 b6 6 b7 7 8 b9 9 b10 10 11 b12 12 b13 13 b14 14 15".split(" ");
    const key = note("Eb4");
    const told = degrees.map((_, semitones) => degreeOfNote(key, noteFromMidi(key.midi + semitones) ?? key));
    expect(told).toEqual(degrees);
    for (const degree of degrees) expect(degreeOfNote(key, noteOfDegree(key, degree) ?? key)).toBe(degree);
    for (const below of ["D4", "C4", "Eb3"]) expect(degreeOfNote(key, note(below))).toBeUndefined();
  });

  it.each([0, -1, "x", "", 1.5, "##4", "100", "x4", "4x"])("refuses degree %j", (degree) => {
    expect(noteOfDegree(note("G4"), degree)).toBeUndefined();
  });
});

describe("moving a note with its key", () => {
  it("keeps the interval and the spelling", () => {
    expect(transposed(note("F#4"), note("G4"), note("F4"))?.name).toBe("E4");
    expect(transposed(note("B4"), note("G4"), note("Eb4"))?.name).toBe("G4");
    expect(transposed(note("C5"), note("G4"), note("A4"))?.name).toBe("D5");
    // The leading note of E, which is usually written Eb by itself.
    expect(transposed(note("G#4"), note("A4"), note("E4"))?.name).toBe("D#4");
  });

  it("avoids double accidentals", () => {
    expect(transposed(note("G#4"), note("C4"), note("C#4"))?.name).toBe("A4");
  });

  it("moves by as many semitones as the key, however the three are spelled", () => {
    // B sharp is the C above: a library that goes by letters alone would put it an octave off.
    expect(transposed(note("C4"), note("C5"), note("B#4"))?.name).toBe("C4");
    const letters = fc.constantFrom(...["C", "D", "E", "F", "G", "A", "B"]);
    const signs = fc.constantFrom("", "#", "b", "##", "bb");
    const spelled = fc.tuple(letters, signs, fc.constantFrom(4, 5)).map((parts) => note(parts.join("")));
    fc.assert(
      fc.property(spelled, spelled, spelled, (x, from, to) => {
        expect(transposed(x, from, to)?.midi).toBe(x.midi + to.midi - from.midi);
      }),
    );
  });

  it("is undefined beyond the range of notes", () => {
    expect(transposed(note("G9"), note("C4"), note("D4"))).toBeUndefined();
    expect(transposed(note("C0"), note("D4"), note("C4"))).toBeUndefined();
  });

  it("is undone by moving back", () => {
    const any = fc.integer({ min: 48, max: 84 });
    fc.assert(
      fc.property(any, any, any, (a, b, c) => {
        const [x, from, to] = [a, b, c].map((midi) => noteFromMidi(midi) ?? note("A4")) as [never, never, never];
        const there = transposed(x, from, to);
        if (there === undefined) return;
        expect(transposed(there, to, from)?.midi).toBe(a);
      }),
    );
  });
});
