/** The table of changes: every number that is another after a rekeying, from what to what, whoever wrote it. */
import { describe, expect, it } from "vitest";
import { rekeyJson, rekeySummary } from "../../../server/src/cli/rekey.js";
import { changesByEdit } from "../../../server/src/design/rekey/changes.js";
import { rekey } from "../../../server/src/design/rekey/rekey.js";
import { REKEY_METHODS } from "../../../server/src/design/rekey/rekeyResult.js";
import { pathKey } from "../../../server/src/instrument/path.js";
import { parseNote } from "../../../server/src/music/note.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";

const numbersOf = (text: string) =>
  new Map(documentOf(fileOf(text)).resolution.numbers.map(({ path, value }) => [pathKey(path), value]));

describe.each(REKEY_METHODS)("the table of changes by %s", (by) => {
  const key = parseNote("A4");
  if (key === undefined) throw new Error("A4");
  const file = fileOf(WHISTLE);
  const result = rekey(file, 0, key, by);

  it("has every number that differs, with both values, and no other", () => {
    const [before, after] = [numbersOf(WHISTLE), numbersOf(result.text)];
    const told = new Map(result.changes.map((change) => [pathKey(change.path), change]));
    for (const [path, value] of after) {
      if (before.get(path) === value) expect(told.has(path)).toBe(false);
      else expect(told.get(path)).toMatchObject({ next: value });
    }
    for (const { path, old } of result.changes) expect(before.get(pathKey(path))).toBe(old);
  });
  it("is given in text and in JSON, and beside the edits that a preview shows", () => {
    const json = JSON.parse(rekeyJson("x", result)) as { changes: { name: string; old: number; new: number }[] };
    expect(json.changes).toHaveLength(result.changes.length);
    const { made, followed } = changesByEdit(documentOf(file), result.edits, result.changes);
    expect([...made.flat(), ...followed]).toHaveLength(result.changes.length);
    const text = rekeySummary(result).join("\n");
    for (const line of [...made.flat(), ...followed]) expect(text).toContain(`  ${line}`);
  });
});

it("a print scale gives the widest hole by its diameter, before and after", () => {
  const key = parseNote("A4");
  if (key === undefined) throw new Error("A4");
  const { remarks, factor } = rekey(fileOf(WHISTLE), 0, key, "print-scale");
  const widest = 8.5;
  expect(remarks.join()).toContain(`widest hole 8.5 mm → ${Number((widest * factor).toFixed(1))} mm`);
});

it.each([".inf", "-.inf", ".nan"])("a value of %s that stays is no change", (value) => {
  const key = parseNote("A4");
  if (key === undefined) throw new Error("A4");
  const odd = WHISTLE.replace("humidity: 60", `humidity: ${value}`);
  expect(odd).not.toBe(WHISTLE);
  const { changes } = rekey(fileOf(odd), 0, key, "print-scale");
  expect(changes.map(({ name }) => name).join()).not.toContain("humidity");
  expect(changes).not.toEqual([]);
});
