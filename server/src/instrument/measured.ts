/** Reads the notes measured on a printed instrument, to calibrate by. */
import { DEFAULTS } from "./defaults.js";
import { holeData } from "./draft.js";
import type { Finding } from "./finding.js";
import { readHoles } from "./fingerings.js";
import type { MeasuredNote } from "./model.js";
import { readNote } from "./notes.js";
import type { Numbers } from "./numbers.js";
import { isMap, own } from "./path.js";

/** Every entry that has a readable note and frequency, and findings for what cannot be read. */
export function readMeasured(
  data: unknown,
  numbers: Numbers,
): { readonly measured: readonly MeasuredNote[]; readonly findings: readonly Finding[] } {
  const findings: Finding[] = [];
  const list = own(data, "measured");
  const holeCount = holeData(data).length;
  const measured = (Array.isArray(list) ? list : []).flatMap((item, i): MeasuredNote[] => {
    if (!isMap(item)) return [];
    const path = ["measured", i];
    const note = readNote(own(item, "note"), [...path, "note"], findings);
    const hz = numbers.at([...path, "hz"]);
    const written = own(item, "holes") !== undefined;
    const covers = written ? readHoles(item, path, holeCount, findings).covers : undefined;
    if (note === undefined || hz === undefined || (written && covers === undefined)) return [];
    const uncertainty = numbers.at([...path, "uncertainty"]) ?? DEFAULTS.measuredUncertainty;
    return [{ path, note, hz, covers, uncertainty, temperature: numbers.at([...path, "temperature"]) }];
  });
  return { measured, findings };
}
