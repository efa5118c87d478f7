/** The short sheet that goes with a solid: what was made, how it is printed and assembled, what to mind. */
import type { Made, MadePart } from "./build.js";
import { cautions, PRINT_AS_IT_IS } from "./cautions.js";
import type { Laid } from "./lay.js";

export function sheet({ outline, parts }: Made, laid: Laid): string {
  const lines = [
    outline.name ?? "Instrument",
    "",
    "Parts (width × depth × height on the bed)",
    ...parts.map((part) => `  ${part.name}: ${sizeOf(part)}, ${part.stands}`),
    ...bedLines(parts, laid),
    "",
    "Printing",
    `  ${PRINT_AS_IT_IS}`,
    "  As the parts stand: bores upright come out round. No supports in bore, windway or holes.",
    "  Layers of 0.12 to 0.16 mm for the head, 0.2 mm for the rest; three or more outlines, so that no wall leaks; the seam at the back, away from windway and labium.",
    "",
    "Assembly",
    ...parts.flatMap((part) => part.advice.map((line) => `  ${part.name}: ${line}`)),
    ...(outline.assumed.length === 0
      ? []
      : [
          "",
          "Assumed because the design does not say (common practice)",
          ...outline.assumed.map((line) => `  ${line}`),
        ]),
    "",
    "Please note",
    ...cautions({ hasSmallParts: parts.some((part) => part.isSmall) }).map((line) => `  ${line}`),
  ];
  return lines.join("\n");
}

function bedLines(parts: readonly MadePart[], { fits, tooLarge }: Laid): readonly string[] {
  const large = tooLarge.flatMap((i) => parts[i]?.name ?? []);
  const tall =
    large.length === 0
      ? []
      : [
          `  Larger than \`print.bed\` as it stands: ${large.join(", ")}. Split the tube (\`joint: true\` on a station of the bore), print it smaller, or on a larger printer.`,
        ];
  return fits ? tall : [...tall, "  Not all of it lies on the bed at once: print the parts one after the other."];
}

function sizeOf({ size }: MadePart): string {
  return `${size.map((side) => Number(side.toFixed(1))).join(" × ")} mm`;
}
