/** `borewright fingerings FILE`: for each note, the fingerings that come closest. */
import { type Command, InvalidArgumentError } from "commander";
import { drained } from "../acoustics/steps.js";
import { findFingerings, type NoteFingerings } from "../design/fingerings/find.js";
import { chromaticNotes } from "../design/fingerings/notes.js";
import type { Analysis } from "../design/predict/analysis.js";
import { signedCents } from "../design/wording.js";
import { jsonText } from "../escape/json.js";
import { spaced, table } from "../escape/table.js";
import { type Note, parseNote } from "../music/note.js";
import { UnusableInput } from "./exitStatus.js";
import { readDesignFile } from "./files.js";
import { type AirOptions, number, settingsFrom, withAir } from "./options.js";
import { print, printData } from "./output.js";
import { analyseFile } from "./pitch.js";

const CHROMATIC = "chromatic";

interface FingeringsOptions extends AirOptions {
  readonly notes: readonly Note[] | typeof CHROMATIC;
  readonly most: number;
  readonly halfHoles: boolean;
  readonly json?: true;
}

export function fingeringsCommand(root: Command): void {
  withAir(root.command("fingerings").description("find the fingerings that come closest to each note"))
    .argument("<file>", "design file")
    .option(
      "--notes <notes>",
      "chromatic, from the lowest note to the highest, or notes such as A4,Bb4",
      wanted,
      CHROMATIC,
    )
    .option("--most <number>", "how many for each note", atLeastOne, 2)
    .option("--no-half-holes", "open and closed holes only")
    .option("--json", "print data instead of a table")
    .action((file: string, options: FingeringsOptions) => {
      const found = analyseFile(readDesignFile(file), settingsFrom(options)).map((analysis) => ({
        analysis,
        notes: foundIn(file, analysis, options),
      }));
      if (options.json) printData(jsonText(found.map(({ analysis, notes }) => report(file, analysis, notes))));
      else print(spaced(found.map(({ analysis, notes }) => chart(file, analysis, notes))));
    });
}

/** @throws UnusableInput */
function foundIn(
  file: string,
  analysis: Analysis,
  { notes, ...options }: FingeringsOptions,
): readonly NoteFingerings[] {
  const asked = notes === CHROMATIC ? chromaticNotes(analysis.instrument) : notes;
  if (asked.length === 0)
    throw new UnusableInput(file, "has neither fingerings nor a key: say which --notes to look for");
  if (analysis.refusal !== undefined) throw new UnusableInput(file, `makes no instrument: ${analysis.refusal}`);
  const found = drained(findFingerings(analysis, asked, options));
  if (found === undefined) throw new UnusableInput(file, "pan pipes have no fingerings");
  return found;
}

function chart(
  file: string,
  { instrument, temperature }: Analysis,
  notes: readonly NoteFingerings[],
): readonly string[] {
  const rows = notes.flatMap(({ note, fingerings }) =>
    fingerings.length === 0
      ? [[note.name, "", "", "", "", "", "none is within half a semitone"]]
      : fingerings.map(({ pattern, register, cents, strength, moves, isInDesign }, i) => [
          i === 0 ? note.name : "",
          pattern,
          String(register),
          signedCents(cents),
          strength.toFixed(0),
          String(moves),
          isInDesign ? "as in the design" : "",
        ]),
  );
  return [
    [instrument.name ?? file, instrument.key && `in ${instrument.key.name}`, `air ${temperature} °C`]
      .filter(Boolean)
      .join(" · "),
    ...table(
      ["note", "holes", "register", "cents", "dB", "moves", ""],
      ["left", "left", "right", "right", "right", "right", "left"],
      rows,
    ),
    "dB: how deep the resonance is, from 18 on a usual note. moves: fingers that move from the note beside it.",
  ];
}

function report(file: string, { instrument }: Analysis, notes: readonly NoteFingerings[]) {
  return {
    file,
    name: instrument.name ?? null,
    notes: notes.map(({ note, targetHz, fingerings }) => ({
      note: note.name,
      targetHz,
      fingerings: fingerings.map(({ pattern, covers: _, ...rest }) => ({ holes: pattern, ...rest })),
    })),
  };
}

/** @throws InvalidArgumentError */
function wanted(text: string): FingeringsOptions["notes"] {
  if (text.trim() === CHROMATIC) return CHROMATIC;
  return text.split(",").map((name) => {
    const note = parseNote(name);
    if (note === undefined)
      throw new InvalidArgumentError(`${name.trim()} is not a note: write ${CHROMATIC}, or notes such as A4,Bb4.`);
    return note;
  });
}

/** @throws InvalidArgumentError */
function atLeastOne(text: string): number {
  const value = number(text);
  if (!Number.isInteger(value) || value < 1) throw new InvalidArgumentError("write a whole number, 1 or more.");
  return value;
}
