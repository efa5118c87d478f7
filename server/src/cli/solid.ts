/** `borewright solid FILE -o OUT.3mf`: the parts of an instrument, to be printed. */
import { findingLine } from "../document/findingLine.js";
import { placeFinding } from "../document/place.js";
import { jsonText } from "../escape/json.js";
import type { NewFile } from "../files/writeFiles.js";
import { suffixed } from "../make/file/madeFile.js";
import { CannotMake } from "../make/solid/build.js";
import { cautions } from "../make/solid/cautions.js";
import { type SolidFiles, type SolidFormat, solidFiles } from "../make/solid/files.js";
import { UnusableInput } from "./exitStatus.js";
import type { ReadFile } from "./files.js";

/** By the ending of the file to write. @throws UnusableInput */
export function formatOf(output: string | undefined): SolidFormat {
  if (output === undefined) throw new UnusableInput("-o", "is missing: name the file to write, such as -o whistle.3mf");
  const ending = /\.(3mf|stl)$/i.exec(output)?.[1]?.toLowerCase();
  if (ending === "3mf" || ending === "stl") return ending;
  throw new UnusableInput(output, "end its name in .3mf, for all parts in one file, or in .stl, for one file per part");
}

/** Rejects with UnusableInput where it cannot be made, each reason with its place. @param index of the instrument in the file */
export async function solidOf(
  read: ReadFile,
  index: number,
  format: SolidFormat,
  program: string,
): Promise<SolidFiles> {
  const document = read.design.documents[index];
  if (document === undefined) throw new UnusableInput(read.file, `has no instrument ${index + 1}`);
  const errors = document.findings.filter(({ severity }) => severity === "error");
  if (errors.length > 0) throw refusal(read, errors);
  try {
    return await solidFiles(document, format, program);
  } catch (error) {
    if (error instanceof CannotMake) {
      const placed = error.findings.map((finding) => placeFinding(document, finding));
      throw refusal(read, placed.length > 0 ? placed : document.findings);
    }
    throw error;
  }
}

function refusal(read: ReadFile, findings: ReadFile["design"]["documents"][number]["findings"]): UnusableInput {
  const lines = [...findings].sort((a, b) => a.span.start - b.span.start).map((finding) => findingLine(read, finding));
  return new UnusableInput(read.file, "cannot be made as a solid:", lines);
}

/** The files under the name asked for. */
export function namedFiles(output: string, { files }: SolidFiles): readonly NewFile[] {
  return files.map(({ suffix, bytes }) => ({ file: suffixed(output, suffix), text: bytes }));
}

export function solidJson(file: string, { made: { outline, parts } }: SolidFiles, written: readonly NewFile[]): string {
  return jsonText({
    file,
    name: outline.name ?? null,
    written: written.map((each) => each.file),
    parts: parts.map(({ name, size, volume, mesh, stands, advice }) => ({
      name,
      sizeMm: size.map(hundredths),
      volumeCm3: hundredths(volume / 1000),
      triangles: mesh.triangles.length / 3,
      stands,
      advice,
    })),
    assumed: outline.assumed,
    cautions: cautions({ hasSmallParts: parts.some((part) => part.isSmall) }),
  });
}

function hundredths(value: number): number {
  return Number(value.toFixed(2));
}
