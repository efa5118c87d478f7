/** measured/no-fingering: a measured note that nothing can be made of. */
import { describe, it } from "vitest";
import { panPipe } from "../../support/families.js";
import { expectFinding, expectNothing, tube } from "../../support/marked.js";

describe("measured/no-fingering", () => {
  const flute = (measured: string) =>
    tube(
      `holes: [{ name: L1, at: 150, diameter: 7 }]\nfingerings: [{ degree: 1, holes: ● }, { note: B4, holes: ○ }]\nmeasured: [${measured}]`,
    );
  it("marks the note, and says what to do", () => {
    expectFinding(
      flute("{ note: G4, hz: 390 }, { note: [[G5]], hz: 780 }"),
      "measured/no-fingering",
      "no fingering for G5, so this measured note calibrates nothing. Add one, draw `holes` beside the note",
    );
  });
  it("is silent for notes of the fingerings, however spelt, and for those drawn with their holes", () => {
    expectNothing(flute("{ note: G4, hz: 390 }, { note: Cb5, hz: 490 }, { note: G5, hz: 780, holes: ● }"));
  });
  it("goes by the pipes of a pan pipe", () => {
    expectNothing(panPipe("measured: [{ note: D5, hz: 588 }]"));
    const says = "The design has no pipe for F5, so this measured note calibrates nothing. Give the pipe that `note`";
    expectFinding(panPipe("measured: [{ note: [[F5]], hz: 698 }]"), "measured/no-fingering", says);
  });
  it("waits for the fingerings of a design that lists none", () => {
    expectNothing(tube("measured: [{ note: A4, hz: 440 }]"));
  });
  it("leaves an unreadable note to its own finding", () => {
    expectFinding(flute("{ note: [[H4]], hz: 490 }"), "note/unreadable");
  });
});
