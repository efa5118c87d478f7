/** print/longer-than-bed: what does not fit the printer as it is, and how it could lie or where to split it. */

import { t } from "../../words/translation.js";
import { bodyKindOf } from "../families/index.js";
import type { Finding, RuleCode } from "../finding.js";
import { DRAWN } from "../lengthWords.js";
import { pipesBlock, vesselBlock } from "../making/blocks.js";
import { jointsOf, partsOf, type TubePart } from "../making/joints.js";
import { type Laying, layingOfBlock, layingOfRod, longestStraightRod, type Size } from "../making/laying.js";
import { bedOf, mayLean } from "../making/makerLimits.js";
import { type Making, type MakingRule, made, madeBeside, madeText } from "../making/making.js";
import { splitPlaces } from "./splitPlaces.js";

const LONGER: RuleCode = "print/longer-than-bed";

export const longerThanBed: MakingRule = {
  code: LONGER,
  check: (making) => {
    const bed = bedOf(making.draft);
    if (bed === undefined) return [];
    const { draft } = making;
    const kind = bodyKindOf(draft);
    if (kind === "pipes") return panPipe(making, bed);
    if (kind === "vessel") return vessel(making, bed);
    return partsOf(draft).flatMap((part) => tubePart(making, bed, part));
  },
};

function tubePart(making: Making, bed: Size, part: TubePart): readonly Finding[] {
  const { laidUnit, draft } = making;
  const [length, width] = [(part.to - part.from) * laidUnit, part.width * laidUnit];
  const laying = layingOfRod(length, width, bed);
  if (laying?.kind === "straight" || !Number.isFinite(length)) return [];
  const whole = jointsOf(draft).length === 0;
  const name = whole ? t("The tube") : t`The part that ends at ${madeText(part.to * laidUnit, making)}`;
  const { bedIs, sizes } = besideBed(making, bed, [length, width]);
  const is =
    part.tenon > 0
      ? t`${name} is ${sizes[0]} long with its tenon and ${sizes[1]} thick, ${bedIs}`
      : t`${name} is ${sizes[0]} long and ${sizes[1]} thick, ${bedIs}`;
  const split = splitPlaces(making, part, longestStraightRod(width, bed));
  const how = howInWords(laying, mayLean(draft));
  return [finding(making, laying, `${is}: ${how}${splitInWords(split, laying, making)}`, part)];
}

function splitInWords(places: ReturnType<typeof splitPlaces>, laying: Laying | undefined, making: Making): string {
  if (places === undefined)
    return laying === undefined
      ? t("There is no room for a joint between its holes: print it smaller, or use a larger printer.")
      : "";
  const list = places.map(({ at, between }) => `${at} ${making.draft.unit}${between}`);
  const where = list.length === 1 ? list[0] : t`${list.slice(0, -1).join(", ")} and at ${list.at(-1)}`;
  return laying === undefined
    ? t`Split it at ${where}: a station there with \`joint: true\`.`
    : t` Or split it at ${where}: a station there with \`joint: true\`.`;
}

/** @param leans whether the design allows it; a block never leans */
function howInWords(laying: Laying | undefined, leans = true): string {
  switch (laying?.kind) {
    case "turned":
      return t`it fits lying flat, turned ${laying.degrees}° from the bed's longer edge.`;
    case "leaning":
      return leans
        ? t`it fits only from corner to corner, leaning ${laying.degrees}° up from the bed, on supports.`
        : t`it fits only from corner to corner, leaning ${laying.degrees}° up from the bed, on supports, and the design does not allow that (\`print.leaning: true\` would).`;
    default:
      return t("it does not fit, not even from corner to corner. ");
  }
}

function finding(making: Making, laying: Laying | undefined, message: string, part?: TubePart): Finding {
  const leansUnasked = laying?.kind === "leaning" && !mayLean(making.draft);
  const severity = laying === undefined || leansUnasked ? "warning" : "information";
  const related = part === undefined ? [] : [{ path: [...part.path, "at"], message: t("Where it ends") }];
  const asScaled = making.printScale === 1 ? [] : [{ path: ["print", "scale"], message: t("The size printed") }];
  return { code: LONGER, severity, message, path: ["print", "bed"], related: [...related, ...asScaled] };
}

/** Sizes of a thing and of the bed in words, with enough digits to tell them apart. */
function besideBed<const T extends readonly number[]>(making: Making, bed: Size, sizes: T) {
  const stated = bed.map((side) => made(side, making, DRAWN));
  const [x, y, z, ...own] = madeBeside([...stated, ...sizes.map((size) => made(size, making))], making);
  return { bedIs: t`the bed ${x} by ${y}, ${z} high`, sizes: own as { readonly [K in keyof T]: string } };
}

/** A row of pipes printed as one block. */
function panPipe(making: Making, bed: Size): readonly Finding[] {
  const block = pipesBlock(making);
  const laying = block && layingOfBlock(block, bed);
  if (block === undefined || laying?.kind === "straight") return [];
  const [long, , thick] = block;
  const { bedIs, sizes } = besideBed(making, bed, block);
  const is = t`The row of pipes is ${sizes[0]} long, ${sizes[1]} wide and ${sizes[2]} thick, ${bedIs}`;
  const single = layingOfRod(long, thick, bed);
  const otherwise =
    single === undefined
      ? t("Its longest pipe alone does not fit: print it smaller, or use a larger printer.")
      : t("Print it in groups of fewer pipes and bind them together.");
  return [finding(making, laying, `${is}: ${howInWords(laying)}${laying === undefined ? otherwise : ""}`)];
}

function vessel(making: Making, bed: Size): readonly Finding[] {
  const block = vesselBlock(making);
  const laying = block && layingOfBlock(block, bed);
  if (block === undefined || laying?.kind === "straight") return [];
  const { bedIs, sizes } = besideBed(making, bed, block);
  const is = t`The vessel is ${sizes[0]} long, ${sizes[1]} wide and ${sizes[2]} high outside, ${bedIs}`;
  const otherwise = laying === undefined ? t("Print it in halves and glue them airtight, or smaller.") : "";
  return [finding(making, laying, `${is}: ${howInWords(laying)}${otherwise}`)];
}
