/** 300 designs of all families by chance: each is made closed, in one piece and with its openings, or refused at a place in its text. */
import { placeFinding } from "../../server/src/document/place.js";
import { readDesign } from "../../server/src/document/read.js";
import { stl } from "../../server/src/make/file/stl.js";
import { CannotMake, makeSolid } from "../../server/src/make/solid/build.js";
import { readStl, topology } from "../support/mesh.js";
import { seededDesign } from "../support/seededDesigns.js";

const DESIGNS = 300;
const FIRST = 1000;

async function main(): Promise<void> {
  const counts = new Map<string, number>();
  const count = (what: string) => counts.set(what, (counts.get(what) ?? 0) + 1);
  let failed = 0;
  for (let seed = FIRST; seed < FIRST + DESIGNS; seed++) {
    const document = readDesign(seededDesign(seed), "yaml").documents[0];
    if (document === undefined) throw new Error("no design");
    const error = document.findings.find(({ severity }) => severity === "error");
    if (error !== undefined) {
      count(`no instrument: ${error.code}`);
      continue;
    }
    try {
      const { parts } = await makeSolid(document.resolution);
      for (const { name, mesh } of parts) {
        const { pieces, openEdges, degenerate } = topology(readStl(stl(mesh)));
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
  process.exitCode = failed === 0 ? 0 : 1;
}
void main();
