/** A design as it would be in another key or at another print scale, resolved without changing its text. */
import type { Steps } from "../../acoustics/steps.js";
import { instrumentSteps, resolutionSteps } from "../../instrument/check.js";
import type { Instrument, Resolution } from "../../instrument/model.js";
import { type NotesMeant, notesMeant } from "../../instrument/notesMeant.js";
import { isMap, own } from "../../instrument/path.js";
import { type Note, transposed } from "../../music/note.js";

export interface Otherwise {
  /** Absolute notes move along; degrees follow by themselves. A design without a key has the lowest of its notes for one. */
  readonly key?: Note | undefined;
  /** Of the drawing. */
  readonly printPercent?: number;
}

/** What rekeying by print scale would write, resolved: the same numbers give the same prediction to the last digit. */
export function asIfSteps(resolution: Resolution, otherwise: Otherwise): Steps<Resolution> {
  return resolutionSteps(dataAsIf(resolution, otherwise));
}

/** Only its instrument, without findings: a fraction of the work. */
export function instrumentAsIfSteps(resolution: Resolution, otherwise: Otherwise): Steps<Instrument> {
  return instrumentSteps(dataAsIf(resolution, otherwise));
}

/** Its targets in another key; a key changes nothing else. */
export function notesAsIf(resolution: Resolution, key: Note | undefined): NotesMeant {
  return notesMeant(dataAsIf(resolution, { key }), resolution.draft);
}

function dataAsIf({ draft, instrument }: Resolution, { key, printPercent }: Otherwise): Record<string, unknown> {
  const data = isMap(draft.data) ? draft.data : {};
  const print = own(data, "print");
  return {
    ...data,
    ...(key === undefined ? {} : inKey(data, instrument, key)),
    ...(printPercent === undefined ? {} : { print: { ...(isMap(print) ? print : {}), scale: printPercent } }),
  };
}

/** The design's key, or the lowest of its notes where it states none; undefined where there is none at all. */
export function keyOf({ key, fingerings }: Instrument): Note | undefined {
  const [lowest] = fingerings.flatMap(({ target }) => target ?? []).sort((a, b) => a.midi - b.midi);
  return key ?? lowest;
}

function inKey(data: Readonly<Record<string, unknown>>, instrument: Instrument, to: Note): Record<string, unknown> {
  const from = keyOf(instrument);
  if (from === undefined || from.name === to.name) return {};
  const lists = new Map<string, unknown[]>();
  for (const { path, target, targetKind } of instrument.fingerings) {
    const [list, index] = path;
    const note = targetKind === "note" && target !== undefined ? transposed(target, from, to) : undefined;
    if (typeof list !== "string" || typeof index !== "number" || note === undefined) continue;
    const items = lists.get(list) ?? [...((own(data, list) as readonly unknown[] | undefined) ?? [])];
    items[index] = { ...(items[index] as object), note: note.name };
    lists.set(list, items);
  }
  return { ...Object.fromEntries(lists), ...(instrument.key === undefined ? {} : { key: to.name }) };
}
