/** What differs between kinds of body in hovers, hints and lenses. */
import type { Body } from "../instrument/body.js";
import { t } from "../words/translation.js";
import { plural } from "./words.js";

export interface BodyWords {
  /** Of what plays the notes: `8 fingerings`. */
  readonly counted: (count: number) => string;
  readonly noneYet: () => string;
  /** Of the hole that decides a note. */
  readonly decidingHole: () => string;
  /** @param hole its heading */
  readonly decidesNothing: (hole: string) => string;
  /** Heads the table of its notes. */
  readonly decides: (hole: string) => string;
  readonly decidedBy: (hole: string) => string;
  /** What decides a note that no hole does. */
  readonly decidedByWhole: () => string;
  /** The property of the design that does. */
  readonly whole: "bore" | "vessel";
  /** The mouth where it is a hole blown across. */
  readonly embouchure: () => string;
  /** How far lips and breath move all notes. Common practice, no source. */
  readonly bentBy: () => string;
}

const TUBE: BodyWords = {
  counted: (count) => plural(count, "fingering"),
  noneYet: () => t("no fingerings yet"),
  decidingHole: () => t("first open hole"),
  decidesNothing: (hole) => t`${hole} is not the first open hole of any fingering.`,
  decides: (hole) => t`${hole} governs the notes for which it is the first open hole from the mouth:`,
  decidedBy: (hole) => t`Decided by ${hole}, the first open hole from the mouth.`,
  decidedByWhole: () => t`Every hole is closed: ${t("the length of the bore decides")}.`,
  whole: "bore",
  embouchure: () => t("an embouchure hole under the lip, with the stopper beside it."),
  bentBy: () => t("tens of cents"),
};

const BODY_WORDS: Readonly<Record<Body["kind"], BodyWords>> = {
  tube: TUBE,
  pipes: {
    ...TUBE,
    counted: (count) => plural(count, "pipe"),
    noneYet: () => t("no pipes yet"),
    decidedByWhole: () => t("Decided by the pipe's length: where its stopper is."),
  },
  vessel: {
    ...TUBE,
    decidingHole: () => t("hole opened last"),
    decidesNothing: (hole) => t`No fingering opens ${hole} last.`,
    decides: (hole) => t`${hole} tunes the notes for which it is the hole opened last:`,
    decidedBy: (hole) => t`Tuned by ${hole}, the hole opened last.`,
    decidedByWhole: () => t`Every hole is closed: ${t("the size of the vessel decides")}.`,
    whole: "vessel",
    embouchure: () => t("a hole in the wall, blown across."),
    bentBy: () => t("half a semitone"),
  },
};

export function bodyWords({ kind }: Pick<Body, "kind">): BodyWords {
  return BODY_WORDS[kind];
}
