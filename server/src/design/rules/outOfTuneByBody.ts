/** What an out-of-tune note means for each kind of body: where the finding stands, and what corrects a note that no hole decides. */
import type { Steps } from "../../acoustics/steps.js";
import { type Body, sharedColumn } from "../../instrument/body.js";
import type { Path } from "../../instrument/finding.js";
import { t } from "../../words/translation.js";
import type { Constraints } from "../constraints/constraints.js";
import { allowedFootSteps } from "../fix/allowedChange.js";
import { wholeRemedyInWords } from "../fix/remedy.js";
import { wholeChangeSteps } from "../fix/wholeChange.js";
import type { Analysis } from "../predict/analysis.js";
import { drawnLength } from "../wording.js";

interface OutOfTuneIn<B extends Body> {
  /** The number by which a hole tunes. */
  readonly holeProperty: "at" | "diameter";
  /** The number that decides a note where no hole does. */
  readonly whole: (body: B, fingering: number) => Path;
  readonly wholeInWords: () => string;
  readonly wholeRemedy: (analysis: Analysis, constraints: Constraints, fingering: number) => Steps<string>;
  readonly noHoleHelps: (hole: string) => string;
}

const besideIt = (hole: string) => t`No place or size of ${hole} alone puts it right: look at the holes beside it.`;

const BY_BODY: { readonly [K in Body["kind"]]: OutOfTuneIn<Extract<Body, { kind: K }>> } = {
  tube: {
    holeProperty: "at",
    whole: ({ column }) => ["bore", (column?.bore.length ?? 1) - 1, "at"],
    wholeInWords: () => t("the bore's length"),
    wholeRemedy: boreRemedy,
    noHoleHelps: besideIt,
  },
  pipes: {
    holeProperty: "at",
    whole: ({ pipes }, fingering) => [...(pipes[fingering]?.path ?? ["pipes"]), "length"],
    wholeInWords: () => t("the bore's length"),
    wholeRemedy: sizeRemedy,
    noHoleHelps: besideIt,
  },
  vessel: {
    holeProperty: "diameter",
    whole: ({ chamber }) => chamber?.size.path ?? ["vessel"],
    wholeInWords: () => t("the size of the vessel"),
    wholeRemedy: sizeRemedy,
    noHoleHelps: (hole) => t`No size of ${hole} alone puts it right: look at the other open holes, and at the mouth.`,
  },
};

export function outOfTuneIn(body: Body): OutOfTuneIn<Body> {
  // The compiler does not see that kind and body belong together.
  return BY_BODY[body.kind] as OutOfTuneIn<Body>;
}

function* sizeRemedy(analysis: Analysis, _constraints: Constraints, fingering: number): Steps<string> {
  const change = yield* wholeChangeSteps(analysis, fingering);
  return change === undefined ? "" : sentence(wholeRemedyInWords(analysis, change));
}

function* boreRemedy(analysis: Analysis, constraints: Constraints, fingering: number): Steps<string> {
  const { changes, inTheWay } = yield* allowedFootSteps(analysis, constraints, fingering);
  if (inTheWay.length > 0) return notAllowed(inTheWay);
  const [place] = changes;
  const foot = sharedColumn(analysis.instrument.body)?.bore.at(-1)?.x;
  if (place === undefined || foot === undefined) return "";
  const way = place < foot ? t("shorter") : t("longer");
  return t`A bore ${drawnLength(Math.abs(place - foot), analysis.instrument)} ${way} puts it right.`;
}

/** `No single change is allowed: L2 would have to lie at 204.4 mm, outside its limits; …` */
export function notAllowed(inTheWay: readonly string[]): string {
  return t`No single change is allowed: ${inTheWay.join("; ")}.`;
}

/** With a capital and a full stop. */
export function sentence(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}
