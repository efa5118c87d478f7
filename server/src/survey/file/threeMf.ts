/** 3MF packages, by the 3MF Core Specification 1.3 (zip, unit, items, nested components, transforms) and its production extension's paths. */
import { unzipSync } from "fflate";
import { t } from "../../words/translation.js";
import { CannotSurvey } from "../refusal.js";
import { type MeshFile, mustBeFew } from "./soup.js";
import { tagsOf } from "./tags.js";

/** The specification's six units, mm. */
const UNITS: Readonly<Record<string, number>> = {
  micron: 0.001,
  millimeter: 1,
  centimeter: 10,
  inch: 25.4,
  foot: 304.8,
  meter: 1000,
};
/** What a package may come to, unpacked, and how much more than packed: deflate cannot do better than 1032 (RFC 1951's longest match). */
const MOST_BYTES = 256e6;
const MOST_RATIO = 1032;
/** Components within components. */
const DEEPEST = 20;
const MOST_COMPONENTS = 10_000;

/** x y z 1 times this: rows of a 4 × 3 matrix, as the specification writes it. */
type Transform = readonly number[];
const UNMOVED: Transform = [1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0, 0];

interface Reference {
  readonly object: string;
  readonly transform: Transform;
}

interface Model {
  readonly unit: string;
  readonly items: readonly Reference[];
  readonly objects: ReadonlyMap<string, ModelObject>;
}

interface ModelObject {
  readonly vertices: number[];
  readonly triangles: number[];
  readonly components: Reference[];
}

/** @throws CannotSurvey */
export function read3mf(bytes: Uint8Array): MeshFile {
  const models = Object.entries(unpacked(bytes)).map(([path, text]) => readModel(`/${path}`, text));
  const root = models.find(({ items }) => items.length > 0);
  if (root === undefined) throw new CannotSurvey(t("The 3MF package has nothing to build in it. Export it again."));
  const millimetres = UNITS[root.unit];
  if (millimetres === undefined)
    throw new CannotSurvey(t`The 3MF package is in a unit that is not known: ${root.unit.slice(0, 20)}.`);
  const objects = new Map(models.flatMap((model) => [...model.objects]));
  const budget = { triangles: 0, components: 0 };
  const parts = root.items.map((item) => {
    const soup: number[] = [];
    place(item, UNMOVED, objects, soup, budget, 0);
    return Float64Array.from(soup, (value) => value * millimetres);
  });
  return { parts, millimetres };
}

function unpacked(bytes: Uint8Array): Record<string, Uint8Array> {
  let total = 0;
  try {
    return unzipSync(bytes, {
      filter: ({ name, size, originalSize }) => {
        if (!/\.model$/i.test(name)) return false;
        total += originalSize;
        if (total > MOST_BYTES || originalSize > MOST_RATIO * (size + 1))
          throw new CannotSurvey(
            t`The 3MF package would unpack to ${Math.round(total / 1e6)} MB or more: not read. Decimate the mesh and export it again.`,
          );
        return true;
      },
    });
  } catch (error) {
    if (error instanceof CannotSurvey) throw error;
    throw new CannotSurvey(t("The 3MF package is cut off or damaged. Export or copy it again."));
  }
}

function readModel(path: string, text: Uint8Array): Model {
  const objects = new Map<string, ModelObject>();
  const items: Reference[] = [];
  let unit = "millimeter";
  let current: ModelObject | undefined;
  let [triangles, isWhole] = [0, false];
  for (const { name, closes, empty, attribute } of tagsOf(text)) {
    if (name === "model") {
      if (closes) isWhole = true;
      else unit = attribute("unit") ?? unit;
    }
    if (closes) continue;
    const number = (key: string) => Number(attribute(key) ?? Number.NaN);
    const reference = (): Reference => ({
      object: `${attribute("path") ?? path}#${attribute("objectid")}`,
      transform: transformOf(attribute("transform")),
    });
    if (name === "vertex") current?.vertices.push(number("x"), number("y"), number("z"));
    else if (name === "triangle") {
      mustBeFew(++triangles);
      current?.triangles.push(number("v1"), number("v2"), number("v3"));
    } else if (name === "object" && !empty) {
      current = { vertices: [], triangles: [], components: [] };
      objects.set(`${path}#${attribute("id")}`, current);
    } else if (name === "component") current?.components.push(reference());
    else if (name === "item") items.push(reference());
  }
  if (!isWhole) throw new CannotSurvey(t("The model in the 3MF package breaks off. Export or copy it again."));
  return { unit, items, objects };
}

function transformOf(text: string | undefined): Transform {
  if (text === undefined) return UNMOVED;
  const numbers = text.trim().split(/\s+/).map(Number);
  if (numbers.length !== 12 || !numbers.every(Number.isFinite))
    throw new CannotSurvey(t`A transform in the 3MF package is not twelve numbers: ${text.slice(0, 40)}.`);
  return numbers;
}

/** First `inner`, then `outer`. */
function combined(inner: Transform, outer: Transform): Transform {
  return Array.from({ length: 12 }, (_, i) => {
    const [row, column] = [Math.floor(i / 3), i % 3];
    const at = (k: number) => (inner[3 * row + k] as number) * (outer[3 * k + column] as number);
    return at(0) + at(1) + at(2) + (row === 3 ? (outer[9 + column] as number) : 0);
  });
}

function place(
  reference: Reference,
  outer: Transform,
  objects: ReadonlyMap<string, ModelObject>,
  soup: number[],
  budget: { triangles: number; components: number },
  depth: number,
): void {
  const object = objects.get(reference.object);
  if (object === undefined)
    throw new CannotSurvey(t("The 3MF package builds an object that is not in it. Export it again."));
  if (depth > DEEPEST || ++budget.components > MOST_COMPONENTS)
    throw new CannotSurvey(
      t("The 3MF package has components within components without end. Export the body as one mesh."),
    );
  const moved = combined(reference.transform, outer);
  for (const component of object.components) place(component, moved, objects, soup, budget, depth + 1);
  budget.triangles += object.triangles.length / 3;
  mustBeFew(budget.triangles);
  const { vertices, triangles } = object;
  for (const corner of triangles) {
    if (!(corner >= 0 && 3 * corner < vertices.length))
      throw new CannotSurvey(
        t`A triangle in the 3MF package names corner ${corner}, which is not there. Export it again.`,
      );
    const [x, y, z] = [vertices[3 * corner], vertices[3 * corner + 1], vertices[3 * corner + 2]] as [
      number,
      number,
      number,
    ];
    for (let k = 0; k < 3; k++)
      soup.push(
        x * (moved[k] as number) +
          y * (moved[3 + k] as number) +
          z * (moved[6 + k] as number) +
          (moved[9 + k] as number),
      );
  }
}
