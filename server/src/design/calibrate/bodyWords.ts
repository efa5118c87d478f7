/** What differs between kinds of body in the words of a calibration. */
import type { Body } from "../../instrument/body.js";
import { t } from "../../words/translation.js";

export interface CalibrationWords {
  readonly mouth: () => string;
  /** Said after the mouth's new value. */
  readonly alike: () => string;
  /** @param listed places of measured notes */
  readonly notUsed: (listed: string) => string;
  /** Where no measured note can be used. */
  readonly noneUsable: () => string;
}

const ONE_BODY: CalibrationWords = {
  mouth: () => t("the mouth"),
  alike: () => "",
  notUsed: (listed) => t`Not used, because the design has no such fingering: ${listed}.`,
  noneUsable: () =>
    t("the design has no fingering for any of the measured notes: add one, or draw `holes` beside the note."),
};
const WORDS: Readonly<Record<Body["kind"], CalibrationWords>> = {
  tube: ONE_BODY,
  // One mouth blows all pipes.
  pipes: {
    mouth: () => t("the mouth of all pipes"),
    alike: () => t(", alike for all pipes"),
    notUsed: (listed) => t`Not used, because the design has no such pipe: ${listed}.`,
    noneUsable: () =>
      t(
        "the design has no pipe for any of the measured notes: give the pipe its `note`, or correct the measured ones.",
      ),
  },
  vessel: ONE_BODY,
};

export function calibrationWords({ kind }: Pick<Body, "kind">): CalibrationWords {
  return WORDS[kind];
}
