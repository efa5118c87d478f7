/** Solids of designs written as text, and as a reader of their files finds them. */
import { syntaxOf } from "../../server/src/document/read.js";
import { stl } from "../../server/src/make/file/stl.js";
import { CannotMake, makeSolid } from "../../server/src/make/solid/build.js";
import { documentOf, fileOf } from "./designs.js";
import { readStl, type Soup } from "./mesh.js";

export interface FoundPart {
  readonly name: string;
  readonly soup: Soup;
}

export async function partsOf(text: string, name = "a.bore.yaml"): Promise<readonly FoundPart[]> {
  const { resolution, findings } = documentOf(fileOf(text, syntaxOf(name)));
  const errors = findings.filter(({ severity }) => severity === "error");
  if (errors.length > 0) throw new Error(errors.map(({ message }) => message).join("\n"));
  const { parts } = await makeSolid(resolution);
  return parts.map(({ name: part, mesh }) => ({ name: part, soup: readStl(stl(mesh)) }));
}

export async function partOf(text: string, part: string, name?: string): Promise<Soup> {
  const found = (await partsOf(text, name)).find((each) => each.name === part);
  if (found === undefined) throw new Error(`no part ${part}`);
  return found.soup;
}

/** `code path` of each reason why it cannot be made. */
export async function refusals(text: string): Promise<readonly string[]> {
  try {
    await makeSolid(documentOf(fileOf(text)).resolution);
  } catch (error) {
    if (error instanceof CannotMake) return error.findings.map(({ code, path }) => `${code} ${path.join(".")}`);
    throw error;
  }
  return [];
}

/** Moves and turns a part back from the bed: along z as drawn, its axis on x 0 and y 0. It stood with the mouth's end up. */
export function asDrawn(soup: Soup, axis: readonly [number, number], top: number): Soup {
  return soup.map((value, i) => {
    if (i % 3 === 0) return value - axis[0];
    return i % 3 === 1 ? axis[1] - value : top - value;
  });
}
