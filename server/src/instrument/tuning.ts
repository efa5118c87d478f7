/** What a design should be in tune with: key, temperament, pitch standard. */
import { type Note, parseNote } from "../music/note.js";
import { rootFollowsKey, TEMPERAMENT_NAMES, type TemperamentName, temperamentCents } from "../music/temperament.js";
import type { Tuning } from "../music/tuning.js";
import { t } from "../words/translation.js";
import { DEFAULTS } from "./defaults.js";
import type { Finding, Path } from "./finding.js";
import { readNote } from "./notes.js";
import type { Numbers } from "./numbers.js";
import { own } from "./path.js";

export interface TuningReading {
  readonly key: Note | undefined;
  readonly tuning: Tuning;
  readonly temperament: string;
  readonly findings: readonly Finding[];
}

export function readTuning(data: unknown, numbers: Numbers): TuningReading {
  const findings: Finding[] = [];
  const key = readNote(own(data, "key"), ["key"], findings);
  const row = readRow(own(data, "temperament"), numbers, findings);
  const standard = numbers.at(["pitchStandard"]);
  const pitchStandard = standard !== undefined && standard > 0 ? standard : DEFAULTS.pitchStandard;
  const root = rootOf(own(data, "temperamentRoot"), row.name, key);
  return { key, tuning: { cents: row.cents, root, pitchStandard }, temperament: row.name, findings };
}

interface Row {
  readonly name: TemperamentName | "custom";
  readonly cents: readonly number[];
}

function readRow(value: unknown, numbers: Numbers, findings: Finding[]): Row {
  const equal = { name: DEFAULTS.temperament, cents: temperamentCents(DEFAULTS.temperament) };
  const name = TEMPERAMENT_NAMES.find((known) => known === value);
  if (name !== undefined) return { name, cents: temperamentCents(name) };
  if (!Array.isArray(value) || value.length !== 12) return equal;
  const cents = value.map((_, i) => numbers.at(["temperament", i]));
  for (const [i, number] of cents.entries()) {
    if (number !== undefined && Math.abs(number - 100 * i) >= 100)
      findings.push(strayCents(["temperament", i], number, i));
  }
  const known = cents.filter((number) => number !== undefined);
  return known.length === 12 && findings.every(({ path }) => path[0] !== "temperament")
    ? { name: "custom", cents: known }
    : equal;
}

function strayCents(path: Path, cents: number, step: number): Finding {
  const message = t`${cents} cents is more than a semitone away from the ${100 * step} of equal temperament. Each of the twelve is counted in cents above the root, not as a deviation: 0, about 100, about 200, ….`;
  return { code: "temperament/stray-cents", severity: "error", message, path };
}

/** Semitones above C on which the row starts. */
function rootOf(value: unknown, name: Row["name"], key: Note | undefined): number {
  const written = typeof value === "string" ? parseNote(`${value.trim()}4`) : undefined;
  const root = written ?? (name !== "custom" && rootFollowsKey(name) ? key : undefined);
  return root === undefined ? 0 : root.midi % 12;
}
