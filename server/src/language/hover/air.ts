/** The air: the speed of sound that the prediction uses, and where its temperature comes from. */

import { airState } from "../../acoustics/air.js";
import { signedCents } from "../../design/wording.js";
import { centsAbove } from "../../music/cents.js";
import { t } from "../../words/translation.js";
import { plain } from "../words.js";
import type { HoverTopic } from "./place.js";

export const air: HoverTopic = ({ analysis }) => {
  const { instrument, temperature } = analysis;
  const from = instrument.air.temperature === undefined ? t(", from your settings because the design gives none") : "";
  const given = instrument.air.soundSpeed !== undefined;
  const speed = t`**${analysis.air.soundSpeed.toFixed(1)} m/s** speed of sound`;
  if (given) return [t`${speed}, stated directly: temperature and humidity do not change it.`];
  // Cents of pitch are cents of the speed of sound: the tube's length stays.
  const warmer = centsAbove(
    airState({ ...instrument.air, temperature: temperature + 1 }).soundSpeed,
    analysis.air.soundSpeed,
  );
  return [
    t`${speed} at ${plain(temperature, 1)} °C${from}. One degree warmer moves every note ${signedCents(warmer)} cents.`,
  ];
};
