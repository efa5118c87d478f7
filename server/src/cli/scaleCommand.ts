/** The options of `borewright scale`. */
import { existsSync } from "node:fs";
import { type Command, InvalidArgumentError, Option } from "commander";
import { BODY_NAMES, type BodyName } from "../design/scale/bodies.js";
import { type Note, parseNote } from "../music/note.js";
import { UnusableInput } from "./exitStatus.js";
import { readDesignFile } from "./files.js";
import { type AirOptions, number, settingsFrom, withAir } from "./options.js";
import { print, printData } from "./output.js";
import { scaleFile, scaleJson, scaleTable } from "./scale.js";
import { undescribedJson, undescribedLines } from "./scaleUndescribed.js";

interface ScaleOptions extends AirOptions {
  readonly from?: Note;
  readonly to?: readonly Note[];
  readonly body?: BodyName;
  readonly instrument?: number;
  readonly json?: true;
}

/** Percent: beyond these, nothing is an instrument that anybody plays. */
const SMALLEST = 1;
const LARGEST = 1000;

export function scaleCommand(root: Command): void {
  withAir(
    root
      .command("scale")
      .description("show what it plays when printed at another size, and the sizes that land on a note"),
  )
    .argument("[what]", "a design file, or the note that an undescribed instrument sounds now")
    .argument("[percent...]", "sizes, like 125 or 110.5")
    .option("--from <note>", "the note it sounds now, like A4: by interval alone", noteOf)
    .option("--to <notes>", "the size of these notes, like F4 or F4,G4; with --from, or of a design", notesOf)
    .addOption(new Option("--body <kind>", "what sounds, if not air: by rule alone").choices(BODY_NAMES))
    .option("--instrument <number>", "which one, if the file holds several", number)
    .option("--json", "print data instead of text")
    .action(scale);
}

function scale(what: string | undefined, rest: readonly string[], options: ScaleOptions): void {
  const { body, json, instrument } = options;
  const file =
    options.from === undefined && body === undefined && what !== undefined && !isNote(what) ? what : undefined;
  if (file === undefined) {
    const first = what !== undefined && options.from === undefined ? parseNote(what) : undefined;
    const texts = what === undefined || first !== undefined ? rest : [what, ...rest];
    const from = options.from ?? first;
    const asked = { from, to: options.to ?? [], percents: texts.map(percentOf), body };
    if (asked.to.length === 0 && asked.percents.length === 0)
      throw new UnusableInput("scale", "needs a size or a note: `scale FILE 125`, `scale --from A4 --to F4`");
    if (asked.to.length > 0 && from === undefined)
      throw new UnusableInput("--to", "needs the note it sounds now: add --from A4");
    if (json) printData(undescribedJson(asked));
    else print(undescribedLines(asked));
    return;
  }
  if (/^[\d.]+ ?%?$/.test(file) && !existsSync(file))
    throw new UnusableInput(file, "is a size: say of what, as in `scale FILE 125` or `scale A4 125`");
  if (LIKE_A_NOTE.test(file) && !existsSync(file))
    throw new UnusableInput(file, "is neither a file nor a note: write a note with its octave, like G4, Bb3 or F#5");
  const scaled = scaleFile(
    readDesignFile(file),
    { percents: rest.map(percentOf), keys: options.to ?? [] },
    instrument,
    settingsFrom(options),
  );
  if (json) printData(scaleJson(scaled));
  else print(scaleTable(scaled));
}

/** A letter and an octave: nobody calls a file so. */
const LIKE_A_NOTE = /^[a-z][#b]?\d$/i;

/** A file called like a note is a file. */
function isNote(text: string): boolean {
  return parseNote(text) !== undefined && !existsSync(text);
}

/** @throws UnusableInput */
function percentOf(text: string): number {
  const percent = /^\s*\d+(\.\d+)?\s*%?\s*$/.test(text) ? Number.parseFloat(text) : Number.NaN;
  if (percent >= SMALLEST && percent <= LARGEST) return percent;
  throw new UnusableInput(text, `is not a size: write a percentage from ${SMALLEST} to ${LARGEST}, like 125`);
}

function noteOf(text: string): Note {
  const note = parseNote(text);
  if (note === undefined) throw new InvalidArgumentError("write a note with its octave, like G4, Bb3 or F#5.");
  return note;
}

function notesOf(text: string): readonly Note[] {
  return text.split(",").map(noteOf);
}
