/** Reads the notes measured on a printed instrument, to calibrate by. */

import { ratioOfCents } from "../music/cents.js";
import type { Note } from "../music/note.js";
import { tunerZero } from "../music/tuning.js";
import { t } from "../words/translation.js";
import { DEFAULTS } from "./defaults.js";
import { holeData } from "./draft/read.js";
import type { Finding, Path } from "./finding.js";
import { readHoles } from "./fingerings.js";
import type { MeasuredNote } from "./model.js";
import { readNote } from "./notes.js";
import type { Numbers } from "./numbers.js";
import { isMap, own } from "./path.js";

export interface MeasuredReading {
  readonly measured: readonly MeasuredNote[];
  readonly findings: readonly Finding[];
}

/**
 * Every entry that is not set aside and has a readable note and pitch, and findings for what cannot be read.
 * @param pitchStandard Hz of A4, from which a tuner counts its cents
 */
export function readMeasured(data: unknown, numbers: Numbers, pitchStandard: number): MeasuredReading {
  const findings: Finding[] = [];
  const list = own(data, "measured");
  const holeCount = holeData(data).length;
  const measured = (Array.isArray(list) ? list : []).flatMap((item, i): MeasuredNote[] => {
    if (!isMap(item) || own(item, "setAside") === true) return [];
    const path = ["measured", i];
    const note = readNote(own(item, "note"), [...path, "note"], findings);
    const hz = hertzOf(item, path, note, { numbers, pitchStandard, findings });
    const written = own(item, "holes") !== undefined;
    const covers = written ? readHoles(item, path, holeCount, findings, numbers).covers : undefined;
    if (note === undefined || hz === undefined || (written && covers === undefined)) return [];
    const uncertainty = numbers.at([...path, "uncertainty"]) ?? DEFAULTS.measuredUncertainty;
    const [temperature, pressure] = [numbers.at([...path, "temperature"]), numbers.at([...path, "pressure"])];
    return [{ path, note, hz, covers, uncertainty, temperature, pressure }];
  });
  return { measured, findings };
}

interface Reading {
  readonly numbers: Numbers;
  readonly pitchStandard: number;
  readonly findings: Finding[];
}

/** The measured frequency, as it is or by a tuner's cents; undefined where neither can be used. */
function hertzOf(
  item: Readonly<Record<string, unknown>>,
  path: Path,
  note: Note | undefined,
  { numbers, pitchStandard, findings }: Reading,
): number | undefined {
  const [inHertz, inCents] = [own(item, "hz") !== undefined, own(item, "cents") !== undefined];
  if (!inHertz && !inCents) {
    const message = t("A measured note needs its pitch: `hz`, or `cents` as a tuner shows them.");
    findings.push({ code: "schema/missing-property", severity: "error", message, path: [...path, "hz"] });
    return undefined;
  }
  if (inHertz && inCents) {
    const message = t("`hz` and `cents` say the same thing twice: keep the one that was read, and remove the other.");
    findings.push({ code: "measured/pitch-twice", severity: "error", message, path: [...path, "cents"], on: "key" });
    return undefined;
  }
  if (inHertz) return numbers.at([...path, "hz"]);
  const cents = numbers.at([...path, "cents"]);
  return cents === undefined || note === undefined ? undefined : tunerZero(note, pitchStandard) * ratioOfCents(cents);
}
