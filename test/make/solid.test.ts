/** Designs as text in; meshes as the reader of a file finds them out. The measuring knows nothing of the making (support/mesh.ts). */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { outlineOf } from "../../server/src/design/outline/index.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";
import { panPipe, vessel } from "../support/families.js";
import { tube } from "../support/marked.js";
import { cut, openingAt, topology, volume } from "../support/mesh.js";
import { soundings } from "../support/predictions.js";
import { asDrawn, partOf, partsOf } from "../support/solids.js";

const EXAMPLES = new URL("../../examples/", import.meta.url);
const text = (name: string) => readFileSync(new URL(name, EXAMPLES), "utf8");
const examples = readdirSync(EXAMPLES).filter((name) => /\.bore\.(yaml|json)$/.test(name));

/** What the printed object may be off, mm: the sides of the polygons that stand for circles. */
const MEASURED = 0.02;

/** Handles of each part. A tube has one, and one more for each opening in its side; a plug none. */
const GENUS: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  "breakwater-pipes.bore.yaml": { pipes: 8 },
  // Embouchure hole; three holes of each hand.
  "ferry-flute.bore.yaml": { head: 2, foot: 7 },
  "gull-first-print.bore.yaml": { body: 9 },
  // Window, exit hole; five holes.
  "harbour-mist-flute.bore.yaml": { body: 8 },
  // Rim, windway, window, six holes, but one that the ball they pierce has no handle for.
  "lantern-vessel.bore.yaml": { "upper half": 8, "lower half": 0 },
  "pier-notch-flute.bore.json": { head: 1, foot: 7 },
  "quay-whistle.bore.yaml": { body: 8 },
};

describe("the examples as solids", () => {
  it("are all here", () => expect(Object.keys(GENUS)).toEqual(examples));

  it.each(examples)("%s: every part is closed, in one piece, and has the openings it should have", async (name) => {
    for (const { name: part, soup } of await partsOf(text(name), name)) {
      expect([part, topology(soup)]).toEqual([
        part,
        { pieces: 1, genus: GENUS[name]?.[part] ?? 0, openEdges: 0, degenerate: 0 },
      ]);
      expect(volume(soup)).toBeGreaterThan(0);
    }
  });
});

/** The whistle's body with its axis at the origin, as drawn. */
async function whistle(design = WHISTLE) {
  return asDrawn(await partOf(design, "body"), [11, 11], 394.1);
}

describe("sizes measured back by cutting the mesh", () => {
  it("of bore, wall and holes are those of the design", async () => {
    const body = await whistle();
    for (const z of [20, 100.3, 380]) {
      const loops = cut(body, 2, z);
      const [bore, outside] = loops.length === 2 ? [...loops] : [];
      expect(bore).toBeDefined();
      expect(outside).toBeDefined();
      expect(openingAt(loops, [0, 0]).diameter).toBeCloseTo(16, 2);
      // Twice the wall of 3 mm and the bore.
      const widest = Math.max(...loops.map((loop) => Math.max(...loop.map(([x]) => x))));
      expect(Math.abs(widest - 11)).toBeLessThan(MEASURED);
    }
    for (const [at, diameter] of [
      [173.3, 7],
      [210.3, 8.5],
      [321.4, 6.5],
    ] as const) {
      // Half way through the wall in front.
      const hole = openingAt(cut(body, 1, 9.9), [0, at]);
      expect(Math.abs(hole.diameter - diameter)).toBeLessThan(MEASURED);
      expect(Math.abs(hole.middle[1] - at)).toBeLessThan(MEASURED);
    }
  });

  it("of window and windway, the cut-up from the windway's end to the labium's edge", async () => {
    const body = await whistle();
    // Across the window, the ring of the wall is open in front.
    const sides = cut(body, 2, 0).flatMap((loop) => loop.filter(([, y]) => y > 8.3).map(([x]) => Math.abs(x)));
    expect(Math.abs(2 * Math.min(...sides) - 9.82)).toBeLessThan(MEASURED);
    // In the middle plane: the edge below, and above it the windway's roof end at −2.25.
    const section = cut(body, 0, 0.01);
    const corners = section.flat();
    const edge = Math.min(...corners.filter(([y, z]) => y > 8 && y < 9 && z > 0).map(([, z]) => z));
    expect(Math.abs(edge - 2.25)).toBeLessThan(MEASURED);
    const roof = corners.filter(([y, z]) => y > 9.1 && y < 10.99 && z < 0).map(([, z]) => z);
    expect(Math.abs(Math.max(...roof) + 2.25)).toBeLessThan(MEASURED);
  });

  it("of holes oval, undercut, turned and raised", async () => {
    const design = tube(
      "family: rim\nmouth: { cover: 0.6 }\nholes:\n  - { at: 80, diameter: 6, length: 9 }\n  - { at: 140, diameter: 6, undercut: 2 }\n  - { at: 200, diameter: 7, angle: 90 }\n  - { at: 260, diameter: 6, raised: 3 }\n  - { at: 300, diameter: 6, side: back }",
    );
    const wall = outlineOf(documentOf(fileOf(design)).resolution)?.body.wall ?? 0;
    const body = await bodyOf(design);
    const rim = 8 + wall;
    expect(openingAt(cut(body, 1, 8 + wall / 3), [0, 80]).size.map((each) => Number(each.toFixed(1)))).toEqual([6, 9]);
    // Half of the undercut at half the chimney, none at the rim.
    expect(Math.abs(openingAt(cut(body, 1, 8 + wall / 2), [0, 140]).size[1] - 7)).toBeLessThan(MEASURED);
    expect(Math.abs(openingAt(cut(body, 1, rim - 0.8), [0, 140]).size[1] - 6 - 1.6 / wall)).toBeLessThan(MEASURED);
    expect(Math.abs(openingAt(cut(body, 0, -rim + 1), [0, 200]).diameter - 7)).toBeLessThan(MEASURED);
    expect(Math.abs(openingAt(cut(body, 1, rim + 2.9), [0, 260]).diameter - 6)).toBeLessThan(MEASURED);
    expect(cut(body, 1, rim + 3.01)).toEqual([]);
    expect(Math.abs(openingAt(cut(body, 1, -rim + 1), [0, 300]).diameter - 6)).toBeLessThan(MEASURED);
  });

  it("of a cone are its stations', and between them straight", async () => {
    const design = tube(
      "family: rim\nmouth: { cover: 0.6 }\nbore: [{ at: 0, diameter: 20 }, { at: 200, diameter: 14 }, { at: 200, diameter: 12 }, { at: 300, diameter: 16 }]",
    );
    const body = await bodyOf(design);
    for (const [z, diameter] of [
      [1, 19.97],
      [100, 17],
      [199, 14.03],
      [201, 12.04],
      [250, 14],
    ] as const)
      expect(Math.abs(openingAt(cut(body, 2, z), [0, 0]).diameter - diameter)).toBeLessThan(MEASURED);
  });

  it("of a pan pipe, and of a vessel's chamber and holes", async () => {
    const row = await partOf(panPipe("wall: 2"), "pipes");
    const loops = cut(row, 2, 60);
    // 9.5: half of 15, and the wall; pipes 17 and 16 apart.
    for (const [x, diameter] of [
      [9.5, 15],
      [26.5, 15],
      [42.5, 13],
    ] as const)
      expect(Math.abs(openingAt(loops, [x, 9.5]).diameter - diameter)).toBeLessThan(MEASURED);
    const body = await partOf(vessel("holes:\n  - { diameter: 6, angle: 90 }\nsolid: { halves: false }"), "body");
    // Its mouth up: the lowest point is the outer pole, 49 mm below the middle; half axes 30 and 22.5 there, walls of 4.
    const middle = openingAt(cut(body, 2, 49 - 8), [34, 26.5]);
    const shrink = Math.sqrt(1 - (8 / 45) ** 2);
    expect(Math.abs(middle.size[0] - 60 * shrink)).toBeLessThan(MEASURED);
    expect(Math.abs(middle.size[1] - 45 * shrink)).toBeLessThan(MEASURED);
    const hole = openingAt(cut(body, 0, 66), [26.5, 49]);
    expect(Math.abs(hole.diameter - 6)).toBeLessThan(MEASURED);
  });
});

/** The body of a rim-blown tube of bore 16 at its first station, at the origin, its mouth at z 0. */
async function bodyOf(design: string) {
  const soup = await partOf(design, "body");
  const at = (axis: number) => soup.filter((_, i) => i % 3 === axis);
  const [wide, foot] = [Math.max(...at(0)), Math.max(...at(2))];
  const back = [...at(1)].reduce((most, y) => Math.max(most, y), 0);
  // Raised chimneys stand up in front, which lies at low y on the bed.
  return asDrawn(soup, [wide / 2, back - wide / 2], foot);
}

describe("a solid", () => {
  it("is the design times its print scale, and neither shrinkage nor undersize", async () => {
    const scaled = `${WHISTLE}print: { scale: 110 %, shrinkage: 2 %, holeUndersize: 0.3 }\n`;
    const body = asDrawn(await partOf(scaled, "body"), [12.1, 12.1], 394.1 * 1.1);
    expect(Math.abs(openingAt(cut(body, 2, 100), [0, 0]).diameter - 17.6)).toBeLessThan(MEASURED);
    expect(Math.abs(openingAt(cut(body, 1, 10.9), [0, 173.3 * 1.1]).diameter - 7.7)).toBeLessThan(MEASURED);
  });

  it("has the volume of wall less holes, within a tenth of a percent", async () => {
    const design = tube(
      "family: rim\nmouth: { cover: 0.6 }\nwall: 4\nbore: [{ at: 0, diameter: 20 }, { at: 300, diameter: 14 }]\nholes: [{ at: 150, diameter: 8 }]",
    );
    const found = volume(await bodyOf(design));
    // A frustum less a frustum; chamfers of 0.4 at both outer edges (Pappus); the hole as an integral over its disc.
    const frustum = (a: number, b: number) => (Math.PI / 3) * 300 * (a * a + a * b + b * b);
    const chamfers = 2 * Math.PI * 0.08 * (14 + 11 - 0.8 / 3);
    const whole = frustum(14, 11) - frustum(10, 7) - chamfers - throughWall(4, 8.5, 12.5);
    expect(Math.abs(found / whole - 1)).toBeLessThan(1e-3);
  });

  it("read back from the mesh predicts the same notes within 0.2 cents", async () => {
    const body = await whistle();
    const measured = WHISTLE.replace("tube: 16", `tube: ${openingAt(cut(body, 2, 100.3), [0, 0]).diameter}`)
      .replace(/at: 394.1/, `at: ${Math.max(...body.filter((_, i) => i % 3 === 2))}`)
      .replaceAll(/at: ([\d.]+), diameter: ([\d.]+) \}/g, (_, at) => {
        const hole = openingAt(cut(body, 1, 9.9), [0, Number(at)]);
        return `at: ${hole.middle[1]}, diameter: ${hole.diameter} }`;
      });
    expect(measured).not.toBe(WHISTLE);
    const [drawn, made] = [soundings(WHISTLE), soundings(measured)];
    for (const [i, hz] of drawn.entries()) expect(Math.abs(1200 * Math.log2((made[i] ?? 0) / hz))).toBeLessThan(0.2);
  });

  it("goes together: tenon and socket do not touch, and leave the gap that was asked for", async () => {
    const design = WHISTLE.replace("  - { at: 394.1", "  - { at: 150, diameter: =tube, joint: true }\n  - { at: 394.1");
    const parts = await partsOf(design);
    const sizes = (name: string) => parts.find((part) => part.name === name)?.soup ?? new Float64Array();
    const foot = sizes("foot");
    const head = sizes("head");
    const width = (soup: Float64Array) => Math.max(...soup.filter((_, i) => i % 3 === 0));
    const [f, h] = [width(foot) / 2, width(head) / 2];
    // The foot stands tenon up: its top is 16 mm above the shoulder. The head's socket is at its bottom.
    const top = Math.max(...foot.filter((_, i) => i % 3 === 2));
    const tenon = Math.max(...cut(foot, 2, top - 15).flatMap((loop) => loop.map(([x]) => x - f)));
    const socket = openingAt(cut(head, 2, 5), [h, h]).diameter / 2;
    expect(Math.abs(socket - tenon - 0.2)).toBeLessThan(MEASURED);
    expect(top - 244.1).toBeCloseTo(16, 3);
  });
});

/** mm³ of a round hole through a shell of radii `inner` and `outer`, from one side. */
function throughWall(radius: number, inner: number, outer: number): number {
  const steps = 400;
  let sum = 0;
  for (let i = 0; i < steps; i++) {
    const x = -radius + (2 * radius * (i + 0.5)) / steps;
    const along = 2 * Math.sqrt(radius ** 2 - x ** 2);
    sum += along * (Math.sqrt(outer ** 2 - x ** 2) - Math.sqrt(inner ** 2 - x ** 2));
  }
  return (sum * 2 * radius) / steps;
}
