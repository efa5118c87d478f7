/** Which fingering is which: by its name, by what it is meant to sound, by the holes it closes, then by its place in the list. */
import { own, valueAt } from "../../instrument/path.js";
import type { Version } from "../version.js";
import { completed, inBoth, type Keys, type Pair, pairByKeys } from "./pairs.js";

/** @param holes which hole is which: a pattern is compared by the holes that both designs have */
export function pairFingerings(old: Version, next: Version, holes: readonly Pair[]): readonly Pair[] {
  const kept = inBoth(holes);
  const oldKeys = keysOf(
    old,
    kept.map((pair) => pair.old),
  );
  const nextKeys = keysOf(
    next,
    kept.map((pair) => pair.next),
  );
  return completed(pairByKeys(oldKeys, nextKeys), oldKeys.length, nextKeys.length);
}

function keysOf({ analysis, data }: Version, holes: readonly number[]): readonly Keys[] {
  const { key, fingerings } = analysis.instrument;
  return fingerings.map(({ path, target, pattern, register }, index) => {
    const named = own(valueAt(data, path), "name");
    const name = typeof named === "string" ? named : undefined;
    // A degree and the note that it comes to are one thing, and a note that moved with the key is the same step of it.
    const step = target && key && `${target.midi - key.midi}`;
    const note = target && `${target.midi}`;
    const closed = signsOf(pattern, holes);
    const all = (...parts: readonly (string | number | undefined)[]) =>
      parts.some((part) => part === undefined) ? undefined : parts.join(" ");
    const unread = target === undefined || pattern === undefined;
    return [
      name,
      all(step, closed, register),
      all(step, register),
      all(note, closed, register),
      all(note, register),
      all(step, closed),
      all(closed, register),
      unread ? String(index) : undefined,
    ];
  });
}

/** The signs of some holes, in their order. Undefined where the pattern cannot be read, or none of its holes is among them. */
function signsOf(pattern: string | undefined, holes: readonly number[]): string | undefined {
  const signs = pattern === undefined ? undefined : [...pattern];
  if (signs === undefined || (signs.length > 0 && holes.length === 0)) return undefined;
  return `[${holes.map((hole) => signs[hole]).join("")}]`;
}

/** Whether the holes that both designs have are fingered differently. */
export function fingeredAnew(old: string | undefined, next: string | undefined, holes: readonly Pair[]): boolean {
  const kept = inBoth(holes);
  const [was, is] = [
    signsOf(
      old,
      kept.map((pair) => pair.old),
    ),
    signsOf(
      next,
      kept.map((pair) => pair.next),
    ),
  ];
  return was !== is;
}
