/** The suite itself: it sees what it is there to see. */
import { describe, expect, it } from "vitest";
import { editFaults } from "./checks/edited.js";
import { type Kind, signature } from "./kind.js";
import { damaged } from "./mutations.js";
import { Random } from "./random.js";
import { shrunk } from "./shrink.js";

const DESIGN = "wall: &w 3 # thick\nholes:\n  - { at: 10, diameter: *w }\n  - { at: 20, diameter: 5 }\n";
const rules = (title: string, after: string, before = DESIGN) =>
  editFaults(title, before, after, false).map(({ rule }) => rule);

describe("an edit", () => {
  it("that changes what its title says is sound", () => {
    expect(rules("Move L2 2 mm toward the foot", DESIGN.replace("20", "22"))).toEqual([]);
  });

  it.each([
    ["changes nothing", "Move L2", DESIGN],
    ["moved silently", "Move L2", DESIGN.replace("10", "11").replace("20", "22")],
    ["moved silently", "Refit to A4", DESIGN.replace("&w 3", "&w 4")],
    ["comments", "Move L2", DESIGN.replace("# thick", "").replace("20", "22")],
    ["broken file", "Move L2", DESIGN.replace("at: 20", "at: 22, at: 23")],
    ["byte order mark", "Move L2", `\uFEFF${DESIGN.replace("20", "22")}`],
  ])("is found to have %s", (rule, title, after) => expect(rules(title, after)).toContain(rule));

  it("is found to have mixed line ends", () => {
    const before = DESIGN.replaceAll("\n", "\r\n");
    expect(rules("Refit to A4", before.replace("20", "22\n"), before)).toContain("line ends");
  });
});

describe("draws", () => {
  it("are the same for the same seed, others for another", () => {
    const draw = (seed: number) => damaged(DESIGN, new Random(seed));
    expect(draw(1)).toBe(draw(1));
    expect(new Set(Array.from({ length: 20 }, (_, seed) => draw(seed))).size).toBeGreaterThan(15);
  });
});

describe("a failing case", () => {
  it("is made smaller as long as it shows the same fault", async () => {
    const fault = { rule: "seven", detail: "line 3 has one" };
    const kind: Kind<string> = {
      name: "lines",
      share: 1,
      draw: () => "",
      check: async (text) => (text.includes("7") ? [{ ...fault, detail: "line 99 has one" }] : []),
      parts: [{ of: (text) => text.split("\n"), from: (_, lines) => lines.join("\n") }],
    };
    expect(await shrunk(kind, "1\n2\n7\n3\n4\n5", fault, 5000)).toBe("7");
    expect(signature(fault)).toBe("seven: line 0 has one");
  });
});
