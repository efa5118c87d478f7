/** Check after building: each part is one piece, with as many ways through it as it should have. */
import type { Finding } from "../../instrument/finding.js";
import { t } from "../../words/translation.js";
import type { Facts } from "./kernel.js";
import type { Part } from "./parts.js";

/** The library accepts a solid whose walls were cut through; pieces and handles reveal it. */
export function partFindings(
  { name, genus, path }: Pick<Part, "name" | "genus" | "path">,
  facts: Facts,
): readonly Finding[] {
  const finding = (message: string): readonly Finding[] => [
    { code: "solid/not-one-piece", severity: "error", message, path },
  ];
  if (facts.pieces !== 1)
    return finding(
      t`The part “${name}” would fall into ${facts.pieces} pieces: openings cut its wall through. Move them apart, make them smaller or the wall thicker.`,
    );
  if (facts.genus !== genus)
    return finding(
      t`In the part “${name}” openings run into one another or through a wall (${facts.genus} ways through it, ${genus} wanted). Move them apart, make them smaller or the wall thicker.`,
    );
  return [];
}
