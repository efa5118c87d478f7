/**
 * 300 random designs of all families: each is made closed, in one piece, with its openings, its analytic volume and no wall thinner than the
 * printer closes, or refused at a place in its text.
 */
import { preflight } from "../../server/src/design/making/preflight.js";
import { placeFinding } from "../../server/src/document/place.js";
import { readDesign } from "../../server/src/document/read.js";
import { stl } from "../../server/src/make/file/stl.js";
import { CannotMake, makeSolid } from "../../server/src/make/solid/build.js";
import { worstVolume } from "../support/analytic/volumes.js";
import { readStl, topology } from "../support/mesh.js";
import { seededDesign } from "../support/seededDesigns.js";
import { isLabium, thinnestWall } from "../support/thinnestWall.js";

/** Share of a volume; what the sides of polygons take of a wall, mm; points of a part that its wall is looked at from. */
const VOLUME = 1e-3;
const FACETS = 0.02;
const WALL_RAYS = 250;
const DESIGNS = 300;
const FIRST = 1000;

async function main(): Promise<void> {
  const counts = new Map<string, number>();
  const count = (what: string) => counts.set(what, (counts.get(what) ?? 0) + 1);
  let failed = 0;
  let [worst, thinnest] = [0, Number.POSITIVE_INFINITY];
  for (let seed = FIRST; seed < FIRST + DESIGNS; seed++) {
    const document = readDesign(seededDesign(seed), "yaml").documents[0];
    if (document === undefined) throw new Error("no design");
    const error = document.findings.find(({ severity }) => severity === "error");
    if (error !== undefined) {
      count(`no instrument: ${error.code}`);
      continue;
    }
    try {
      const made = await makeSolid(document.resolution);
      const { leastWall: least } = preflight(document.resolution);
      const { name: part, off } = worstVolume(made, least, VOLUME);
      worst = Math.max(worst, Math.abs(off));
      if (!(Math.abs(off) < VOLUME)) {
        failed++;
        console.log(`FAILED ${seed} ${part}: a volume ${(100 * off).toFixed(3)} % off`);
      }
      for (const [i, { name, mesh, isSmall }] of made.parts.entries()) {
        const soup = readStl(stl(mesh));
        const wall = isSmall ? undefined : thinnestWall(soup, (at) => isLabium(made.outline, i, at), WALL_RAYS);
        thinnest = Math.min(thinnest, (wall?.mm ?? Number.POSITIVE_INFINITY) - least);
        if (wall !== undefined && wall.mm < least - FACETS) {
          failed++;
          const at = wall.at.map((x) => x.toFixed(1)).join(", ");
          console.log(`FAILED ${seed} ${name}: a wall of ${wall.mm.toFixed(3)} mm at ${at}`);
        }
        const { pieces, openEdges, degenerate } = topology(soup);
        count("parts");
        if (pieces === 1 && openEdges === 0 && degenerate === 0) continue;
        failed++;
        console.log(`FAILED ${seed} ${name}: ${pieces} pieces, ${openEdges} open edges, ${degenerate} degenerate`);
      }
      count("made");
    } catch (caught) {
      if (!(caught instanceof CannotMake)) throw caught;
      for (const code of new Set(caught.findings.map((finding) => finding.code))) count(`refused: ${code}`);
      count("refused");
      for (const finding of caught.findings) {
        const { span } = placeFinding(document, finding);
        if (finding.code === "solid/not-one-piece") console.log(`${seed}: ${finding.message}`);
        if (span.end > span.start) continue;
        failed++;
        console.log(`FAILED ${seed}: no place for ${finding.message}`);
      }
    }
  }
  for (const [what, number] of [...counts].sort()) console.log(`${what}: ${number}`);
  console.log(`volumes within ${(100 * worst).toFixed(3)} % of the analytic ones`);
  console.log(`thinnest wall: the least that the printer closes and ${thinnest.toFixed(3)} mm`);
  process.exitCode = failed === 0 ? 0 : 1;
}
void main();
