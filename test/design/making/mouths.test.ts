/** A tube's mouths: where they stop being something that can be made. */
import { describe, expect, it } from "vitest";
import { preflight } from "../../../server/src/design/making/preflight.js";
import { correctionFix } from "../../../server/src/document/correction.js";
import { applyEdits } from "../../../server/src/document/edits.js";
import { fileOf, WHISTLE } from "../../support/designs.js";
import { holdFromBothSides, refused, walled } from "../../support/making.js";
import { tube } from "../../support/marked.js";

const windway = (sizes: string) =>
  WHISTLE.replace("cutUp: 4.5, labium: 1 }", `cutUp: 4.5, labium: 1 }\n  windway: { ${sizes} }`);
const twoChambers = (
  sizes: Partial<Record<"chamber" | "length" | "block" | "width" | "windway" | "stopper", number>>,
) => {
  const { chamber = 16, length = 60, block = 40, width = 16, windway = 22, stopper = 3 } = sizes;
  const mouth = [
    `cutUp: 4.5, stopper: ${stopper} }`,
    `chamber: { length: ${length}, diameter: ${chamber} }`,
    `windway: { length: ${windway}, width: 9, height: 1 }`,
    `block: { length: ${block}, width: ${width}, height: 12 }`,
  ];
  return walled(4, WHISTLE.replace("cutUp: 4.5, labium: 1 }", mouth.join("\n  ")));
};
const notch = (width: number, more = "") =>
  tube(`family: rim\nmouth: { cover: 0.6, notch: { width: ${width}, depth: 4 } }\n`) + more;

describe("a windway that prints closed", () => {
  const fixed = (text: string) => {
    const { documents } = fileOf(text);
    const found = documents.flatMap((document) =>
      preflight(document.resolution).refused.flatMap((finding) => correctionFix(document, finding) ?? []),
    );
    return found.map(({ title, edits }) => [title, applyEdits(text, edits)]);
  };
  const scaled = (text: string) => `${text}print: { scale: 90 % }\n`;

  it("is set to the lowest that prints open, print scale reckoned in", () => {
    expect(fixed(walled(4, windway("height: 0.3")))).toEqual([["Write `0.5`", walled(4, windway("height: 0.5"))]]);
    const high = scaled(walled(4, windway("height: 0.3")));
    expect(fixed(high)).toEqual([["Write `0.56`", high.replace("height: 0.3", "height: 0.56")]]);
    const apart = twoChambers({}).replace("height: 1 }", "height: 0.3 }");
    expect(fixed(apart)).toEqual([["Write `0.5`", apart.replace("height: 0.3 }", "height: 0.5 }")]]);
  });
  it("is set to a thousandth of an inch in inches", () => {
    const inches = `borewright: 1
family: duct
units: in
key: G4
mouth: { window: { width: 0.35, cutUp: 0.18 }, windway: { height: 0.012 } }
bore: [{ at: 0, diameter: 0.63 }, { at: 15.5, diameter: 0.63 }]
wall: 0.16
print: { scale: 90 % }
`;
    // 0.5 mm of 25.4 mm an inch and 90 %: 0.02187.
    expect(fixed(inches).map(([title]) => title)).toEqual(["Write `0.022`"]);
  });
  it("is not where the wall has no room for it", () => {
    const thin = walled(1.6, windway("height: 0.3"));
    expect(refused(thin).join()).toContain("prints closed");
    expect(fixed(thin)).toEqual([]);
  });
});

describe("a duct", () => {
  holdFromBothSides([
    [
      "with a windway high at its exit",
      1.85,
      1.75,
      (height) => windway(`height: ${height}`),
      "mouth.windway.height: The roof of the windway would be 1.15 mm thick on the bed, and the printer can close 1.2 mm. Make the wall thicker or the windway lower, or state what your printer can close: `print.leastWall`.",
    ],
    [
      "with a windway high at its entry",
      1.85,
      1.75,
      (entry) => windway(`height: 1, entry: ${entry}`),
      "mouth.windway.entry: The roof of the windway would be 1.15 mm thick on the bed, and the printer can close 1.2 mm. Make the wall thicker or the windway lower, or state what your printer can close: `print.leastWall`.",
    ],
    [
      "with a low windway",
      0.45,
      0.55,
      (height) => windway(`height: ${height}`),
      "mouth.windway.height: The windway is 0.45 mm high; one under 0.5 mm prints closed. Make it higher.",
    ],
    [
      "in a thin wall",
      1.6,
      1.8,
      (wall) => walled(wall, `${WHISTLE}solid: { labium: { edge: 0.3 } }\n`),
      "wall: The wall leaves room for a windway 0.4 mm high; one under 0.5 mm prints closed. Make the wall thicker.",
    ],
    [
      "with a wide windway",
      16.1,
      16,
      (width) => windway(`width: ${width}`),
      "mouth.windway.width: The windway is 16.1 mm wide and the bore under it 16 mm: it would cut through the sides. Make it narrower.",
    ],
    [
      "with a thick edge",
      2.5,
      2.4,
      (edge) => `${WHISTLE}solid: { labium: { edge: ${edge} } }\n`,
      "solid.labium.edge: The labium's edge would end 2.75 mm above the bore, and the wall is 3 mm: no ramp is left. Make the wall thicker or the edge thinner.",
    ],
    [
      "with a lifted edge",
      2.25,
      2.15,
      (lift) => `${WHISTLE}solid: { labium: { lift: ${lift} } }\n`,
      "solid.labium.lift: The labium's edge would end 2.75 mm above the bore, and the wall is 3 mm: no ramp is left. Make the wall thicker or the edge thinner.",
    ],
    [
      "with a wide bore under the edge",
      17.2,
      17,
      (wide) =>
        WHISTLE.replace(
          "{ at: 0, diameter: =tube }",
          `{ at: 0, diameter: =tube }\n  - { at: 2.25, diameter: ${wide} }\n  - { at: 20, diameter: =tube }`,
        ),
      "bore.1.diameter: The bore widens under the labium so much that its edge would be cut away. Let it widen farther down.",
    ],
    [
      "with a plug far above the window",
      22.1,
      21.9,
      (stopper) => walled(5, WHISTLE.replace("cutUp: 4.5, labium: 1 }", `cutUp: 4.5, stopper: ${stopper} }`)),
      "mouth.window.stopper: The plug lies 22.1 mm above the window, and the windway is hardly longer: no block is left to close the bore. Put it nearer, or make the windway longer.",
    ],
    [
      "with a bore that narrows under its block",
      16.05,
      16.03,
      (wide) => WHISTLE.replace("{ at: 0,", `{ at: -27.25, diameter: ${wide} }\n  - { at: 0,`),
      "bore.0.diameter: Above the window the bore goes from 16 mm to 16.05 mm; a block closes a straight one. Keep it the same there, or begin its outline at the window.",
    ],
    [
      "with a window less deep than the wall",
      2.9,
      3,
      (chimney) => WHISTLE.replace("cutUp: 4.5, labium: 1 }", `cutUp: 4.5, chimney: ${chimney} }`),
      "mouth.window.chimney: The window is 2.9 mm deep and the wall 3 mm: a window less deep than the wall cannot be made. Make it as deep, or the wall thinner.",
    ],
  ]);
});

describe("two chambers", () => {
  holdFromBothSides([
    [
      "the slow one wide",
      21.7,
      21.5,
      (chamber) => twoChambers({ chamber }),
      "mouth.chamber.diameter: The slow chamber's wall would be 1.15 mm thick on the bed, and the printer can close 1.2 mm. Make the chamber narrower, or state what your printer can close: `print.leastWall`.",
    ],
    [
      "the slow one short",
      19.9,
      20.1,
      (length) => twoChambers({ length }),
      "mouth.chamber.length: The slow chamber is 19.9 mm long: too short for its mouth hole's cone and its exit. Make it longer.",
    ],
    [
      "under a short block",
      27.9,
      28,
      (block) => twoChambers({ block }),
      "mouth.block.length: The block is 27.9 mm long and has 28 mm of channel and exit hole to cover. Make it longer.",
    ],
    [
      "under a narrow block",
      11.3,
      11.5,
      (width) => twoChambers({ width }),
      "mouth.block.width: The block is 11.3 mm wide; to seal the channel at both sides it needs 11.4 mm. Make it wider.",
    ],
    [
      "with a short plug",
      5.9,
      6.1,
      (windway) => twoChambers({ windway }),
      "mouth.window.stopper: The channel is 5.9 mm long and the plug ends 3 mm above the window: too little of it is left to hold. Make the channel longer.",
    ],
    [
      "with a plug far above the window",
      19.1,
      18.9,
      (stopper) => twoChambers({ stopper }),
      "mouth.window.stopper: The channel is 22 mm long and the plug ends 19.1 mm above the window: too little of it is left to hold. Make the channel longer.",
    ],
    [
      "with a window less deep than the wall",
      3.9,
      4,
      (chimney) => twoChambers({}).replace("cutUp: 4.5,", `cutUp: 4.5, chimney: ${chimney},`),
      "mouth.window.chimney: The window is 3.9 mm deep and the wall 4 mm: a window less deep than the wall cannot be made. Make it as deep, or the wall thinner.",
    ],
  ]);
});

it("is refused at the number that is written, where the other is usual", () => {
  const usual = (sizes: string) =>
    walled(
      4,
      WHISTLE.replace("cutUp: 4.5, labium: 1 }", `cutUp: 4.5 }\n  chamber: { length: 60 }\n  windway: { ${sizes} }`),
    );
  // A block is 45 mm long and 20 wide; 6 of exit hole and 1.2 at either side are to be covered.
  expect(refused(usual("length: 40"))).toEqual([
    "mouth.windway.length: The block is 45 mm long and has 46 mm of channel and exit hole to cover. Make it longer.",
  ]);
  expect(refused(usual("width: 18"))).toContain(
    "mouth.windway.width: The block is 20 mm wide; to seal the channel at both sides it needs 20.4 mm. Make it wider.",
  );
  expect(refused(usual("length: 2"))).toEqual([
    expect.stringMatching(/^mouth\.windway\.length: The channel is 2 mm long/),
  ]);
  expect(refused(usual("length: 22").replace("wall: 4,", "wall: 1,"))).toContainEqual(
    expect.stringMatching(/^wall: The slow chamber's wall would be 1 mm thick on the bed/),
  );
  const thin = (design: string) => refused(design.replace(/wall: \d/, "wall: 0.7")).at(-1);
  expect(thin(notch(9))).toBe(
    "wall: The notch's edge is 0.5 mm thick and the wall 0.7 mm: no slope is left behind it. Make the edge thinner.",
  );
  expect(
    thin(
      tube(
        "family: transverse\nmouth: { hole: { length: 10, width: 10 }, stopper: 16 }\nbore: [{ at: -16, diameter: 16 }, { at: 352, diameter: 16 }]\n",
      ),
    ),
  ).toMatch(/^wall: The wall at the embouchure hole would be 0\.7 mm thick/);
});

describe("another mouth", () => {
  holdFromBothSides([
    [
      "a hole in a thin wall",
      1.15,
      1.2,
      (chimney) =>
        tube(
          `family: transverse\nmouth: { hole: { length: 10, width: 10, chimney: ${chimney} }, stopper: 16 }\nbore: [{ at: -16, diameter: 16 }, { at: 352, diameter: 16 }]\n`,
        ),
      "mouth.hole.chimney: The wall at the embouchure hole would be 1.15 mm thick on the bed, and the printer can close 1.2 mm. Make it thicker, or state what your printer can close: `print.leastWall`.",
    ],
    [
      "a wide notch",
      15.8,
      15.6,
      (width) => notch(width),
      "mouth.notch.width: The notch is 15.8 mm wide and the bore 16 mm: it would cut the tube's sides off. Make it narrower.",
    ],
    [
      "a notch with a thick edge",
      2.8,
      2.6,
      (edge) => notch(9, `solid: { labium: { edge: ${edge} } }\n`),
      "solid.labium.edge: The notch's edge is 2.8 mm thick and the wall 3 mm: no slope is left behind it. Make the edge thinner.",
    ],
  ]);

  it("with a steep notch ends where its ramp reaches the outside", () => {
    // 4 of depth, 3 of wall at 60°, and 1.2 of wall up to a hole of 5.
    const beside = (at: number) =>
      tube(
        `family: rim\nmouth: { cover: 0.6, notch: { width: 9, depth: 4, ramp: 60 } }\nholes: [{ name: A, at: ${at}, diameter: 5 }]\n`,
      );
    const ends = 4 + 3 / Math.tan(Math.PI / 3) + 1.2 + 2.5;
    expect(refused(beside(ends - 0.1)).join()).toContain("runs into the head that the mouth needs");
    expect(refused(beside(ends + 0.1))).toEqual([]);
  });

  it("that is no thing is refused with what would be one", () => {
    expect(refused(tube("mouth: ideal\n"))).toEqual([
      "mouth: A mouth is made from its dimensions, and the design gives none that can be: describe it by `window: { width, cutUp }`, by `hole: { length, width }`, or blow a `rim`.",
    ]);
  });
});
