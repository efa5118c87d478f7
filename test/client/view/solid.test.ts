/** The solid in the hand: what is measured under the pointer, and how it turns. The mesh is the server's own answer. */
import fc from "fast-check";
import { expect, it } from "vitest";
import { measured } from "../../../client/view/solid/measured.js";
import { hitOf, sceneOf, thicknessAt } from "../../../client/view/solid/scene.js";
import { cross, dot, type Turn, turned } from "../../../client/view/solid/vector.js";
import { SOLID, type SolidAnswer } from "../../../server/src/protocol/making.js";
import { client, PULLING, URI } from "../../support/client.js";
import { WHISTLE } from "../../support/designs.js";

it("a point of the whistle is measured from the mouth and the axis, with the wall under it", async () => {
  const self = await client(PULLING);
  self.open(WHISTLE);
  const { parts } = await self.connection.sendRequest<SolidAnswer>(SOLID, { uri: URI, documentIndex: 0 });
  expect(parts.map(({ name }) => name)).toEqual(["body", "block"]);
  const scene = sceneOf(parts);
  // From the front, 100 mm below the window: bore 16, wall 3.
  const hit = hitOf(scene, [0.01, 500, 100], [0, -1, 0]);
  if (hit === undefined) throw new Error("nothing is met");
  expect(hit.at[1]).toBeCloseTo(11, 1);
  expect(thicknessAt(scene, hit)).toBeCloseTo(3, 1);
  expect(measured(scene, hit, [0, 11, 0])).toBe(
    "body: 100.0 mm from the mouth's middle, 11.0 mm from the axis · 3.0 mm thick here · 100.0 mm from the clicked point",
  );
  // Through a hole the far wall is met; cut open, what lies before the middle is not.
  expect(hitOf(scene, [0, 500, 173.3], [0, -1, 0])?.at[1]).toBeCloseTo(-8, 1);
  expect(hitOf(scene, [500, 0, 100], [-1, 0, 0], ([x]) => x <= 0)?.at[0]).toBeCloseTo(-8, 1);
  // The block stands in the head, where it is pushed to.
  expect(scene.names[hitOf(scene, [0, -0.01, -500], [0, 0, 1])?.part ?? -1]).toBe("block");
});

it("says why there is nothing to turn", async () => {
  const self = await client(PULLING);
  self.open(WHISTLE.replace("cutUp: 4.5, labium: 1 }", "cutUp: 4.5, labium: 1 }\n  windway: { width: 17 }"));
  const { parts, refused } = await self.connection.sendRequest<SolidAnswer>(SOLID, { uri: URI, documentIndex: 0 });
  expect(parts).toEqual([]);
  expect(refused).toMatch(/^The windway is 17 mm wide/);
});

it("stays square and as it is seen, however it is turned", () => {
  const first: Turn = [
    [0, 0, 1],
    [0, 1, 0],
    [-1, 0, 0],
  ];
  const angle = fc.double({ min: -3, max: 3, noNaN: true });
  fc.assert(
    fc.property(fc.array(fc.tuple(angle, angle), { maxLength: 30 }), (turns) => {
      const [x, y, z] = turns.reduce<Turn>((turn, [a, b]) => turned(turn, a, b), first);
      for (const [one, other] of [
        [x, y],
        [y, z],
        [z, x],
      ] as const)
        expect(Math.abs(dot(one, other))).toBeLessThan(1e-9);
      expect(dot(cross(x, y), z)).toBeCloseTo(1, 9);
    }),
  );
  expect(turned(first, Math.PI / 2, 0)[2]).toEqual([expect.closeTo(0), expect.closeTo(1), expect.closeTo(0)]);
});
