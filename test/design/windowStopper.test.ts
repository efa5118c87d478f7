/** `window.stopper`: the closed piece of bore between the plug and the window of a two-chamber flute, from the text to what the maker sees. */

import { describe, expect, it } from "vitest";
import type { MarkupContent } from "vscode-languageserver";
import { rekey } from "../../server/src/design/rekey/rekey.js";
import type { RekeyMethod } from "../../server/src/design/rekey/rekeyResult.js";
import { sharedColumn } from "../../server/src/instrument/body.js";
import { completion } from "../../server/src/language/completion/index.js";
import { hover } from "../../server/src/language/hover/index.js";
import { parseNote } from "../../server/src/music/note.js";
import { checked, fileOf, WHISTLE } from "../support/designs.js";
import { atCursor, marked } from "../support/language.js";
import { columnOf, expectFinding, expectNothing, tube } from "../support/marked.js";

const TUNED = WHISTLE.replace("at: 210.3", "at: 205.3");
const apart = (stopper: string, text = TUNED) => text.replace("cutUp: 4.5", `cutUp: 4.5, stopper: ${stopper}`);
const pitches = (text: string) => checked(text).analysis.fingerings.map(({ predictedHz = Number.NaN }) => predictedHz);
const hoverAt = (text: string, place: string, after = 0) => {
  const { context, position } = atCursor(marked(text, place, after));
  return (hover(context, position)?.contents as MarkupContent | undefined)?.value ?? "";
};
const rekeyed = (text: string, to: string, by: RekeyMethod) => {
  const note = parseNote(to);
  if (note === undefined) throw new Error(to);
  return rekey(fileOf(text), 0, note, by);
};

describe("the prediction", () => {
  it("with a plug at 0 is that of a whistle, to the last bit", () => {
    expect(pitches(apart("0"))).toEqual(pitches(TUNED));
  });

  it("is a little higher for low notes, and flatter the higher the note the farther the plug", () => {
    // As the finite elements have it, test/reference/fem-stub.json: the first register up by 10 cents at 4 mm, the octave narrower.
    const [flush, near, far] = [pitches(TUNED), pitches(apart("4")), pitches(apart("30"))];
    const octave = (hz: readonly number[]) => (hz.at(-1) ?? Number.NaN) / (hz[0] ?? Number.NaN);
    expect(near[0]).toBeGreaterThan(flush[0] ?? Number.NaN);
    expect(far.at(-1)).toBeLessThan(flush.at(-1) ?? Number.NaN);
    expect(octave(near)).toBeLessThan(octave(flush));
    expect(octave(far)).toBeLessThan(octave(near));
  });

  it("follows expressions, inches and the print scale", () => {
    expect(pitches(apart("=tube/4"))).toEqual(pitches(apart("4")));
    const stopper = (text: string) => {
      const { mouth } = columnOf(text);
      return mouth.kind === "window" ? mouth.stopper : undefined;
    };
    const plain = "mouth: { window: { width: 10, cutUp: 5, stopper: 5 } }\n";
    expect(stopper(tube(plain))).toBeCloseTo(0.005, 12);
    expect(stopper(tube(`${plain}print: { scale: 110 % }`))).toBeCloseTo(0.0055, 12);
    // An inch is 25.4 mm (international yard and pound agreement of 1959).
    expect(
      stopper(
        tube(`units: in\nwall: 0.12\nbore: [{ at: 0, diameter: 0.6 }, { at: 15, diameter: 0.6 }]
mouth: { window: { width: 0.4, cutUp: 0.2, stopper: 0.2 } }`),
      ),
    ).toBeCloseTo(0.00508, 12);
  });
});

describe("what the editor tells", () => {
  it("of the number: what it is, and how much a millimetre does", () => {
    const text = hoverAt(apart("12"), "stopper: 12", 9);
    expect(text).toMatch(/plug that closes the bore/);
    expect(text).toMatch(/1 mm farther out: .*−\d/);
    expect(hoverAt(apart("0"), "stopper: 0", 9)).toMatch(/1 mm farther out: .*\+\d/);
  });

  it("of the mouth: that a piece of bore is closed", () => {
    expect(hoverAt(apart("12"), "mouth:")).toContain("closed piece of bore");
    expect(hoverAt(TUNED, "mouth:")).not.toContain("closed piece of bore");
  });

  it("while typing: the name, with its unit, in a duct flute's window only", () => {
    const offered = (text: string) => {
      const { context, position } = atCursor(text);
      return completion(context, position).find(({ label }) => label === "stopper");
    };
    expect(offered("family: duct\nmouth:\n  window: { width: 9, | }")?.detail).toBe("mm");
    expect(offered("family: vessel\nmouth:\n  window: { width: 9, | }")).toBeUndefined();
  });
});

describe("findings", () => {
  const window = (stopper: string) => tube(`mouth: { window: { width: 9, cutUp: 4.5, stopper: ${stopper} } }`);

  it("mark a plug under the window, written or worked out", () => {
    expectFinding(window("[[-1]]"), "value/out-of-range");
    expectFinding(window('[["=1-2"]]'), "value/out-of-range");
    for (const bad of ["-1", '"=1-2"'])
      expect(sharedColumn(checked(window(bad)).analysis.instrument.body)).toBeUndefined();
  });

  it("mark a plug as far up as the foot is down", () => {
    expectFinding(window("[[400]]"), "mouth/stopper-too-far", "400 mm upstream of the window, as far as the foot");
    expectNothing(window("30"));
  });

  it("tell that a long closed piece was not checked", () => {
    const told = (stopper: string) =>
      checked(apart(stopper)).findings.filter(({ code }) => code === "model/out-of-range");
    // Half the bore's 16 mm, four times, is as far as the finite elements go (test/reference/fem-stub.json).
    expect(told("31")).toEqual([]);
    expect(told("33").map(({ message }) => message)).toEqual([
      "The closed space behind the window is 4.1 bore radii long; the prediction was checked up to 4. How far off the notes are is not known.",
    ]);
    const [finding] = told("33");
    expect(apart("33").slice(finding?.span.start, finding?.span.end)).toBe("33");
  });

  it("mark a stopper that stands beside the window, where an embouchure hole has its own", () => {
    expectFinding(
      tube("mouth: { window: { width: 9, cutUp: 4.5 }, [[stopper]]: 4 }"),
      "mouth/kind",
      "written inside, counted from the window's upstream end",
    );
  });

  it("count it into the length on the printer's bed, unless windway and chamber reach farther", () => {
    const bed = (more: string) => tube(`mouth: { window: { width: 9, cutUp: 4${more}\nprint: { bed: [100, 100, 360] }`);
    expectFinding(
      bed(", stopper: 30 } }").replace("[100, 100, 360]", "[[[100, 100, 360]]]"),
      "print/longer-than-bed",
      "384 mm",
    );
    expectFinding(
      bed(", stopper: 20 }, windway: { length: 40 } }").replace("[100, 100, 360]", "[[[100, 100, 360]]]"),
      "print/longer-than-bed",
      "394 mm",
    );
  });
});

describe("another key", () => {
  it("by redraw scales it, with its parameter where it has one", () => {
    const { text, factor } = rekeyed(apart("6"), "F4", "redraw");
    expect(Math.abs(Number(/stopper: ([\d.]+)/.exec(text)?.[1]) - 6 * factor)).toBeLessThan(0.1);
    expect(rekeyed(apart("=tube/4"), "F4", "redraw").text).toContain("stopper: =tube/4");
  });

  it("by print scale leaves it as drawn", () => {
    expect(rekeyed(apart("6"), "F4", "print-scale").text).toContain("stopper: 6");
  });

  it("by refit holds it, as all of the mouth, and is in tune", () => {
    const { text } = rekeyed(apart("6"), "F4", "refit");
    expect(text).toContain("window: { width: 9.82, cutUp: 4.5, stopper: 6, labium: 1 }");
    expect(Math.abs(checked(text).analysis.summary?.worstCents ?? Number.NaN)).toBeLessThan(10);
  });
});
