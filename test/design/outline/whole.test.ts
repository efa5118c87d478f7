/**
 * Every size of an outline where the design says only what sounds. Sizes that it does not say are those of SOLID_DEFAULTS, common practice,
 * no source; what follows from them is worked out beside them.
 */
import { describe, expect, it } from "vitest";
import { boreRange } from "../../../server/src/design/outline/bore.js";
import { notchLine, slowChamberLine, tiedBlockLine } from "../../../server/src/design/outline/headProfile.js";
import { outlineOf } from "../../../server/src/design/outline/index.js";
import type { Outline, TubeOutline } from "../../../server/src/design/outline/outline.js";
import { radiusOn } from "../../../server/src/design/outline/tube.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { panPipe } from "../../support/families.js";
import { jointed, walled } from "../../support/making.js";
import { tube } from "../../support/marked.js";

function outline(text: string): Outline {
  const found = outlineOf(documentOf(fileOf(text)).resolution);
  if (found === undefined) throw new Error("no outline");
  return found;
}
const tubeOf = (text: string) => outline(text).body as TubeOutline;
/** To a millionth of a millimetre. */
const rounded = <T>(value: T): T =>
  JSON.parse(JSON.stringify(value), (_, each) => (typeof each === "number" ? Number(each.toFixed(6)) : each));

const TAN_42 = Math.tan((42 * Math.PI) / 180);
const window = (more: string) => WHISTLE.replace("cutUp: 4.5, labium: 1 }", more);

describe("a duct", () => {
  it("has a windway, a labium, a block and a beak", () => {
    const { mouth, from } = tubeOf(WHISTLE);
    expect(rounded(mouth)).toEqual({
      kind: "duct",
      window: { width: 9.82, length: 4.5, chimney: 3, from: -2.25, to: 2.25, stopper: 0 },
      windway: {
        from: -27.25,
        to: -2.25,
        width: 9.82,
        entryWidth: 11.784, // 1.2 times as wide
        exitHeight: 1.2,
        entryHeight: 1.6, // 4/3 times as high
        floor: 8,
        chamfer: 0.4,
      },
      labium: { at: 2.25, low: 8.25, high: 8.75, ramp: 17, relief: 35 },
      block: { from: -27.25, to: -2.25, radius: 7.92 },
      beak: { angle: 42, lip: 5 },
    });
    expect(from).toBe(-27.25);
  });

  it("whose bore ends above the window has a floor over it, and its plug ends there", () => {
    const { mouth } = tubeOf(walled(5, window("cutUp: 4.5, stopper: 3 }")));
    expect(rounded(mouth)).toMatchObject({
      windway: { floor: 9.4 },
      labium: { low: 9.65, high: 10.15 },
      block: { from: -27.25, to: -5.25, radius: 7.92 },
    });
  });

  it("with a narrow bore leaves no more under its windway than the bore's radius", () => {
    const { mouth } = tubeOf(WHISTLE.replace("tube: 16", "tube: 9"));
    expect(mouth).toMatchObject({ beak: { lip: 4.5 } });
  });

  it("in a thin wall has a windway as high as the roof allows, of which nothing is assumed", () => {
    const thin = outline(walled(2));
    const { mouth } = thin.body as TubeOutline;
    // 2 − 1.2 of roof.
    expect(rounded(mouth)).toMatchObject({ windway: { exitHeight: 0.8, entryHeight: 0.8 } });
    const { assumed, body } = outline(walled(1));
    expect((body as TubeOutline).mouth).toMatchObject({ windway: { exitHeight: 0, entryHeight: 0 } });
    expect(assumed).toEqual(["A windway of 25 mm", "A labium whose edge is as thick as 0.5 mm"]);
  });
});

it("a two-chamber head has a slow chamber, a plug, a channel and a tied block", () => {
  const { body, assumed } = outline(walled(4, window("cutUp: 4.5, stopper: 3 }\n  chamber: { }")));
  const { mouth, from } = body as TubeOutline;
  expect(rounded(mouth)).toEqual({
    kind: "two-chamber",
    window: { width: 9.82, length: 4.5, chimney: 4, from: -2.25, to: 2.25, stopper: 3 },
    // 22 of channel and 6 of exit hole; the floor 1.4 over the bore.
    windway: {
      from: -30.25,
      to: -2.25,
      width: 9.82,
      entryWidth: 9.82,
      exitHeight: 1.1,
      entryHeight: 1.1,
      floor: 9.4,
      chamfer: 0.4,
    },
    labium: { at: 2.25, low: 9.65, high: 10.15, ramp: 17, relief: 35 },
    chamber: { from: -88.25, to: -24.25, diameter: 16 }, // four bores long
    mouthHole: 8,
    exitLength: 6,
    plug: { from: -24.25, to: -5.25, radius: 7.92 },
    nest: { from: -48.75, to: 12.25, height: 10.5, width: 23 }, // 1.5 round the block, half its width past the window
    block: { length: 45, width: 20, height: 16 },
  });
  expect(from).toBe(-92.25); // 4 of end wall
  expect(assumed).toEqual([
    "A channel as high as 1.1 mm",
    "A channel of 22 mm",
    "A slow air chamber of 64 mm",
    "A labium whose edge is as thick as 0.5 mm",
  ]);
  if (mouth?.kind !== "two-chamber") throw new Error("no chambers");
  // From the mouth hole at 45° to the full width.
  expect(slowChamberLine(mouth)).toEqual([
    [-88.25, 4],
    [-84.25, 8],
  ]);
  expect(tiedBlockLine(mouth).map(([z, height]) => [z, height - 10.5].map((each) => Number(each.toFixed(6))))).toEqual([
    [-47.25, 0],
    [-39.25, 16],
    [-7.583333, 16],
    [-2.25, 5.333333],
    [-2.25, 0],
  ]);
  const narrow = tubeOf(walled(4, window("cutUp: 4.5, stopper: 3 }\n  chamber: { diameter: 12 }"))).mouth;
  expect(narrow).toMatchObject({ mouthHole: 6 });
});

it("an embouchure hole has a stopper, and wood beyond it", () => {
  const flute =
    "family: transverse\nmouth: { hole: { length: 10, width: 11, undercut: 1 }, stopper: 16 }\nbore: [{ at: -16, diameter: 16 }, { at: 352, diameter: 16 }]\n";
  const { body, assumed } = outline(tube(flute));
  const { mouth, from, outside } = body as TubeOutline;
  expect(mouth).toEqual({
    kind: "embouchure",
    width: 11,
    length: 10,
    chimney: 3,
    undercut: 1,
    boreRadius: 8,
    stopper: { from: -32, to: -16, radius: 7.85 },
    closedAt: -16,
  });
  expect(from).toBe(-35);
  expect(outside).toEqual([
    [-35, 11],
    [-16, 11],
    [352, 11],
  ]);
  expect(assumed).toEqual(["A stopper of 16 mm"]);
  expect(tubeOf(tube(`${flute}solid: { stopperLength: 20 }\n`)).mouth).toMatchObject({
    stopper: { from: -36, to: -16 },
  });
});

describe("a rim", () => {
  it("may have a notch, with an edge and a slope of its own", () => {
    const notched = (more = "", ramp = "") =>
      tubeOf(tube(`family: rim\nmouth: { cover: 0.6, notch: { width: 9, depth: 4${ramp} } }\n${more}`)).mouth;
    expect(notched()).toEqual({ kind: "rim", notch: { width: 9, depth: 4, ramp: 45, edge: 0.5 } });
    expect(notched("solid: { labium: { edge: 0.8 } }\n", ", ramp: 60")).toMatchObject({
      notch: { ramp: 60, edge: 0.8 },
    });
    const line = notchLine({ width: 9, depth: 4, ramp: 42, edge: 0.5 }, -1, 8, 11);
    expect(rounded(line)).toEqual(
      rounded([
        [3, 8],
        [3, 8.5],
        [3 + 2.5 / TAN_42, 11],
      ]),
    );
  });

  it("is drawn of an end-blown tube whose mouth is a length, and of no other", () => {
    expect(tubeOf(tube("family: rim\nmouth: { correction: 12 }\n")).mouth).toEqual({ kind: "rim" });
    expect(tubeOf(tube("family: duct\nmouth: { correction: 12 }\n")).mouth).toBeUndefined();
  });
});

describe("a joint", () => {
  it("has a tenon, a socket, a groove, and a ring with slopes of 45°", () => {
    const { body, assumed } = outline(jointed(150));
    const { joints, parts, outside } = body as TubeOutline;
    const joint = {
      path: ["bore", 1],
      at: 150,
      length: 16,
      radius: 9.7, // 1.2 of wall left under a groove 0.5 deep
      socketRadius: 9.9,
      outerRadius: 11.5, // 1.2 of wall and 0.4 of chamfer
      ring: [130.7, 153], // 16 of tenon, 0.3 of play and 3 of ring above, 3 below
      finish: "thread",
      groove: { from: 139.5, to: 144.5, depth: 0.5 },
    };
    expect(rounded(joints)).toEqual([joint]);
    expect(rounded(parts)).toEqual([
      { name: "head", from: -27.25, to: 150, socket: joint },
      { name: "foot", from: 150, to: 394.1, tenon: joint },
    ]);
    expect(rounded(outside)).toEqual([
      [-27.25, 11],
      [0, 11],
      [130.2, 11],
      [130.7, 11.5],
      [153, 11.5],
      [153.5, 11],
      [394.1, 11],
    ]);
    expect(assumed.slice(-2)).toEqual([
      "Tenons as long as the bore is wide: 16 mm",
      "A ring 0.5 mm high at each joint, to hold tenon and socket",
    ]);
  });

  it("has no ring where the wall is thick enough, unless the design asks for one", () => {
    const { joints, outside } = tubeOf(walled(6, jointed(150)));
    // The wall of 6, less 0.2 of fit, is shared.
    expect(rounded(joints)).toMatchObject([{ radius: 10.9, socketRadius: 11.1, outerRadius: 14, ring: [150, 150] }]);
    expect(outside).toEqual([
      [-27.25, 14],
      [0, 14],
      [150, 14],
      [394.1, 14],
    ]);
    const { body, assumed } = outline(walled(6, jointed(150, "solid: { rings: true }\n")));
    expect(rounded((body as TubeOutline).joints)).toMatchObject([{ outerRadius: 14.8, ring: [130.7, 153] }]);
    expect(assumed.join()).not.toContain("ring");
  });

  it.each([
    ["cork", { depth: 1, from: 136, to: 148 }, 10.2], // 2 of shoulder at either end
    ["plain", undefined, 9.4], // the wall's half, less the fit
  ])("of %s has a groove to match", (finish, groove, radius) => {
    const [joint] = rounded(tubeOf(jointed(150, `solid: { tenon: { finish: ${finish} } }\n`)).joints);
    expect(joint?.groove).toEqual(groove);
    expect(joint?.radius).toBe(radius);
    expect(joint?.finish).toBe(finish);
  });

  it("has a tenon as long as the bore is wide, in whole millimetres", () => {
    const lengthIn = (tube: number) => tubeOf(jointed(150).replace("tube: 16", `tube: ${tube}`)).joints[0]?.length;
    expect([16.4, 16.6].map(lengthIn)).toEqual([16, 17]);
  });

  it("with a short tenon has a thread over half of it", () => {
    const [joint] = tubeOf(jointed(150, "solid: { tenon: { length: 6 } }\n")).joints;
    expect(joint?.groove).toEqual({ from: 145.5, to: 148.5, depth: 0.5 });
  });

  it("goes by the widest bore that its tenon holds, and by a stated fit", () => {
    const cone = jointed(150).replace("{ at: 0, diameter: =tube }", "{ at: 0, diameter: 20 }");
    // 20 to 16 over 150: at 134 it is 16.43 wide.
    const radius = 8 + (2 * 16) / 150;
    expect(rounded(tubeOf(cone).joints)).toMatchObject([{ radius: Number((radius + 1.7).toFixed(6)) }]);
    const loose = tubeOf(jointed(150, "print: { fit: 0.3 }\n")).joints;
    expect(rounded(loose)).toMatchObject([{ radius: 9.7, socketRadius: 10 }]);
  });

  it("counts only inside the tube, and names the parts from the mouth", () => {
    const names = (joints: readonly number[]) =>
      tubeOf(
        WHISTLE.replace(
          "  - { at: 394.1",
          `${joints.map((at) => `  - { at: ${at}, diameter: =tube, joint: true }\n`).join("")}  - { at: 394.1`,
        ),
      ).parts.map(({ name, from, to }) => `${name} ${from} ${to}`);
    expect(names([])).toEqual(["body -27.25 394.1"]);
    expect(names([100, 250])).toEqual(["head -27.25 100", "middle 100 250", "foot 250 394.1"]);
    expect(names([100, 200, 300])).toEqual([
      "head -27.25 100",
      "middle 1 100 200",
      "middle 2 200 300",
      "foot 300 394.1",
    ]);
  });
});

describe("a bore", () => {
  it("is measured between its stations, a step on the side that counts", () => {
    const stepped = [
      [0, 16],
      [100, 20],
      [100, 18],
      [200, 22],
    ].map(([at = 0, diameter = 0]) => ({ path: [], at, diameter }));
    expect(boreRange(stepped, 50, 100)).toEqual([9, 10]);
    expect(boreRange(stepped, 100, 150)).toEqual([9, 10]);
    expect(boreRange(stepped, 50, 150)).toEqual([9, 10]);
    expect(boreRange(stepped, 25, 50)).toEqual([8.5, 9]);
    expect(boreRange(stepped, -50, 300)).toEqual([8, 11]);
  });

  it("has a surface that is straight between its points, the end's beyond", () => {
    const profile = [
      [0, 10],
      [10, 12],
      [10, 14],
      [20, 10],
    ] as const;
    expect([-5, 0, 2.5, 10, 15, 20, 30].map((at) => radiusOn(profile, at))).toEqual([10, 10, 10.5, 14, 12, 10, 10]);
    expect(radiusOn([], 3)).toBe(0);
  });

  it("closed at its foot has the wall's thickness of wood there", () => {
    expect(tubeOf(`${WHISTLE}foot: stopped\n`)).toMatchObject({ foot: "stopped", to: 397.1 });
  });
});

it("a pan pipe has tubes a wall apart and stoppers that end their air", () => {
  const pipe = (index: number, note: string, x: number, diameter: number, length: number, radius: number) => {
    const to = length + 10;
    return { path: ["pipes", index], note, x, diameter, length, to, stopper: { from: length, to, radius } };
  };
  const { body, assumed } = outline(panPipe(""));
  expect(rounded(body)).toEqual({
    kind: "pipes",
    wall: 1.5,
    pipes: [pipe(0, "C5", 0, 15, 158, 7.35), pipe(1, "D5", 16.5, 15, 140, 7.35), pipe(2, "E5", 32, 13, 124, 6.35)],
  });
  expect(assumed).toEqual(["Stoppers of 10 mm"]);
  const scaled = outlineOf(documentOf(fileOf(panPipe("print: { scale: 200 % }"))).resolution, "laid")?.body;
  expect(scaled).toMatchObject({ wall: 3, pipes: [{ x: 0, diameter: 30 }, { x: 33 }, { x: 64 }] });
  expect(outline(panPipe("solid: { stopperLength: 14 }"))).toMatchObject({
    assumed: [],
    body: { pipes: [{ to: 172 }, {}, {}] },
  });
  expect(outlineOf(documentOf(fileOf(panPipe("wall: no"))).resolution)).toBeUndefined();
  const none = panPipe("").replace(/^pipes:[^\n]*\n(?: .*\n)*/m, "pipes: []\n");
  expect(outlineOf(documentOf(fileOf(none)).resolution)).toBeUndefined();
});
