/** A new design before it is tuned: what is written, word for word, and how it grows with the key. */
import { describe, expect, it } from "vitest";
import { firstText, type Wanted } from "../../../server/src/design/create/firstText.js";
import { newDesign, usualName } from "../../../server/src/design/create/newDesign.js";
import { RECIPE_IDS, RECIPES, type Recipe, type RecipeId } from "../../../server/src/design/create/recipes.js";
import { isDescribed } from "../../../server/src/instrument/body.js";
import { parseNote } from "../../../server/src/music/note.js";
import { codesOf, instrumentOf, numberAt } from "../../support/marked.js";
import { note } from "../../support/vessel.js";

const textOf = (id: RecipeId, key: string, more: Partial<Wanted> = {}) =>
  firstText(RECIPES[id], { key: note(key), tube: undefined, hand: "adult", name: "Mole", ...more });
const recipeOf = (id: RecipeId): Recipe => RECIPES[id];
const rowsOf = (text: string) => text.split("\n").filter((line) => line.startsWith("  - { degree"));
/** Head, then the given lines. */
const design = (title: string, family: string, key: string, lines: readonly string[]) => [
  `# ${title}.`,
  "# In tune by prediction. Make it, write what it sounds under `measured`,",
  "# calibrate, and make it again.",
  "# It touches the mouth: plain filament sold for food contact, the lip area",
  "# smoothed and sealed, washed warm before another person plays.",
  "borewright: 1",
  "name: Mole",
  `family: ${family}`,
  `key: ${key}                    # with every hole closed; Rekey moves the whole instrument`,
  "tolerance: 10              # cents; beyond it a note is out of tune",
  "air: { temperature: 22, humidity: 60 }",
  "",
  ...lines,
];

describe("a new design, word for word", () => {
  it("of a tube at hand for a child: as wide as it is, holes with it, no wider than fingertips, nothing to print", () => {
    // Of 13 mm in the recipe, an octave lower: everything along the tube twice as far.
    const text = textOf("recorder", "C4", { tube: { bore: 19, wall: 1.27 }, hand: "child" });
    expect(text.split("\n")).toEqual(
      design("Duct flute with seven holes and thumb, fingered like a recorder", "duct", "C4", [
        "parameters:",
        "  tube: 19                 # inner diameter",
        "  wall: 1.3",
        "",
        "mouth:",
        "  window: { width: 13.2, cutUp: 5.4 }   # wider or longer sounds sharper",
        "",
        "bore:                      # stations along the axis, 0 at the mouth opening's centre",
        "  - { at: 0, diameter: =tube }",
        "  - { at: 589.4, diameter: =tube }",
        "wall: =wall",
        "",
        "holes:                     # from the mouth to the foot",
        "  - { name: T, at: 193.4, diameter: 5.7, side: back }",
        "  - { name: L1, at: 237.2, diameter: 7.5 }",
        "  - { name: L2, at: 262.2, diameter: 7.3 }",
        "  - { name: L3, at: 296.6, diameter: 6.3 }",
        "  - { name: R1, at: 354, diameter: 7.5 }",
        "  - { name: R2, at: 404.6, diameter: 8 }",
        "  - { name: R3, at: 426.4, diameter: 6.4 }",
        "  - { name: R4, at: 496, diameter: 7.5 }",
        "",
        "# Seven holes and thumb, two registers by the pinched thumb. Common practice: schools differ in crossed fingerings",
        "fingerings:                # ● closed, ○ open, ◐ half",
        ...rowsOf(text),
        "",
        "hands: { reach: 30, fingertip: 8 }   # mm, a child's: neighbours, widest hole",
        "",
      ]),
    );
  });
  it("of a tapering tube in another key: as wide as is usual for its length, its stations in proportion", () => {
    // 2^(7/12) times as short, that to the power of 3/4 as narrow: 9.6, to half a millimetre.
    const text = textOf("recorder", "G5");
    expect(text).toContain("  tube: 9.5                 # inner diameter, where it is widest\n  wall: 2\n");
    expect(text).toContain(
      "  - { at: 0, diameter: =tube }\n  - { at: 23.6, diameter: 8.6 }\n  - { at: 196.7, diameter: 6.4 }\n",
    );
    expect(text).toContain("name: R4, at: 165.5, diameter: 3.7 }");
    expect(text).toContain(
      "print: { nozzle: 0.4, scale: 100 %, shrinkage: 0.2 %, holeUndersize: 0.15 }\nhands: { reach: 40, fingertip: 11 }   # mm, an adult's: neighbours, widest hole\n",
    );
    // From 15 mm on the wall is thicker.
    expect(["A4", "C5"].map((key) => textOf("recorder", key)).map((each) => /wall: (\d)/.exec(each)?.[1])).toEqual([
      "3",
      "2",
    ]);
  });
  it("of a flute blown across: begins beside its mouth by the bore's width", () => {
    const text = textOf("side-blown", "D4", { tube: { bore: 20, wall: 3 } });
    expect(text).toContain("  - { at: -19, diameter: =tube }\n  - { at: 530.9, diameter: =tube }\n");
    expect(text).toMatch(/stopper: 18\.9 +# from the hole's centre; tunes the octaves\n/);
    expect(text).toMatch(/cover: 0\.\d+ +# share of the hole under the lip\n/);
    expect(text).toContain("hole: { length: 11.1, width: 12.1 }   # along and across the tube\n");
  });
  it("of a name with signs that need no quotes in a line of its own", () => {
    expect(textOf("whistle", "D5", { name: "Mole, the [first]" })).toContain("\nname: Mole, the [first]\n");
  });
  it("of a tube without holes", () => {
    expect(textOf("overtone-flute", "G3")).toContain("\nholes: []\n\n# No holes");
  });
  it("of pipes: each a quarter of a wave less its end, none narrower than 8 mm; nothing of hands", () => {
    const text = textOf("pan-pipe-pentatonic", "A5");
    // 344.4 m/s: 97.8 mm of 880 Hz less 0.7 of 8 mm.
    expect(text.split("\n")).toEqual(
      design("Pan pipe of five notes an octave", "panpipe", "A5", [
        expect.stringMatching(/^mouth: \{ cover: 0\.\d+ \} {5}# share of each pipe's mouth under the lip$/),
        "wall: 2",
        "",
        "pipes:                     # each a tube, stopped at the lower end",
        "  - { note: A5, length: 92.2, diameter: 8 }",
        ...text.split("\n").slice(17, -3),
        "",
        "print: { nozzle: 0.4, scale: 100 %, shrinkage: 0.2 %, holeUndersize: 0.15 }",
        "",
      ] as string[]),
    );
    // An octave and a half lower wide ones: a twelfth of 391.4 mm.
    expect(textOf("pan-pipe", "A3")).toContain("  - { note: A3, length: 368.6, diameter: 32.5 }");
    expect(textOf("pan-pipe", "A5", { tube: { bore: 10, wall: 1 } })).toMatch(
      /^wall: 1\n\npipes: .*\n {2}- \{ note: A5, length: 90\.8, diameter: 10 \}/m,
    );
  });
  it("of a vessel: every size as the wave, holes too", () => {
    const text = textOf("vessel-cross-fingered", "G5", { tube: { bore: 1, wall: 2.5 } });
    expect(text.split("\n")).toEqual(
      design("Vessel flute, four holes, cross-fingered", "vessel", "G5", [
        "mouth:",
        "  window: { width: 6.3, cutUp: 3 }",
        "",
        "vessel: { shape: ellipsoid, length: 41.4, width: 29.4, height: 26.7 }   # inner sizes",
        "wall: 2.5",
        "",
        "holes:                     # only their sizes count; where they lie is for the fingers",
        "  - { name: R1, diameter: 2.3, angle: 60 }",
        "  - { name: R2, diameter: 3.5, angle: 100 }",
        "  - { name: L1, diameter: 4.8, angle: -60 }",
        "  - { name: L2, diameter: 5.3, angle: -100 }",
        "",
        "# Four holes, cross-fingered. Common practice: schools differ in crossed fingerings",
        "fingerings:                # ● closed, ○ open, ◐ half",
        ...rowsOf(text),
        "",
        "hands: { reach: 40, fingertip: 11 }   # mm, an adult's: neighbours, widest hole",
        "",
      ]),
    );
    expect(textOf("vessel", "C5")).toContain("\nwall: 3\n");
    expect(textOf("vessel-twelve", "A4")).toMatch(
      /^breath: \{ lowest: -?\d+, highest: \d+ \} {3}# cents: a breath that rises from soft to hard\n\n# /m,
    );
  });
});

describe.each(RECIPE_IDS)("a new %s", (id) => {
  const recipe = recipeOf(id);
  const key = recipe.kind === "pipes" ? "C5" : recipe.home;
  const text = textOf(id, key);

  it("is a whole instrument with a title of its own, its thumb hole behind", () => {
    expect(parseNote(key)).toBeDefined();
    const { body, holes } = instrumentOf(text);
    expect(isDescribed(body)).toBe(true);
    expect(codesOf(text).filter((code) => /^(file|schema)\//.test(code))).toEqual([]);
    expect(text).toMatch(/^# [A-Z][a-z]+.{15,}\.\n/);
    expect(RECIPE_IDS.filter((other) => recipeOf(other).title === recipe.title)).toEqual([id]);
    const thumb = holes.findIndex(({ name }) => name === "T");
    if (thumb >= 0) expect(text).toMatch(/name: T, .*side: back }/);
    if (recipe.kind === "tube") expect(numberAt(text, "bore.0.diameter")).toBe(recipe.bore);
  });
});

it("a two-chamber flute has all of its head, and is tuned as it is played", () => {
  for (const id of ["two-chamber", "two-chamber-six"] as const) {
    const text = textOf(id, "A5", { tube: { bore: 11.4, wall: 3 } });
    expect(text).toContain(`mouth:
  window: { width: 6.2, cutUp: 3, stopper: 3 }   # the plug ends 3 mm above the window
  windway: { length: 22, width: 6.2, height: 1.1 }      # over the plug
  chamber: { length: 75, diameter: =tube }                # gathers the breath; does not sound
  block: { length: 48, width: 20, height: 16 }
`);
    expect(text).toContain("\nair: played\n");
  }
});

it("is named by key and kind where nobody has named it", () => {
  expect(usualName("two-chamber-six", note("A4"))).toBe("A4 two chamber six");
});

it("is given as it begins, with why, where it cannot be tuned", () => {
  // A bore of 200 mm on a whistle sounds nothing that its holes could tune.
  const { text, remarks, analysis } = newDesign("whistle", {
    key: note("D6"),
    tube: { bore: 200, wall: 3 },
    hand: "adult",
    name: "Mole",
  });
  expect(remarks.length).toBeGreaterThan(0);
  expect(text).toBe(textOf("whistle", "D6", { tube: { bore: 200, wall: 3 } }));
  expect(analysis.instrument.name).toBe("Mole");
});
