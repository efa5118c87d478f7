/**
 * 3MF packages: a zip of XML parts, by the 3MF Core Specification 1.3 and the Open Packaging Conventions (ECMA-376 part 2). The same
 * meshes give the same bytes: no time of day is in them.
 */

import { strToU8, zipSync } from "fflate";
import { xmlText } from "../../escape/xml.js";
import type { Mesh, Point3 } from "../solid/kernel.js";

export interface Placed3mfPart {
  readonly name: string;
  readonly mesh: Mesh;
  /** Where it stands on the bed. */
  readonly move: Point3;
}

export interface Metadata {
  readonly title: string;
  readonly description: string;
  /** Name and version of the program. */
  readonly application: string;
}

const XML = '<?xml version="1.0" encoding="UTF-8"?>\n';
const CONTENT_TYPES = `${XML}<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>\n`;
const RELATIONSHIPS = `${XML}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>\n`;

/** The first day a zip archive can name. Its parts are local time: the bytes are the same in every zone. */
const NO_DATE = () => new Date(1980, 0, 1);

export function threeMf(parts: readonly Placed3mfPart[], metadata: Metadata): Uint8Array {
  const options = { mtime: NO_DATE(), level: 6 } as const;
  return zipSync({
    "[Content_Types].xml": [strToU8(CONTENT_TYPES), options],
    "_rels/.rels": [strToU8(RELATIONSHIPS), options],
    "3D/3dmodel.model": [strToU8(model(parts, metadata)), options],
  });
}

function model(parts: readonly Placed3mfPart[], { title, description, application }: Metadata): string {
  const objects = parts.map(({ name, mesh }, i) => object(i + 1, name, mesh));
  const items = parts.map(
    ({ move }, i) => `<item objectid="${i + 1}" transform="1 0 0 0 1 0 0 0 1 ${move.map(decimal).join(" ")}"/>\n`,
  );
  return [
    XML,
    '<model unit="millimeter" xml:lang="en-US" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">\n',
    `<metadata name="Title">${xmlText(title)}</metadata>\n`,
    `<metadata name="Description">${xmlText(description)}</metadata>\n`,
    `<metadata name="Application">${xmlText(application)}</metadata>\n`,
    `<resources>\n${objects.join("")}</resources>\n<build>\n${items.join("")}</build>\n</model>\n`,
  ].join("");
}

function object(id: number, name: string, { vertices, triangles }: Mesh): string {
  const lines: string[] = [`<object id="${id}" type="model" name="${xmlText(name)}"><mesh><vertices>\n`];
  const at = (numbers: Float32Array | Uint32Array, i: number) => numbers[i] ?? 0;
  for (let i = 0; i < vertices.length; i += 3)
    lines.push(
      `<vertex x="${decimal(at(vertices, i))}" y="${decimal(at(vertices, i + 1))}" z="${decimal(at(vertices, i + 2))}"/>\n`,
    );
  lines.push("</vertices><triangles>\n");
  for (let i = 0; i < triangles.length; i += 3)
    lines.push(`<triangle v1="${at(triangles, i)}" v2="${at(triangles, i + 1)}" v3="${at(triangles, i + 2)}"/>\n`);
  lines.push("</triangles></mesh></object>\n");
  return lines.join("");
}

/** To a ten-thousandth of a micrometre, without exponents, which not every reader accepts. */
function decimal(value: number): string {
  const text = value.toFixed(7);
  const short = text.replace(/\.?0+$/, "");
  return short === "-0" || short === "" ? "0" : short;
}
