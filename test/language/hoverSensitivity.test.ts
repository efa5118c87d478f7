/** What a hover says of a number's effect on the pitch: the sign, the notes, the words. */

import { describe, expect, it } from "vitest";
import { MarkupContent } from "vscode-languageserver";
import { hover } from "../../server/src/language/hover/index.js";
import { WHISTLE } from "../support/designs.js";
import { atCursor, marked } from "../support/language.js";

function hoverText(text: string, place: string, after: number): string {
  const { context, position } = atCursor(marked(text, place, after));
  const contents = hover(context, position)?.contents;
  return MarkupContent.is(contents) ? contents.value : "";
}

describe("the effect of a number in its hover", () => {
  it("of a hole's place: nearer the mouth is sharper, most on the note that the hole decides", () => {
    const text = hoverText(WHISTLE, "at: 210.3", 5);
    expect(text).toMatch(/1 mm nearer the mouth: \+[4-7]\.\d cents on E5[,;]/);
  });

  it("of a hole's width, wider being sharper", () => {
    expect(hoverText(WHISTLE, "diameter: 8.5 }   #", 11)).toMatch(/0\.1 mm wider: \+\d\.\d cents on E5/);
  });

  it("of a hole as a whole: both", () => {
    const text = hoverText(WHISTLE, "name: L2", 7);
    expect(text).toMatch(/1 mm nearer the mouth: \+/);
    expect(text).toMatch(/0\.1 mm wider: \+/);
  });

  it("of the foot's place: a longer bore is flatter, most on the notes with every hole closed", () => {
    expect(hoverText(WHISTLE, "at: 394.1", 6)).toMatch(/1 mm longer: −\d\.\d cents on (G4|G5), −\d\.\d on (G4|G5)/);
  });

  it("of a parameter goes through all that refers to it", () => {
    expect(hoverText(WHISTLE, "tube: 16", 7)).toMatch(/1 % more \(16\.16\): .*−\d/);
  });

  it("of the temperature: all notes alike", () => {
    expect(hoverText(WHISTLE, "temperature: 22", 14)).toMatch(/1 °C warmer: all notes \+3\.\d( to \+3\.\d)? cents/);
  });

  it("follows inches where the file does", () => {
    const inches = WHISTLE.replace("key: G4", "key: G4\nunits: in\nprint: { scale: 3.937 % }");
    expect(hoverText(inches, "at: 210.3", 5)).toMatch(/0\.05 in nearer the mouth: \+/);
  });

  it("is silent on numbers that change no note", () => {
    const text = hoverText(
      WHISTLE.replace("cutUp: 4.5, labium: 1 }", "cutUp: 4.5, labium: 1 }\n  windway: { length: 40 }"),
      "length: 40",
      9,
    );
    expect(text).not.toMatch(/longer:|more:/);
    expect(text).toContain("windway");
  });
});

describe("how sure and how well, in the hover of a fingering and of the whole", () => {
  it("names the band, its largest part, and the others", () => {
    expect(hoverText(WHISTLE, "degree: 3", 3)).toMatch(
      /Good to −\d+ to \+\d\d cents, mostly the mouth \(all notes together −\d+ to \+\d\d, this one against the others ±\d+\)\./,
    );
    expect(hoverText(WHISTLE, "name: Test", 8)).toMatch(/Good to −\d+ to \+\d+ cents, mostly the mouth/);
  });

  it("shows depth, firmness, octave stretch, and the cut-off where two holes are open", () => {
    const two = hoverText(WHISTLE, "degree: 3", 3);
    expect(two).toMatch(
      /Response: \d+ dB deep, quality factor \d+; octave stretched by [+−]\d+\.\d cents; cut-off .* \d+ Hz/,
    );
    expect(hoverText(WHISTLE, "degree: 1", 3)).not.toContain("cut-off");
    expect(hoverText(WHISTLE, "name: Test", 8)).toMatch(/\| 1 \| \d+ dB, ±\d\.\d \|/);
  });
});
