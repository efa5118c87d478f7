/**
 * What surveying 20 MB of triangles costs, printed and never asserted: processor time, as so many calibration loops, and the most memory the
 * process had. Goals: a tube 5 s, a row of pipes and a vessel 10 s. Making the meshes takes longer than surveying them.
 */
import { stl } from "../../server/src/make/file/stl.js";
import { readMesh } from "../../server/src/survey/file/readMesh.js";
import { survey } from "../../server/src/survey/survey.js";
import { type Body, implicitMesh } from "../support/implicitMesh.js";

const drilled = (wood: number, x: number, y: number, z: number, holes: readonly number[]) =>
  holes.reduce((body, at) => Math.max(body, y > 0 ? 3.5 - Math.hypot(x, z - at) : -9), wood);

const tube: Body = (x, y, z) => {
  const r = Math.hypot(x, y);
  return drilled(Math.max(r - 9, 6 - r, -z, z - 220), x, y, z, [90, 115, 140, 165, 190]);
};

const PIPES = [190, 165, 140, 120] as const;
const row: Body = (x, y, z) => {
  const pipe = (length: number, i: number) => {
    const r = Math.hypot(x - 14 * i, y);
    return { tube: Math.max(r - 8, -z, z - length - 4), bore: Math.max(r - 5.5, z - length) };
  };
  const all = PIPES.map(pipe);
  return Math.max(Math.min(...all.map((each) => each.tube)), -Math.min(...all.map((each) => each.bore)));
};

const vessel: Body = (x, y, z) => {
  const at = (grown: number) => {
    const [a, b, c] = [31 + grown, 22 + grown, 20 + grown];
    const q = Math.hypot(x / a, y / b, z / c);
    return ((q - 1) * q) / Math.max(1e-9, Math.hypot(x / a ** 2, y / b ** 2, z / c ** 2));
  };
  const wood = Math.max(at(3), -at(0));
  const hole = (dx: number, dy: number, d: number) => (z > 0 ? d / 2 - Math.hypot(x - dx, y - dy) : -9);
  return Math.max(wood, hole(-12, -6, 4), hole(-12, 6, 5), hole(4, 0, 6), x > 0 ? 4.5 - Math.hypot(y, z) : -9);
};

/** Cells that make some 400,000 triangles. */
const MESHES = [
  ["tube", tube, [-10, -10, -1], [10, 10, 221], 0.68],
  ["row of pipes", row, [-9, -9, -1], [51, 9, 196], 1],
  ["vessel", vessel, [-36, -27, -25], [36, 27, 25], 0.61],
] as const;

const used = (work: () => unknown) => {
  const begun = process.cpuUsage();
  work();
  return process.cpuUsage(begun).user / 1e6;
};

const loop = used(() => {
  let sum = 0;
  for (let i = 1; i <= 1e8; i++) sum += 1 / Math.sqrt(i + sum * 1e-9);
  return sum;
});
console.log(`calibration loop of 1e8: ${loop.toFixed(2)} s`);
for (const [name, body, low, high, side] of MESHES) {
  const soup = implicitMesh(body, low, high, [side, side, side]);
  const bytes = binary(soup);
  let kind = "";
  const seconds = used(() => {
    kind = survey(readMesh(bytes, "mesh.stl")).body.kind;
  });
  const memory = (process.resourceUsage().maxRSS / 1024).toFixed(0);
  console.log(
    `${name.padEnd(13)} ${(bytes.length / 1e6).toFixed(1)} MB, ${kind}: ${seconds.toFixed(1)} s, ${(seconds / loop).toFixed(1)} loops; ` +
      `at most ${memory} MB so far, the mesh's making included`,
  );
}

/** As a file has it. */
function binary(soup: Float64Array): Uint8Array {
  return stl({
    vertices: Float32Array.from(soup),
    triangles: Uint32Array.from({ length: soup.length / 3 }, (_, i) => i),
  });
}
