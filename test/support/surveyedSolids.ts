/** Files of designs as the product writes them, and predictions to compare surveys with. */
import { analyse } from "../../server/src/design/predict/analyse.js";
import type { DesignDocument } from "../../server/src/document/designFile.js";
import { solidFiles } from "../../server/src/make/solid/files.js";
import { documentOf, fileOf } from "./designs.js";

export async function solid3mf(text: string): Promise<Uint8Array> {
  const { files } = await solidFiles(documentOf(fileOf(text)), "3mf", "test");
  const [file] = files;
  if (file === undefined) throw new Error("nothing was made");
  return file.bytes;
}

/** Hz by `pattern register`. */
export function predictionsOf({ resolution }: Pick<DesignDocument, "resolution">): ReadonlyMap<string, number> {
  const { fingerings } = analyse(resolution.instrument);
  return new Map(
    fingerings.flatMap(({ fingering: { pattern, register }, predictedHz }) =>
      predictedHz === undefined ? [] : [[`${pattern} ${register}`, predictedHz] as const],
    ),
  );
}
