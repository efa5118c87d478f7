/** Notes in scientific pitch notation: C4 is middle C, A4 the pitch standard's note (ISO 16). */
import { distance, get, transpose } from "@tonaljs/note";

export interface Note {
  /** Letter, accidentals and octave: `G4`, `Bb3`, `F#5`. */
  readonly name: string;
  /** Semitones of equal temperament above C−1; A4 is 69 (the numbering of the MIDI standard). */
  readonly midi: number;
  /** Letter and accidentals without the octave. */
  readonly pitchClass: string;
}

/** The lowest and highest note the product takes: below and above, no wind instrument plays. */
export const LOWEST_MIDI = 12; // C0
export const HIGHEST_MIDI = 127; // G9, the top of that numbering

/** The range of notes in words. */
export function rangeOfNotes(): readonly [lowest: string, highest: string] {
  return [nameOf(LOWEST_MIDI), nameOf(HIGHEST_MIDI)];
}

const nameOf = (midi: number) => noteFromMidi(midi)?.name ?? "";

/** Reads `G4`, `bb3`, `F♯5`; undefined for anything else, a note without an octave included. */
export function parseNote(text: string): Note | undefined {
  const plain = text
    .trim()
    .replaceAll("♯", "#")
    .replaceAll("♭", "b")
    .replace(/^[a-g]/, (letter) => letter.toUpperCase());
  if (!/^[A-G](#{0,2}|b{0,2})\d$/.test(plain)) return undefined;
  return fromName(plain);
}

/** The note of a semitone number, spelled as makers usually write it; undefined outside the range of notes. */
export function noteFromMidi(midi: number): Note | undefined {
  const name = USUAL_NAMES[((midi % 12) + 12) % 12];
  return name === undefined ? undefined : fromName(`${name}${Math.floor(midi / 12) - 1}`);
}

/**
 * The note of a scale degree above `key`: 1 is the key's own note, 8 its octave; `b7` and `#4` lower and raise by a
 * semitone; degrees count the major scale, whatever the key. Undefined where `degree` cannot be read.
 */
export function noteOfDegree(key: Note, degree: string | number): Note | undefined {
  const match = /^([#b]?)([1-9]\d?)$/.exec(String(degree).trim());
  if (match === null) return undefined;
  const number = Number(match[2]);
  const step = (number - 1) % 7;
  const interval = DEGREE_INTERVALS[step]?.[match[1] as "" | "#" | "b"];
  if (interval === undefined) return undefined;
  const octaves = Math.floor((number - 1) / 7);
  const note = fromName(transpose(key.name, interval));
  return note === undefined ? undefined : fromName(`${note.pitchClass}${octaveOf(note) + octaves}`);
}

/** The degree of a note above `key`, a lowered one where it is not in the major scale; undefined below the key. */
export function degreeOfNote(key: Note, note: Note): string | undefined {
  const semitones = note.midi - key.midi;
  const name = DEGREE_NAMES[semitones % 12];
  if (semitones < 0 || name === undefined) return undefined;
  const flat = name.startsWith("b") ? "b" : "";
  return `${flat}${Number(name.slice(flat.length)) + 7 * Math.floor(semitones / 12)}`;
}

/** Of the twelve semitones from the key up. */
const DEGREE_NAMES = ["1", "b2", "2", "b3", "3", "4", "b5", "5", "b6", "6", "b7", "7"];

/**
 * The note as far above `to` as `note` is above `from`: how an absolute note moves when the key does. Spelled by the
 * interval (F♯4 in G becomes E4 in F), plainly where that would need double accidentals. Undefined outside the range.
 */
export function transposed(note: Note, from: Note, to: Note): Note | undefined {
  const spelled = fromName(transpose(note.name, distance(from.name, to.name)));
  const midi = note.midi + to.midi - from.midi;
  return spelled !== undefined && spelled.midi === midi && spelled.pitchClass.length <= 2
    ? spelled
    : noteFromMidi(midi);
}

function octaveOf(note: Note): number {
  return Number(note.name.slice(note.pitchClass.length));
}

function fromName(name: string): Note | undefined {
  const note = get(name);
  if (note.empty || note.midi === null || note.midi < LOWEST_MIDI || note.midi > HIGHEST_MIDI) return undefined;
  return { name: note.name, midi: note.midi, pitchClass: note.pc };
}

/** How makers usually write the twelve notes. Common practice, no source. */
const USUAL_NAMES = ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"] as const;

/** Interval names (number and quality) from the key's note to each degree of the major scale, plain, raised, lowered. */
const DEGREE_INTERVALS: readonly { readonly "": string; readonly "#": string; readonly b: string }[] = [
  { "": "1P", "#": "1A", b: "1d" },
  { "": "2M", "#": "2A", b: "2m" },
  { "": "3M", "#": "3A", b: "3m" },
  { "": "4P", "#": "4A", b: "4d" },
  { "": "5P", "#": "5A", b: "5d" },
  { "": "6M", "#": "6A", b: "6m" },
  { "": "7M", "#": "7A", b: "7m" },
];
