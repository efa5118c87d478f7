/** Text in which `[[…]]` marks the place that a finding must have, and a small tube to write such text upon. */

import { expect } from "vitest";
import type { Column } from "../../server/src/acoustics/column.js";
import type { Syntax } from "../../server/src/document/designFile.js";
import type { Span } from "../../server/src/document/span.js";
import { sharedColumn } from "../../server/src/instrument/body.js";
import type { Instrument } from "../../server/src/instrument/model.js";
import { documentOf, fileOf } from "./designs.js";
import { expectToldWell } from "./toldWell.js";

/** A textbook tube without holes: nothing is wrong with it, and holes may be as near as they like. Every entry begins a line. */
const TUBE: Readonly<Record<string, string>> = {
  borewright: "borewright: 1",
  family: "family: duct",
  key: "key: G4",
  mouth: "mouth: ideal",
  bore: "bore:\n  - { at: 0, diameter: 16 }\n  - { at: 352, diameter: 16 }",
  wall: "wall: 3",
  hands: "hands: { spacing: 1 }",
};

/** The text of the tube, with the top-level entries of `changes` in place of its own or after them. */
export function tube(changes = ""): string {
  const entries = { ...TUBE };
  for (const block of changes.split(/^(?=(?:\[\[)?[\w-]+(?:\]\])?:)/m)) {
    const key = /^(?:\[\[)?([\w-]+)/.exec(block)?.[1];
    if (key !== undefined) entries[key] = block.trimEnd();
  }
  return `${Object.values(entries).join("\n")}\n`;
}

/** The text without one top-level entry. */
export function without(text: string, key: string): string {
  return text.replace(new RegExp(`^${key}:.*\\n(?:[ -].*\\n)*`, "m"), "");
}

export interface Marked {
  readonly text: string;
  readonly span: Span;
}

export function unmark(marked: string): Marked {
  const start = marked.indexOf("[[");
  // The last one: what is marked may itself end in brackets.
  const end = marked.lastIndexOf("]]");
  if (start < 0 || end < start) throw new Error("the text has no [[mark]]");
  const text = marked.slice(0, start) + marked.slice(start + 2, end) + marked.slice(end + 2);
  return { text, span: { start, end: end - 2 } };
}

/** Codes of all findings of all designs of a text. */
export function codesOf(text: string, syntax: Syntax = "yaml"): readonly string[] {
  return findingsOf(text, syntax).map(({ code }) => code);
}

/** All findings of all designs of a text, each of them told as findings must be. */
function findingsOf(text: string, syntax: Syntax) {
  const findings = fileOf(text, syntax).documents.flatMap((document) => document.findings);
  expectToldWell(findings);
  return findings;
}

/**
 * Holds a text to a finding of `code` at exactly its `[[mark]]`, with all of `says` in its message. Other findings may be
 * there too unless `alone`.
 */
export function expectFinding(
  marked: string,
  code: string,
  says: RegExp | string = "",
  { syntax = "yaml" as Syntax, alone = true } = {},
): void {
  const { text, span } = unmark(marked);
  const all = findingsOf(text, syntax);
  const findings = all.filter((finding) => finding.severity !== "hint" || finding.code === code);
  const told = findings.map((finding) => `${finding.code} on «${text.slice(finding.span.start, finding.span.end)}»`);
  const meant = findings.find((finding) => finding.code === code && finding.span.start === span.start);
  if (meant === undefined)
    expect.fail(`${code} on «${text.slice(span.start, span.end)}» is not among: ${told.join(", ")}`);
  expect(text.slice(meant.span.start, meant.span.end)).toBe(text.slice(span.start, span.end));
  expect(meant.message).toMatch(says);
  if (alone) expect(told).toHaveLength(1);
}

/** Checks that a text has nothing wrong with it; a hint is not a fault. */
export function expectNothing(text: string, syntax: Syntax = "yaml"): void {
  const told = findingsOf(text, syntax)
    .filter(({ severity }) => severity !== "hint")
    .map((f) => `${f.code}: ${f.message}`);
  expect(told).toEqual([]);
}

/** Holds a text to lacking one finding, whatever else there is. */
export function expectNot(text: string, code: string, syntax: Syntax = "yaml"): void {
  expect(codesOf(text, syntax)).not.toContain(code);
}

export function instrumentOf(text: string, syntax: Syntax = "yaml"): Instrument {
  return documentOf(fileOf(text, syntax)).resolution.instrument;
}

/** The air column of a text that has one. */
export function columnOf(text: string, syntax: Syntax = "yaml"): Column {
  const column = sharedColumn(instrumentOf(text, syntax).body);
  if (column === undefined) throw new Error(`no column: ${codesOf(text, syntax).join(", ")}`);
  return column;
}

/** The number at a dotted path, in the file's own unit: `holes.0.at`. */
export function numberAt(text: string, dotted: string, syntax: Syntax = "yaml"): number | undefined {
  const { numbers } = documentOf(fileOf(text, syntax)).resolution;
  return numbers.find(({ path }) => path.join(".") === dotted)?.value;
}
