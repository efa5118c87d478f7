/** The short sheet that goes with a solid: what was made, how it is printed and put together, what to heed. */
import type { Made, MadePart } from "./build.js";
import { cautions, PRINT_AS_IT_IS } from "./cautions.js";

export function sheet({ outline, parts }: Made, fits: boolean): string {
  const lines = [
    outline.name ?? "Instrument",
    "",
    "Parts (width × depth × height on the bed)",
    ...parts.map((part) => `  ${part.name}: ${sizeOf(part)}, ${part.stands}`),
    ...(fits
      ? []
      : ["  Not all of it lies on the bed at once: print the parts one after the other, or on more than one bed."]),
    "",
    "Printing",
    `  ${PRINT_AS_IT_IS}`,
    "  As the parts stand: bores upright come out round. No supports in bore, windway or holes.",
    "  Layers of 0.12 to 0.16 mm for the head, 0.2 mm for the rest; three or more outlines, so that no wall leaks; the seam at the back, away from windway and labium.",
    "",
    "Putting together",
    ...parts.flatMap((part) => part.advice.map((line) => `  ${part.name}: ${line}`)),
    ...(outline.assumed.length === 0
      ? []
      : ["", "Taken because the design does not say (common practice)", ...outline.assumed.map((line) => `  ${line}`)]),
    "",
    "Please heed",
    ...cautions({ hasSmallParts: parts.some((part) => part.isSmall) }).map((line) => `  ${line}`),
  ];
  return lines.join("\n");
}

function sizeOf({ size }: MadePart): string {
  return `${size.map((side) => Number(side.toFixed(1))).join(" × ")} mm`;
}
