/** What a change on offer does to the rest of a design: which numbers follow it, and which limits it breaks. */
import { describe, expect, it } from "vitest";
import { breaksMore, newlyBroken } from "../../../server/src/design/fix/breaksMore.js";
import { checkedFix } from "../../../server/src/design/fix/checkedFix.js";
import { printedFix, renamedFix } from "../../../server/src/design/fix/togetherFixes.js";
import { applyEdits, setNumber } from "../../../server/src/document/edits.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";

describe("a change that others follow", () => {
  /** A fix of the first hole's width, on which so many others depend. */
  const title = (followers: number) => {
    const names = ["L2", "L3", "R1", "R2", "R3"].slice(0, followers);
    const text = names.reduce(
      (all, name) => all.replace(new RegExp(`(name: ${name}, at: [\\d.]+, diameter: )[\\d.]+`), "$1=own"),
      WHISTLE.replace("parameters: {", "parameters: { own: 7,").replace(
        "at: 173.3, diameter: 7",
        "at: 173.3, diameter: =own",
      ),
    );
    const file = fileOf(text);
    const document = documentOf(file);
    const edits = setNumber(document, ["parameters", "own"], 7.5, 1);
    return checkedFix(file, document, { title: "Open it", edits })?.title;
  };
  it("says which, three of them by name", () => {
    expect(title(0)).toBe("Open it (moves `diameter` of L1 along)");
    expect(title(2)).toBe("Open it (moves `diameter` of L1, `diameter` of L2, `diameter` of L3 along)");
    expect(title(5)).toBe("Open it (moves `diameter` of L1, `diameter` of L2, `diameter` of L3 and 3 more along)");
  });
  it("is not offered where nothing changes, nor where it does something else", () => {
    const file = fileOf(WHISTLE);
    const document = documentOf(file);
    expect(checkedFix(file, document, { title: "Nothing", edits: [] })).toBeUndefined();
    const [edit] = setNumber(document, ["holes", 0, "at"], 180, 1);
    if (edit === undefined) throw new Error("no edit");
    expect(checkedFix(file, document, { title: "Move", edits: [edit] })).toEqual({ title: "Move", edits: [edit] });
    expect(checkedFix(file, document, { title: "Break", edits: [{ ...edit, text: "[" }] })).toBeUndefined();
  });
});

describe("a change that breaks a limit", () => {
  const near = (at: number, more = "") => documentOf(fileOf(WHISTLE.replace("at: 210.3", `at: ${at}`) + more));
  it("is told apart from one that leaves it broken", () => {
    const [good, bad, worse] = [near(210.3), near(181.5), near(181.4)];
    expect(newlyBroken(good, bad)?.path.join(".")).toMatch(/^holes\.[01]\./);
    expect([breaksMore(good, bad), breaksMore(bad, worse), breaksMore(bad, good)]).toEqual([true, false, false]);
    // One more of the same kind at another place.
    const also = (from: string, to: string) => documentOf(fileOf(bad.text.replace(from, to)));
    expect(newlyBroken(bad, also("at: 321.4", "at: 297.5"))?.path.slice(0, 2)).toEqual(["holes", 5]);
  });
  it("counts as the design grades its rules", () => {
    const code = newlyBroken(near(210.3), near(181.5))?.code;
    const graded = (level: string) => `rules: { ${code}: ${level} }\n`;
    expect(breaksMore(near(210.3, graded("off")), near(181.5, graded("off")))).toBe(false);
    expect(breaksMore(near(210.3, graded("information")), near(181.5, graded("information")))).toBe(false);
    expect(breaksMore(near(210.3, graded("error")), near(181.5, graded("error")))).toBe(true);
  });
});

describe("notes that are off together", () => {
  it("are printed at another scale, from the stated one", () => {
    const text = `${WHISTLE}print: { scale: 90 % }\n`;
    const { title, edits } = printedFix(documentOf(fileOf(text)), { factor: 1.1 });
    expect(title).toBe("Print it at 99 %, so that the notes are in tune on the whole");
    expect(applyEdits(text, edits)).toBe(text.replace("90 %", "99 %"));
  });
  it("keep their size and have their key called what it is, where that can be written", () => {
    const document = documentOf(fileOf(WHISTLE));
    const fix = renamedFix(document, { factor: 1, key: "A4" });
    expect(fix?.title).toBe("Keep its size and call its key A4");
    const after = applyEdits(WHISTLE, fix?.edits ?? []);
    expect(after).toBe(WHISTLE.replace("key: G4", "key: A4").replace("note: D5", "note: E5"));
    expect(renamedFix(document, { factor: 1 })).toBeUndefined();
    expect(renamedFix(document, { factor: 1, key: "no" })).toBeUndefined();
    expect(renamedFix(documentOf(fileOf(WHISTLE.replace("key: G4\n", ""))), { factor: 1, key: "A4" })).toBeUndefined();
  });
});
