/** 3MF and STL as files. Formats: 3MF Core Specification 1.3; Open Packaging Conventions (ECMA-376 part 2); STL from memory. */

import fc from "fast-check";
import { XMLValidator } from "fast-xml-parser";
import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { solidFiles } from "../../server/src/make/solid/files.js";
import { anyText } from "../support/anyText.js";
import { documentOf, fileOf, WHISTLE } from "../support/designs.js";
import { read3mf, readStl, topology, volume } from "../support/mesh.js";

const JOINTED = WHISTLE.replace("  - { at: 394.1", "  - { at: 150, diameter: =tube, joint: true }\n  - { at: 394.1");

async function bytesOf(text: string, format: "3mf" | "stl" = "3mf") {
  const { files } = await solidFiles(documentOf(fileOf(text)), format, "Borewright 0.0.0");
  return files;
}
const first = async (text: string) => (await bytesOf(text))[0]?.bytes ?? new Uint8Array();

describe("a 3MF package", () => {
  it("holds each part as a closed object in millimetres, standing on the bed and apart from the others", async () => {
    const { xml, objects } = read3mf(await first(JOINTED));
    expect(xml).toMatch(
      /<model unit="millimeter"[^>]* xmlns="http:\/\/schemas.microsoft.com\/3dmanufacturing\/core\/2015\/02">/,
    );
    expect(objects.map(({ name }) => name)).toEqual(["head", "foot", "block"]);
    const boxes = objects.map(({ soup, move }) => {
      expect(topology(soup)).toMatchObject({ pieces: 1, openEdges: 0, degenerate: 0 });
      expect(volume(soup)).toBeGreaterThan(0);
      const range = (axis: number) => {
        const values = soup.filter((_, i) => i % 3 === axis).map((value) => value + (move[axis] ?? Number.NaN));
        return [Math.min(...values), Math.max(...values)] as const;
      };
      expect(range(2)[0]).toBeCloseTo(0, 6);
      return [range(0), range(1)] as const;
    });
    for (const [i, a] of boxes.entries())
      for (const b of boxes.slice(0, i)) {
        const apart = [0, 1].some((axis) => {
          const [p, q] = [a[axis as 0 | 1], b[axis as 0 | 1]];
          return p[0] > q[1] + 1 || q[0] > p[1] + 1;
        });
        expect(apart).toBe(true);
      }
  });

  it("is well-formed and says the design's name, whatever signs are in it", async () => {
    // One build is enough: the name changes nothing of the solid.
    const names = fc.sample(anyText(20), { numRuns: 6, seed: 7 });
    for (const name of ["<a & \"b\"> 'c' ]]>", "Möwe 🎵", ...names]) {
      const named = WHISTLE.replace("name: Test whistle   # first of its kind", `name: ${JSON.stringify(name)}`);
      const { documents } = fileOf(named);
      if (documents[0]?.resolution.instrument.name === undefined) continue;
      const { xml } = read3mf(await first(named));
      expect(XMLValidator.validate(xml)).toBe(true);
    }
    const { xml } = read3mf(await first(WHISTLE.replace("Test whistle", '"Quay <2> & co"')));
    expect(xml).toContain('<metadata name="Title">Quay &lt;2&gt; &amp; co</metadata>');
    expect(xml).toContain('<metadata name="Application">Borewright 0.0.0</metadata>');
  });

  it("names its parts and the way to its model as the packaging conventions ask", async () => {
    const files = unzipSync(await first(WHISTLE));
    expect(Object.keys(files)).toEqual(["[Content_Types].xml", "_rels/.rels", "3D/3dmodel.model"]);
    const text = (name: string) => new TextDecoder().decode(files[name]);
    expect(text("[Content_Types].xml")).toContain(
      'ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"',
    );
    expect(text("_rels/.rels")).toContain('Target="/3D/3dmodel.model"');
    for (const name of Object.keys(files)) expect(XMLValidator.validate(text(name))).toBe(true);
  });

  it("has the same bytes every time, in every zone", async () => {
    const zone = process.env.TZ;
    try {
      process.env.TZ = "Pacific/Auckland";
      const there = await first(WHISTLE);
      process.env.TZ = "America/Lima";
      expect(Buffer.from(await first(WHISTLE)).equals(Buffer.from(there))).toBe(true);
    } finally {
      if (zone === undefined) delete process.env.TZ;
      else process.env.TZ = zone;
    }
  });
});

describe("STL files", () => {
  it("are one per part, with the same triangles as the package", async () => {
    const files = await bytesOf(JOINTED, "stl");
    expect(files.map(({ suffix }) => suffix)).toEqual(["-head", "-foot", "-block"]);
    const { objects } = read3mf(await first(JOINTED));
    for (const [i, { bytes }] of files.entries()) {
      const soup = readStl(bytes);
      expect(soup.length).toBe(objects[i]?.soup.length);
      expect(topology(soup)).toMatchObject({ openEdges: 0, degenerate: 0 });
      expect(Buffer.from(bytes.subarray(0, 5)).toString()).not.toBe("solid");
    }
  });

  it("have normals that look outward", async () => {
    const [file] = await bytesOf(WHISTLE, "stl");
    const view = new DataView(file?.bytes.buffer ?? new ArrayBuffer(84));
    const number = (k: number) => view.getFloat32(84 + 4 * k, true);
    const [nx, ny, nz] = [number(0), number(1), number(2)];
    const corner = (k: number) => [0, 1, 2].map((axis) => number(3 + 3 * k + axis)) as [number, number, number];
    const [a, b, c] = [corner(0), corner(1), corner(2)];
    const [u, v] = [b, c].map((each) => each.map((value, axis) => value - (a[axis] ?? 0))) as [number[], number[]];
    const cross = [0, 1, 2].map((i) => {
      const [j, k] = [(i + 1) % 3, (i + 2) % 3];
      return (u[j] ?? 0) * (v[k] ?? 0) - (u[k] ?? 0) * (v[j] ?? 0);
    });
    const length = Math.hypot(...cross);
    expect([nx, ny, nz].every((value, axis) => Math.abs(value - (cross[axis] ?? 0) / length) < 1e-5)).toBe(true);
  });
});

describe("the sheet", () => {
  const sheetOf = async (bed: string) =>
    (await solidFiles(documentOf(fileOf(`${WHISTLE}print: { bed: ${bed} }\n`)), "stl", "")).sheet;

  it("names what the printer does not reach, and what does not lie on the bed at once", async () => {
    // The body stands 421.35 mm high and 22 mm wide, the block 15.84 mm.
    expect(await sheetOf("[220, 220, 400]")).toMatch(/Larger than `print.bed` as it stands: body\. Split the tube/);
    const roomy = await sheetOf("[220, 220, 422]");
    expect(roomy).not.toContain("print.bed");
    expect(roomy).not.toContain("at once");
    expect(await sheetOf("[23, 23, 422]")).toContain("Not all of it lies on the bed at once");
  });
});
