/** Mesh files: every form that is read, and those that lie, break off or blow up, which are told and never thrown at. */
import fc from "fast-check";
import { strToU8, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { readMesh } from "../../server/src/survey/file/readMesh.js";
import { CannotSurvey } from "../../server/src/survey/refusal.js";
import { survey } from "../../server/src/survey/survey.js";

/** One triangle, as each format has it. */
const CORNERS = [0, 0, 0, 1, 0, 0, 0, 2.5, 0];

function binary(count: number, corners: readonly number[], heading = "solid but binary"): Uint8Array {
  const bytes = new Uint8Array(84 + 50 * (corners.length / 9));
  bytes.set(strToU8(heading));
  const view = new DataView(bytes.buffer);
  view.setUint32(80, count, true);
  for (const [i, value] of corners.entries()) view.setFloat32(96 + 50 * Math.floor(i / 9) + 4 * (i % 9), value, true);
  return bytes;
}

const MESH = `<mesh><vertices><vertex x="0" y="0" z="0"/><vertex y='0' x='1' z='0'/><vertex x="0" y="2.5e0" z="0"/></vertices>
<triangles><triangle v1="0" v2="1" v3="2"/></triangles></mesh>`;

function packed(model: string): Uint8Array {
  return zipSync({ "3D/3dmodel.model": strToU8(model) });
}

/** A package whose directory says so. */
function unpackingTo(size: number): Uint8Array {
  const bytes = packed("");
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  // ZIP file format specification (APPNOTE.TXT) 4.3.12 and 4.3.16: where the directory begins, and its first entry's uncompressed size.
  const directory = view.getUint32(bytes.length - 22 + 16, true);
  view.setUint32(directory + 24, size, true);
  return bytes;
}

const model = (unit: string, resources: string, build: string) =>
  packed(
    `<?xml version="1.0"?><!-- <item/> --><model unit="${unit}" xmlns="x"><resources>${resources}</resources><build>${build}</build></model>`,
  );

describe("are read", () => {
  test.each([
    ["binary STL whose heading begins with `solid`", "a.stl", binary(1, CORNERS)],
    [
      "STL as text with CRLF",
      "a.stl",
      strToU8(
        "solid x\r\nfacet normal 0 0 1\r\nouter loop\r\nvertex 0 0 0\r\nvertex 1e0 0 0\r\nvertex 0 +2.5 0\r\nendloop\r\nendfacet\r\nendsolid",
      ),
    ],
    [
      "OBJ with textures, normals and negative indices",
      "a.OBJ",
      strToU8("# x\nv 0 0 0\nvn 0 0 1\nv 1 0 0\nv 0 2.5 0\nf 1/1/1 -2//1 3\n"),
    ],
  ])("%s", (_, name, bytes) => {
    const { parts, millimetres } = readMesh(bytes, name);
    expect(parts.map((part) => [...part])).toEqual([CORNERS]);
    expect(millimetres).toBeUndefined();
  });

  test("3MF in inches, with a component in a component, each moved", () => {
    const resources = `<object id="1">${MESH}</object>
      <object id="2"><components><component objectid="1" transform="0 1 0 -1 0 0 0 0 1 10 0 0"/></components></object>`;
    const { parts, millimetres } = readMesh(
      model("inch", resources, '<item objectid="2" transform="1 0 0 0 1 0 0 0 1 0 0 1"/>'),
      "a.3mf",
    );
    // x' = 10 − y, y' = x, z' = z + 1, by the specification's row vectors.
    const expected = [10, 0, 1, 10, 1, 1, 7.5, 0, 1].map((inches) => expect.closeTo(25.4 * inches, 9));
    expect([...(parts[0] ?? [])]).toEqual(expected);
    expect(millimetres).toBe(25.4);
  });

  test("a face of four corners becomes two triangles", () => {
    expect(readMesh(strToU8("v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nf 1 2 3 4"), "a.obj").parts[0]).toHaveLength(18);
  });
});

describe("are refused with a reason", () => {
  const nested = Array.from(
    { length: 30 },
    (_, i) => `<object id="${i + 2}"><components>${`<component objectid="${i + 1}"/>`.repeat(3)}</components></object>`,
  );
  test.each([
    ["a count that lies", "a.stl", binary(7, CORNERS), /7 triangles and holds room for 1/],
    ["binary STL that is cut off", "a.stl", binary(1, CORNERS).slice(0, 100), /cut off/],
    ["text that is cut off", "a.stl", strToU8("solid x\nfacet\nvertex 0 0 0\nvertex 1 0 0\n"), /breaks off/],
    ["nothing", "a.stl", new Uint8Array(), /not an STL file/],
    [
      "no number",
      "a.stl",
      binary(1, [...CORNERS.slice(0, 8), Number.NaN]),
      /Triangle 1 has a corner that is not a point \(NaN\)/,
    ],
    ["a corner that is not there", "a.obj", strToU8("v 0 0 0\nf 1 2 3"), /Line 2 names a corner that is not there/],
    ["no triangles", "a.obj", strToU8("v 0 0 0\n"), /no triangles/],
    ["a package that is cut off", "a.3mf", model("inch", "", "").slice(0, 60), /cut off or damaged/],
    ["a model that breaks off", "a.3mf", packed('<model unit="inch"><build><item objectid="1"/>'), /breaks off/],
    ["an object that is not there", "a.3mf", model("inch", "", '<item objectid="1"/>'), /not in it/],
    [
      "an unknown unit",
      "a.3mf",
      model("furlong", `<object id="1">${MESH}</object>`, '<item objectid="1"/>'),
      /unit that is not known/,
    ],
    [
      "components without end",
      "a.3mf",
      model(
        "inch",
        '<object id="1"><components><component objectid="1"/></components></object>',
        '<item objectid="1"/>',
      ),
      /without end/,
    ],
    [
      "components that multiply",
      "a.3mf",
      model("inch", `<object id="1">${MESH}</object>${nested.join("")}`, '<item objectid="31"/>'),
      /without end|million/,
    ],
    ["a package that would fill the memory", "a.3mf", unpackingTo(300e6), /unpack to 300 MB/],
  ])("%s", (_, name, bytes, words) => {
    expect(() => readMesh(bytes, name)).toThrow(words);
    expect(() => readMesh(bytes, name)).toThrow(CannotSurvey);
  });

  test("damaged bytes of any kind", () => {
    const sound = [
      binary(2, [...CORNERS, ...CORNERS]),
      model("inch", `<object id="1">${MESH}</object>`, '<item objectid="1"/>'),
    ] as const;
    const damage = fc.array(fc.tuple(fc.nat(), fc.nat(255)), { maxLength: 12 });
    fc.assert(
      fc.property(
        fc.constantFrom(...sound),
        damage,
        fc.constantFrom("a.stl", "a.3mf", "a.obj"),
        (bytes, changes, name) => {
          const harmed = bytes.slice();
          for (const [place, value] of changes) harmed[place % harmed.length] = value;
          try {
            survey(readMesh(harmed, name));
          } catch (error) {
            if (!(error instanceof CannotSurvey)) throw error;
          }
        },
      ),
      { numRuns: 300 },
    );
  });

  test("meshes that are not instruments", () => {
    const finite = fc.float({ noNaN: true, noDefaultInfinity: true, min: -1e6, max: 1e6 });
    const soups = fc.array(finite, { minLength: 9, maxLength: 900 });
    fc.assert(
      fc.property(soups, (numbers) => {
        const soup = Float64Array.from(numbers.slice(0, numbers.length - (numbers.length % 9)));
        try {
          survey({ parts: [soup], millimetres: undefined });
        } catch (error) {
          if (!(error instanceof CannotSurvey)) throw error;
        }
      }),
      { numRuns: 200 },
    );
  });
});
