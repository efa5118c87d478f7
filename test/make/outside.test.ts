/** What a design may ask for outside its bore, measured back from the mesh: ring, groove, flat, thumb rest. */
import { expect, it } from "vitest";
import { makeSolid } from "../../server/src/make/solid/build.js";
import { inPlace } from "../../server/src/make/solid/together.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";
import { panPipe } from "../support/families.js";
import { cut, type Soup } from "../support/mesh.js";

const JOINTED = WHISTLE.replace("  - { at: 394.1", "  - { at: 150, diameter: =tube, joint: true }\n  - { at: 394.1");

/** Parts of the whistle in its own axes: bore 16, wall 3, a joint at 150. */
async function parts(solid: string): Promise<(name: string) => Soup> {
  const made = await makeSolid(documentOf(fileOf(`${JOINTED}solid: { ${solid} }\n`)).resolution);
  return (name) => {
    const part = made.parts.find((each) => each.name === name);
    if (part === undefined) throw new Error(`no part ${name}`);
    const { vertices, triangles } = inPlace(part);
    return Float64Array.from([...triangles].flatMap((corner) => [...vertices.subarray(3 * corner, 3 * corner + 3)]));
  };
}
const points = (soup: Soup, z: number) => cut(soup, 2, z).flat();
const widest = (soup: Soup, z: number) => Math.max(...points(soup, z).map(([x]) => x));
const lowest = (soup: Soup, z: number) => Math.min(...points(soup, z).map(([, y]) => y));

/** What the sides of polygons leave, mm. */
function near(is: number, wanted: number): void {
  expect(Math.abs(is - wanted), `${is} for ${wanted}`).toBeLessThan(0.02);
}

it("a ring stands out at the joint where it is asked for, and where tenon and socket need it", async () => {
  // Plain: half of the wall is the tenon's, its gap 0.2; the socket keeps 1.2 mm and a chamfer of 0.4 mm.
  near(widest((await parts("tenon: { finish: plain }"))("head"), 148), 9.4 + 0.2 + 1.2 + 0.4);
  near(widest((await parts("tenon: { finish: plain }, rings: true"))("head"), 148), 11 + 0.8);
  near(widest((await parts("rings: true"))("head"), 100), 11);
});

it("the tenon has a groove for thread or for cork, or none", async () => {
  const [thread, cork, plain] = await Promise.all(
    ["thread", "cork", "plain"].map(async (finish) => (await parts(`tenon: { finish: ${finish} }`))("foot")),
  );
  // In the middle of its 16 mm: least wall, 1.2 mm, round the bore; the shoulder beside the groove, 0.5 or 1 mm higher.
  for (const [foot, depth] of [
    [thread, 0.5],
    [cork, 1],
  ] as const) {
    near(widest(foot ?? new Float64Array(), 142), 9.2);
    near(widest(foot ?? new Float64Array(), 149), 9.2 + depth);
  }
  near(widest(plain ?? new Float64Array(), 142), 9.4);
});

it("a flat keeps it from rolling, and a rest stands where the thumb lies", async () => {
  const foot = (await parts("base: 8, thumbRest: { at: 360, height: 5 }"))("foot");
  const flat = points(foot, 250).filter(([, y]) => y < -10.99);
  near(Math.min(...flat.map(([x]) => x)), -4);
  near(Math.max(...flat.map(([x]) => x)), 4);
  near(lowest(foot, 360), -16);
  near(lowest((await parts("rings: false"))("foot"), 360), -11);
});

it("each stopper of a pan pipe stands in its own pipe once all is put together", async () => {
  const { parts: made } = await makeSolid(documentOf(fileOf(panPipe("wall: 2"))).resolution);
  const middles = made.slice(1).map((part) => {
    const xs = inPlace(part).vertices.filter((_, i) => i % 3 === 0);
    return (Math.min(...xs) + Math.max(...xs)) / 2;
  });
  // Bores of 15, 15 and 13 mm, walls of 2 mm shared.
  for (const [i, apart] of [17, 16].entries()) near((middles[i + 1] ?? 0) - (middles[i] ?? 0), apart);
});
