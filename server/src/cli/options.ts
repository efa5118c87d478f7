/** Options that several commands have. */
import { type Command, InvalidArgumentError } from "commander";
import { type AnalysisSettings, DEFAULT_SETTINGS } from "../design/settings.js";

export interface AirOptions {
  readonly airTemperature: number;
  readonly tolerance: number;
}

export const settingsFrom = ({ airTemperature, tolerance }: AirOptions): AnalysisSettings => ({
  temperature: airTemperature,
  tolerance,
});

/** @throws InvalidArgumentError */
export function number(text: string): number {
  const value = Number(text);
  if (text.trim() === "" || !Number.isFinite(value)) throw new InvalidArgumentError("write a number.");
  return value;
}

/** Options every command that predicts has; the design's own words win over them. */
export function withAir(command: Command): Command {
  return command
    .option("--air-temperature <°C>", "air temperature if the design states none", number, DEFAULT_SETTINGS.temperature)
    .option(
      "--tolerance <cents>",
      "what counts as in tune if the design does not say",
      number,
      DEFAULT_SETTINGS.tolerance,
    );
}
