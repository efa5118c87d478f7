/** Which of the heard notes are the player's: fragments of one note are joined; hum, echoes and blips are left out, with the reason. */
import { ratioOfCents } from "../music/cents.js";
import type { HeardNote } from "./listener.js";

export interface LeftOut {
  readonly note: HeardNote;
  readonly why: string;
}

export interface TidyNotes {
  readonly notes: readonly HeardNote[];
  readonly left: readonly LeftOut[];
}

/** Decibels below the louder notes at which it is not a note of the player's; at which hum is separated from a note. */
const FAR_QUIETER = 26;
const HUM_QUIETER = 10;
/** The louder notes: of those longer than this, seconds, the upper quartile. */
const LONG = 0.25;
const UPPER_QUARTILE = 0.75;
/** Hertz beside a harmonic of the mains up to the twelfth. */
const HUM_NEAR = 0.4;
const HUM_HARMONICS = 12;
/** Cents of scatter that no player stays below. */
const DEAD_STEADY = 1;
/** Pieces that touch within this many seconds and agree within this many cents were one note. */
const TOUCH = 0.03;
const AGREE = 15;
const SHORTEST = 0.2;

/** @param mains what hums in the recording, Hz */
export function tidy(heard: readonly HeardNote[], mains: number | undefined): TidyNotes {
  const left: LeftOut[] = [];
  const leave = (note: HeardNote, why: string) => left.push({ note, why });
  const onlyHum = heard.every((note) => mains !== undefined && isHum(note, [mains]) && note.scatter < DEAD_STEADY);
  const loud = loudLevel(heard);
  const players = [...heard]
    .sort((a, b) => a.start - b.start)
    .filter((note) => {
      const why =
        onlyHum || (isHum(note, [50, 60]) && note.level < loud - HUM_QUIETER)
          ? "mains hum"
          : note.level < loud - FAR_QUIETER
            ? "far quieter than the rest"
            : undefined;
      if (why !== undefined) leave(note, why);
      return why === undefined;
    });
  const notes = joined(players).filter((note) => {
    if (note.seconds < SHORTEST) leave(note, `shorter than ${SHORTEST} s`);
    return note.seconds >= SHORTEST;
  });
  return { notes, left };
}

function loudLevel(heard: readonly HeardNote[]): number {
  const long = heard.filter(({ seconds }) => seconds > LONG);
  const levels = (long.length > 0 ? long : heard).map(({ level }) => level).sort((a, b) => a - b);
  return levels[Math.floor(UPPER_QUARTILE * (levels.length - 1))] ?? 0;
}

function isHum({ cents }: HeardNote, mains: readonly number[]): boolean {
  const hz = 440 * ratioOfCents(cents);
  return mains.some((each) => {
    const harmonic = Math.round(hz / each);
    return harmonic <= HUM_HARMONICS && Math.abs(hz - harmonic * each) < HUM_NEAR;
  });
}

function joined(notes: readonly HeardNote[]): readonly HeardNote[] {
  const out: HeardNote[] = [];
  for (const note of notes) {
    const before = out.at(-1);
    const goesOn = before !== undefined && note.start - before.end < TOUCH && !note.tongued;
    if (goesOn && Math.abs(note.cents - before.cents) < AGREE) out[out.length - 1] = together(before, note);
    else out.push(note);
  }
  return out;
}

function together(a: HeardNote, b: HeardNote): HeardNote {
  const seconds = a.seconds + b.seconds;
  return {
    ...(b.seconds > a.seconds ? b : a),
    start: a.start,
    end: b.end,
    tongued: a.tongued,
    accompanied: a.accompanied || b.accompanied,
    seconds,
    cents: (a.cents * a.seconds + b.cents * b.seconds) / seconds,
    uncertainty: Math.hypot(a.uncertainty * a.seconds, b.uncertainty * b.seconds) / seconds,
  };
}
