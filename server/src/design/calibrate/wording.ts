/** What a calibration fitted, in the words of actions, hovers and the command line. */
import type { Instrument } from "../../instrument/model.js";
import { pathText } from "../../instrument/path.js";
import { placeInWords } from "../../instrument/placeInWords.js";
import { decimal } from "../../words/decimal.js";
import { t, told } from "../../words/translation.js";
import { signedCents, unitName } from "../wording.js";
import { calibrationWords } from "./bodyWords.js";
import type { Calibration, FittedValue } from "./calibrate.js";

const NAMES = {
  temperature: told("the air's temperature"),
  shrinkage: told("the shrinkage"),
  undersize: told("the holes' undersize"),
} as const;

/** `the mouth to the measured notes (extra 1.24 mm; residual 2.1 cents)`. */
export function calibrationInWords(calibration: Calibration, instrument: Instrument): string {
  const nameOf = (quantity: FittedValue["quantity"]) =>
    quantity === "mouth" ? calibrationWords(instrument.body).mouth() : t(NAMES[quantity]);
  const what = calibration.fitted.map(({ quantity }) => nameOf(quantity)).join(t(" and "));
  const values = calibration.fitted.map((value) => valueInWords(value, instrument)).join(", ");
  return t`${what} to the measured notes (${values}; residual ${decimal(calibration.rmsResidualCents.toFixed(1))} cents)`;
}

function valueInWords({ quantity, path, after }: FittedValue, instrument: Instrument): string {
  const number = String(after).replace("-", "−");
  if (quantity === "temperature") return `${number} °C`;
  return quantity === "shrinkage" ? `${number} %` : `${path.at(-1)} ${number} ${unitName(instrument)}`;
}

/** `mouth.extra: 0 → 1.24 mm`, one line a value; of a pan pipe `mouth.extra: 0 → 1.24 mm, alike for all pipes`. */
export function fittedLines({ fitted }: Calibration, instrument: Instrument): readonly string[] {
  const unit = {
    mouth: `${unitName(instrument)}${calibrationWords(instrument.body).alike()}`,
    temperature: "°C",
    shrinkage: "%",
    undersize: unitName(instrument),
  };
  const changed = fitted.filter(({ before, after }) => before !== after);
  return changed.map(
    ({ quantity, path, before, after }) => `${pathText(path)}: ${before} → ${after} ${unit[quantity]}`,
  );
}

/** What is left, and what could not be used. */
export function closingLines(calibration: Calibration, { body }: Instrument): readonly string[] {
  const { notes, unused, rmsBeforeCents, rmsResidualCents, withAir } = calibration;
  const count = notes.length === 1 ? t("1 measured note") : t`${notes.length} measured notes`;
  const listed = unused.map((path) => placeInWords(path, undefined)).join(", ");
  const worst = [...notes].sort((a, b) => Math.abs(b.residualCents) - Math.abs(a.residualCents))[0];
  return [
    t`${count}: ${decimal(rmsBeforeCents.toFixed(1))} cents off before (root mean square), ${decimal(rmsResidualCents.toFixed(1))} left` +
      (worst === undefined ? "." : t`; ${worst.name} is left at ${signedCents(worst.residualCents)}.`),
    ...(withAir === undefined ? [] : [airQuestion(calibration, withAir)]),
    ...(unused.length === 0 ? [] : [calibrationWords(body).notUsed(listed)]),
  ];
}

/** Notes alone cannot tell cold air from another mouth; whoever measured can. */
function airQuestion({ rmsResidualCents }: Calibration, withAir: Calibration): string {
  const air = withAir.fitted.find(({ quantity }) => quantity === "temperature");
  return t`Was it ${air?.after} °C rather than ${air?.before}? That would leave ${decimal(withAir.rmsResidualCents.toFixed(1))} cents instead of ${decimal(rmsResidualCents.toFixed(1))}. If you did not measure the temperature, \`calibrate --fit-air\` assumes that.`;
}
