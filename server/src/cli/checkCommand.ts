/** The options of `borewright check`. */
import { type Command, InvalidArgumentError, Option } from "commander";
import { type CheckSettings, checkPaths, FAIL_ON, type FailOn, fails, ruleLevel } from "./check.js";
import { painter } from "./colour.js";
import { FINDINGS, FINE, UNUSABLE, UnusableInput } from "./exitStatus.js";
import { type AirOptions, number, settingsFrom, withAir } from "./options.js";
import { complain, printData } from "./output.js";
import { plural } from "./plural.js";
import { FORMATS, type Format, report } from "./reports/index.js";
import type { SarifTool } from "./reports/sarif.js";

interface CheckOptions extends AirOptions {
  readonly format: Format;
  readonly failOn: FailOn;
  readonly maxWarnings?: number;
  readonly rule?: CheckSettings["rules"];
}

/** @param tool as the reports call us */
export function checkCommand(root: Command, tool: SarifTool): void {
  withAir(root.command("check").description("all findings of files and folders"))
    .argument("<path...>", "design files, or folders that hold some")
    .addOption(new Option("--format <format>", "how to print").choices(FORMATS).default("text"))
    .addOption(
      new Option("--fail-on <severity>", "exit with 1 from this severity on").choices(FAIL_ON).default("error"),
    )
    .option("--max-warnings <number>", "exit with 1 where there are more warnings", wholeNumber)
    .option(
      "--rule <code=level>",
      "grade findings: off, information, warning or error; the design's `rules` win",
      ruleLevel,
    )
    .action((paths: string[], options: CheckOptions) => {
      const settings = { ...settingsFrom(options), rules: options.rule ?? {} };
      const { files, incomplete } = checkPaths(paths, settings);
      if (files.length === 0 && !incomplete)
        throw new UnusableInput(paths.join(", "), "no *.bore.yaml, *.bore.yml or *.bore.json there");
      const { format, failOn, maxWarnings = Number.POSITIVE_INFINITY } = options;
      const text = report(files, { format, failOn, tool, paint: painter() });
      if (text !== "") printData(text);
      const warnings = files
        .flatMap(({ findings }) => findings)
        .filter(({ severity }) => severity === "warning").length;
      if (warnings > maxWarnings) complain([`${plural(warnings, "warning")}: --max-warnings allows ${maxWarnings}.`]);
      process.exitCode = incomplete ? UNUSABLE : fails(files, failOn) || warnings > maxWarnings ? FINDINGS : FINE;
    });
}

/** @throws InvalidArgumentError */
function wholeNumber(text: string): number {
  const value = number(text);
  if (!Number.isInteger(value) || value < 0) throw new InvalidArgumentError("write a whole number, 0 or more.");
  return value;
}
