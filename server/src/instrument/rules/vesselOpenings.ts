/** The mouth and the holes of a vessel. */

import { t } from "../../words/translation.js";
import { apart, cavityOf, type DraftCavity, holeDirection, holeElevation, placeOn } from "../draft/cavity.js";
import type { Draft } from "../draft/draft.js";
import type { Finding } from "../finding.js";
import { drawnBeside } from "../lengthWords.js";
import { isMap, own } from "../path.js";
import { stillNeeds } from "./incomplete.js";
import { LENGTH_SLACK, type Rule } from "./rule.js";

const NEEDED = { mouth: "`mouth: { window: { width: 9, cutUp: 5 } }`", vessel: "`vessel`", wall: "`wall: 4`" } as const;

export const vesselIncomplete: Rule = {
  code: "design/incomplete",
  check: ({ data }) => {
    const missing = (Object.keys(NEEDED) as (keyof typeof NEEDED)[]).filter((key) => own(data, key) === undefined);
    return stillNeeds(
      missing,
      missing.map((key) => NEEDED[key]),
    );
  },
};

/** The mouth's opening and depth decide how a vessel sounds: a length alone does not. */
export const vesselMouth: Rule = {
  code: "mouth/kind",
  check: ({ data }) => {
    const mouth = own(data, "mouth");
    const finding = (message: string, path: Finding["path"], on?: "key"): readonly Finding[] => [
      { code: "mouth/kind", severity: "error", message, path, ...(on && { on }) },
    ];
    const how = t("`window: { width: 9, cutUp: 5 }`, or by `hole: { length: 12, width: 10 }` blown across");
    if (mouth === "ideal")
      return finding(t`A vessel has no open end that could be ideal. Describe its mouth by ${how}.`, ["mouth"]);
    if (!isMap(mouth)) return [];
    const kinds = ["window", "hole", "correction"].filter((kind) => own(mouth, kind) !== undefined);
    const [first, second] = kinds;
    if (second !== undefined) {
      const message = t`A mouth is described in one way: \`${first}\` and \`${second}\` exclude each other. Remove one.`;
      return finding(message, ["mouth", second], "key");
    }
    if (first === "window" || first === "hole") return [];
    const message = t`A vessel's mouth is described by ${how}: how wide and how deep it is decides the pitch.`;
    return first === undefined ? finding(message, ["mouth"]) : finding(message, ["mouth", first], "key");
  },
};

interface Opening {
  readonly label: string;
  readonly isMouth: boolean;
  readonly path: Finding["path"];
  /** Undefined while a number is missing. */
  readonly diameter: number | undefined;
  readonly direction: number | undefined;
  readonly elevation: number | undefined;
}

function openingsOf(draft: Draft): readonly Opening[] {
  const { mouth, holes } = draft;
  const own = holes.map(({ label, path, diameter }, i) => ({
    label,
    isMouth: false,
    path: [...path, "diameter"],
    diameter,
    direction: holeDirection(draft, i),
    elevation: holeElevation(draft, i),
  }));
  if (mouth?.kind !== "window" && mouth?.kind !== "embouchure") return own;
  const part = mouth.kind === "window" ? "window" : "hole";
  return [
    { label: t("The mouth"), isMouth: true, path: ["mouth", part], diameter: mouth.width, direction: 0, elevation: 0 },
    ...own,
  ];
}

function narrowest(cavity: DraftCavity): number {
  return cavity.kind === "tube" ? cavity.diameter : 2 * Math.min(...cavity.semiAxes);
}

export const vesselOpeningTooWide: Rule = {
  code: "vessel/opening-too-wide",
  check: (draft) => {
    const cavity = cavityOf(draft);
    if (cavity === undefined) return [];
    const most = narrowest(cavity);
    return openingsOf(draft).flatMap(({ label, path, diameter }): readonly Finding[] => {
      if (diameter === undefined || diameter < most) return [];
      const [wide, has] = drawnBeside([diameter, most], draft);
      const message = t`${label} is ${wide} wide and the chamber itself only ${has}. Make the opening narrower.`;
      return [{ code: "vessel/opening-too-wide", severity: "error", message, path }];
    });
  },
};

/** Openings round a cavity leave wall between them. In a tube, the holes' places along it count, not their directions. */
export const vesselOpeningsOverlap: Rule = {
  code: "hole/overlap",
  check: (draft) => {
    const all = openingsRound(draft);
    return all.flatMap((opening, i): readonly Finding[] => {
      const other = all.slice(0, i).find((before) => gapRound(before, opening) <= LENGTH_SLACK);
      if (other === undefined) return [];
      const message = t`${opening.label} and ${other.isMouth ? t("the mouth") : other.label} run into each other. Give them other \`angle\`s round the vessel, or make one smaller.`;
      return [{ code: "hole/overlap", severity: "error", message, path: opening.path }];
    });
  },
};

export interface PlacedOpening extends Opening {
  /** On the cavity's surface. */
  readonly at: readonly [number, number, number] | undefined;
}

/** Mouth and holes of a round vessel; none of a vessel in the shape of a tube. */
export function openingsRound(draft: Draft): readonly PlacedOpening[] {
  const cavity = cavityOf(draft);
  if (cavity?.kind !== "round") return [];
  return openingsOf(draft).map((opening) => {
    const { direction, elevation } = opening;
    const isKnown = direction !== undefined && elevation !== undefined;
    return { ...opening, at: isKnown ? placeOn(cavity.semiAxes, direction, elevation).point : undefined };
  });
}

/** Between the rims as drawn, straight; infinite where a number is missing. */
export function gapRound(one: PlacedOpening, other: PlacedOpening): number {
  if (one.at === undefined || other.at === undefined || one.diameter === undefined || other.diameter === undefined)
    return Number.POSITIVE_INFINITY;
  return apart(one.at, other.at) - (one.diameter + other.diameter) / 2;
}
