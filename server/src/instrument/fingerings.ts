/** Reads the fingerings: which holes are closed, and which note is meant. */
import type { Cover } from "../acoustics/column.js";
import { type Note, noteOfDegree, rangeOfNotes } from "../music/note.js";
import { t } from "../words/translation.js";
import { breathOf } from "./breath.js";
import { DEFAULTS, HALF_COVER } from "./defaults.js";
import { holeData } from "./draft/read.js";
import type { Finding, Path } from "./finding.js";
import type { Fingering } from "./model.js";
import { readNote } from "./notes.js";
import type { Numbers } from "./numbers.js";
import { isMap, own } from "./path.js";

interface Sign {
  readonly drawn: string;
  readonly cover: Cover;
}

const CLOSED: Sign = { drawn: "●", cover: 1 };
const OPEN: Sign = { drawn: "○", cover: 0 };
const HALF: Sign = { drawn: "◐", cover: HALF_COVER };

/** What a maker may write for each hole. */
const SIGNS: ReadonlyMap<string, Sign> = new Map([
  ["●", CLOSED],
  ["x", CLOSED],
  ["X", CLOSED],
  ["○", OPEN],
  ["o", OPEN],
  ["O", OPEN],
  ["◐", HALF],
  ["/", HALF],
]);

/** A fingering as it is drawn, one sign a hole. */
export function drawnPattern(covers: readonly Cover[]): string {
  return covers.map((cover) => (cover === CLOSED.cover ? CLOSED : cover === OPEN.cover ? OPEN : HALF).drawn).join("");
}

/**
 * A drawn fingering in the signs and with the gaps of `sample`, another one as a maker wrote it; as drawn where the
 * sample does not show how.
 */
export function signsLike(sample: string, drawn: string): string {
  const rest = [...drawn];
  const letters = /[xXoO/]/.test(sample);
  const closed = /X/.test(sample) ? "X" : "x";
  const open = /O/.test(sample) ? "O" : "o";
  const inLetters: Readonly<Record<string, string>> = { [CLOSED.drawn]: closed, [OPEN.drawn]: open, [HALF.drawn]: "/" };
  const sign = (each: string) => (letters ? (inLetters[each] ?? each) : each);
  const signs = [...sample].filter((each) => SIGNS.has(each)).length;
  if (signs !== rest.length) return rest.map(sign).join("");
  return [...sample].map((each) => (SIGNS.has(each) ? sign(rest.shift() ?? "") : each)).join("");
}

/** Signs between holes that only order the picture: the gap between the hands. */
const SEPARATOR = /[\s|]/;

export interface FingeringReading {
  readonly fingerings: readonly Fingering[];
  readonly findings: readonly Finding[];
}

export function readFingerings(data: unknown, key: Note | undefined, numbers: Numbers): FingeringReading {
  const findings: Finding[] = [];
  const list = own(data, "fingerings");
  const holeCount = holeData(data).length;
  if (list === undefined && key !== undefined) return { fingerings: [everyHoleClosed(key, holeCount)], findings };
  const fingerings = (Array.isArray(list) ? list : []).flatMap((item, i): Fingering[] => {
    if (!isMap(item)) return [];
    const path = ["fingerings", i];
    const holes = readHoles(item, path, holeCount, findings, numbers);
    const target = readTarget(item, path, key, own(data, "key") !== undefined, findings);
    const register = numbers.at([...path, "register"]);
    const usable = register !== undefined && Number.isInteger(register) && register >= 1;
    return [{ path, ...holes, ...target, register: usable ? register : DEFAULTS.register, breath: 0 }];
  });
  return { fingerings: breathOf(fingerings, numbers), findings };
}

/** What a design without fingerings plays: its key. Its path is the key's. */
function everyHoleClosed(key: Note, holeCount: number): Fingering {
  return {
    path: ["key"],
    pattern: CLOSED.drawn.repeat(holeCount),
    covers: new Array<Cover>(holeCount).fill(CLOSED.cover),
    target: key,
    targetKind: "degree",
    register: DEFAULTS.register,
    breath: 0,
  };
}

function readTarget(
  item: unknown,
  path: Path,
  key: Note | undefined,
  keyWritten: boolean,
  findings: Finding[],
): Pick<Fingering, "target" | "targetKind"> {
  const degree = own(item, "degree");
  const note = own(item, "note");
  if (degree !== undefined && note !== undefined) {
    const message = t(
      "This fingering has both a degree and a note. Keep `degree` if it follows the key, `note` if it does not.",
    );
    findings.push({ code: "fingering/two-targets", severity: "warning", message, path: [...path, "note"], on: "key" });
  }
  if (note !== undefined) return { target: readNote(note, [...path, "note"], findings), targetKind: "note" };
  if (degree === undefined) {
    const message = t(
      "What should this fingering sound? Give it `degree: 1` (a step of the key's scale) or `note: G4`.",
    );
    findings.push({ code: "fingering/no-target", severity: "warning", message, path });
    return { target: undefined, targetKind: "note" };
  }
  const target =
    key && (typeof degree === "string" || typeof degree === "number") ? noteOfDegree(key, degree) : undefined;
  if (target === undefined && !keyWritten) {
    const message = t("A degree counts from the key, and the design has none. Add one, for example `key: G4`.");
    // One for the whole design: every other degree has the same cause.
    if (!findings.some(({ code }) => code === "key/missing")) {
      findings.push({ code: "key/missing", severity: "error", message, path: [...path, "degree"] });
    }
  } else if (target === undefined && key && /^\s*[#b]?[1-9]\d?\s*$/.test(String(degree))) {
    const [lowest, highest] = rangeOfNotes();
    const message = t`Degree ${degree} of ${key.name} is beyond what a wind instrument plays: notes go from ${lowest} to ${highest}.`;
    findings.push({ code: "note/out-of-range", severity: "error", message, path: [...path, "degree"] });
  }
  return { target, targetKind: "degree" };
}

/** Where each hole's sign begins in the text of a fingering; undefined where something in it is not a sign. */
export function signOffsets(written: string): readonly number[] | undefined {
  const offsets: number[] = [];
  let offset = 0;
  for (const character of written) {
    if (SIGNS.has(character)) offsets.push(offset);
    else if (!SEPARATOR.test(character)) return undefined;
    offset += character.length;
  }
  return offsets;
}

/** The fingering drawn in `holes`; both undefined, with a finding, where it cannot be read. */
export function readHoles(
  item: unknown,
  path: Path,
  holeCount: number,
  findings: Finding[],
  numbers: Numbers,
): Pick<Fingering, "pattern" | "covers"> {
  const written = own(item, "holes");
  const unread = { pattern: undefined, covers: undefined };
  const place = [...path, "holes"];
  if (written === undefined || written === null) {
    if (holeCount === 0) return { pattern: "", covers: footOf(item) };
    const message = t`Say which of the ${holeCount} holes are closed: \`holes: "${CLOSED.drawn.repeat(holeCount)}"\`.`;
    if (written === undefined) findings.push({ code: "fingering/hole-count", severity: "error", message, path: place });
    return unread;
  }
  if (typeof written !== "string") return unread;
  const signs: Sign[] = [];
  let offset = 0;
  for (const character of written) {
    const sign = SIGNS.get(character);
    if (sign) signs.push(sign);
    else if (!SEPARATOR.test(character)) {
      findings.push(unknownSign(character, place, [offset, offset + character.length]));
      return unread;
    }
    offset += character.length;
  }
  if (signs.length !== holeCount) {
    findings.push(wrongCount(signs.length, holeCount, place));
    return unread;
  }
  const half = numbers.at([...path, "halfCover"]) ?? HALF.cover;
  return {
    pattern: signs.map(({ drawn }) => drawn).join(""),
    covers: [...signs.map((sign) => (sign === HALF ? half : sign.cover)), ...footOf(item)],
  };
}

/** Whether the player stops the foot of a tube with this many holes. */
export function stopsFoot({ covers = [] }: Pick<Fingering, "covers">, holes: number): boolean {
  return covers.length > holes;
}

/** The cover of the foot, where the player stops it with hand, knee or finger. */
function footOf(item: unknown): readonly Cover[] {
  return own(item, "foot") === "stopped" ? [CLOSED.cover] : [];
}

function unknownSign(character: string, path: Path, within: readonly [number, number]): Finding {
  const help = /[0c]/i.test(character) ? t(" For an open hole write o, for a closed one x.") : "";
  const message = t`\`${character}\` is not a sign for a hole: closed is ● or x, open ○ or o, half closed ◐ or /.${help}`;
  return { code: "fingering/sign", severity: "error", message, path, within };
}

function wrongCount(signs: number, holes: number, path: Path): Finding {
  const difference = Math.abs(signs - holes);
  const what = signs < holes ? t`add ${difference}` : t`take ${difference} away`;
  const [has, wanted] = [signs === 1 ? t("1 sign") : t`${signs} signs`, holes === 1 ? t("1 hole") : t`${holes} holes`];
  const message = t`This fingering has ${has} for ${wanted}: ${what}, in the order the holes are listed.`;
  return { code: "fingering/hole-count", severity: "error", message, path, data: { signs, holes } };
}
