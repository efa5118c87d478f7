/** A solid as files: one 3MF package with all parts, or one STL file a part. */
import type { DesignDocument } from "../../document/designFile.js";
import { bedOf } from "../../instrument/making/makerLimits.js";
import type { MadeFile } from "../file/madeFile.js";
import { stl } from "../file/stl.js";
import { threeMf } from "../file/threeMf.js";
import { type Made, makeSolid } from "./build.js";
import { PRINT_AS_IT_IS } from "./cautions.js";
import { layOut } from "./lay.js";
import { sheet } from "./sheet.js";

export type SolidFormat = "3mf" | "stl";

export interface SolidFiles {
  readonly made: Made;
  readonly files: readonly MadeFile[];
  /** For the maker: parts, printing, putting together, cautions. */
  readonly sheet: string;
}

/** Rejects with CannotMake, Cancelled. @param program name and version, for the file's own account of itself */
export async function solidFiles(
  { resolution }: Pick<DesignDocument, "resolution">,
  format: SolidFormat,
  program: string,
  shouldStop?: () => boolean,
): Promise<SolidFiles> {
  const made = await makeSolid(resolution, shouldStop);
  const { parts, outline } = made;
  const laid = layOut(
    parts.map(({ size }) => size),
    bedOf(resolution.draft),
  );
  const files =
    format === "stl"
      ? parts.map(({ name, mesh }) => ({ suffix: parts.length === 1 ? "" : `-${fileName(name)}`, bytes: stl(mesh) }))
      : [
          {
            suffix: "",
            bytes: threeMf(
              parts.map(({ name, mesh }, i) => ({ name, mesh, move: laid.moves[i] ?? [0, 0, 0] })),
              { title: outline.name ?? "Instrument", description: description(resolution), application: program },
            ),
          },
        ];
  return { made, files, sheet: sheet(made, laid) };
}

function description({ instrument }: DesignDocument["resolution"]): string {
  const scale = `print scale ${Number((100 * instrument.printScale).toFixed(4))} %`;
  return `Borewright design, format 1; ${instrument.family ?? "instrument"}, ${scale}. ${PRINT_AS_IT_IS}`;
}

/** Letters and digits only: what every system takes. */
function fileName(part: string): string {
  return part
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-|-$/g, "");
}
