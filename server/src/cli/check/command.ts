/** The options of `borewright check`. */
import { type Command, InvalidArgumentError, Option } from "commander";
import { readStream } from "../../files/readStream.js";
import { isRuleLevel, RULE_LEVELS, type RuleLevels, SWITCHABLE_RULES, whyNot } from "../../instrument/ruleLevels.js";
import { painter } from "../colour.js";
import { FINDINGS, FINE, UNUSABLE, UnusableInput } from "../exitStatus.js";
import { MOST_BYTES } from "../files.js";
import { type AirOptions, number, settingsFrom, withAir } from "../options.js";
import { complain, printData } from "../output.js";
import { plural } from "../plural.js";
import { FORMATS, type Format, report } from "../reports/index.js";
import type { SarifTool } from "../reports/sarif.js";
import { unknownTo, writeBaseline } from "./baseline.js";
import { countOf, FAIL_ON, type FailOn, fails } from "./checked.js";
import { type Checked, checkPaths, type GivenFile, type Means } from "./checkPaths.js";
import { watchPaths } from "./watch.js";

/** Standard input, as a path. */
const STANDARD_INPUT = "-";

interface CheckCommandOptions extends AirOptions {
  readonly format: Format;
  readonly failOn: FailOn;
  readonly maxWarnings?: number;
  readonly stdinName: string;
  readonly rule?: RuleLevels;
  readonly baseline?: string;
  readonly updateBaseline?: true;
  readonly watch?: true;
  readonly threads?: number;
}

/** @param tool as the reports call us @param program the bundle, which is started again as a thread */
export function checkCommand(root: Command, tool: SarifTool, program: string): void {
  withAir(root.command("check").description("report all findings of files and folders"))
    .argument(
      "<path...>",
      "design files, folders that hold some, patterns such as designs/alto-*, or - for standard input",
    )
    .addOption(new Option("--format <format>", "how to print").choices(FORMATS).default("text"))
    .addOption(
      new Option("--fail-on <severity>", "exit with 1 if a finding is this severe or worse")
        .choices(FAIL_ON)
        .default("error"),
    )
    .option("--stdin-name <file>", "what to call standard input; .json at its end says that it is JSON", STANDARD_INPUT)
    .option("--max-warnings <number>", "exit with 1 where there are more warnings", wholeNumber)
    .option(
      "--rule <code=level>",
      "grade findings: off, information, warning or error; the design's `rules` win",
      ruleLevel,
    )
    .option("--baseline <file>", "leave out the findings listed in this file")
    .option("--update-baseline", "write all findings into that file")
    .option("--watch", "go on, and check again what changes")
    .option("--threads <number>", "how many threads to use; left out, as many as help", wholeNumber)
    .action(async (paths: string[], options: CheckCommandOptions) => {
      mustGoTogether(paths, options);
      const means: Means = {
        settings: { ...settingsFrom(options), rules: options.rule ?? {} },
        withFixes: options.format === "sarif",
        program,
        threads: options.threads,
      };
      if (options.watch) await watchPaths(paths, means, (checked) => void tell(checked, options, tool));
      const given = paths.includes(STANDARD_INPUT) ? [await standardInput(options.stdinName)] : [];
      const named = paths.filter((path) => path !== STANDARD_INPUT);
      const checked = await checkPaths(named, means, given);
      if (checked.files.length === 0 && !checked.incomplete)
        throw new UnusableInput(paths.join(", "), "no *.bore.yaml, *.bore.yml or *.bore.json there");
      process.exitCode = tell(checked, options, tool);
    });
}

function mustGoTogether(
  paths: readonly string[],
  { watch, format, updateBaseline, baseline }: CheckCommandOptions,
): void {
  if (updateBaseline && baseline === undefined)
    throw new UnusableInput("--update-baseline", "needs --baseline with the file to write");
  if (watch && updateBaseline) throw new UnusableInput("--watch", "leave out --update-baseline");
  if (watch && format !== "text") throw new UnusableInput("--watch", "prints text: leave out --format");
  if (watch && paths.includes(STANDARD_INPUT)) throw new UnusableInput("--watch", "standard input cannot be watched");
}

/** Prints what was found, and gives the exit status. */
function tell(checked: Checked, options: CheckCommandOptions, tool: SarifTool): number {
  const { incomplete } = checked;
  const { format, failOn, baseline, updateBaseline, maxWarnings = Number.POSITIVE_INFINITY } = options;
  if (baseline !== undefined && updateBaseline) {
    if (incomplete) throw new UnusableInput(baseline, "not written, since not all files could be checked");
    complain([`${baseline}: ${plural(writeBaseline(baseline, checked.files), "finding")} written as known.`]);
  }
  const files = baseline === undefined ? checked.files : news(baseline, checked);
  const text = report(files, { format, failOn, tool, paint: painter() });
  if (text !== "") printData(text);
  const warnings = countOf(files, "warning");
  if (warnings > maxWarnings) complain([`${plural(warnings, "warning")}: --max-warnings allows ${maxWarnings}.`]);
  if (incomplete) return UNUSABLE;
  return fails(files, failOn) || warnings > maxWarnings ? FINDINGS : FINE;
}

function news(baseline: string, checked: Checked): Checked["files"] {
  const { files, known, gone } = unknownTo(baseline, checked.files);
  if (known > 0) complain([`${plural(known, "finding")} known from ${baseline} left out.`]);
  if (gone > 0)
    complain([`${plural(gone, "finding")} of ${baseline} no longer found: --update-baseline removes them.`]);
  return files;
}

/** Rejects with FileTrouble. */
async function standardInput(name: string): Promise<GivenFile> {
  return { name, bytes: await readStream(process.stdin, name, MOST_BYTES) };
}

/** @throws InvalidArgumentError */
function wholeNumber(text: string): number {
  const value = number(text);
  if (!Number.isInteger(value) || value < 0) throw new InvalidArgumentError("write a whole number, 0 or more.");
  return value;
}

/** `--rule hands/out-of-reach=off`, as often as wanted. @throws InvalidArgumentError */
function ruleLevel(text: string, before: RuleLevels = {}): RuleLevels {
  const [code = "", level] = text.split("=");
  if (!SWITCHABLE_RULES.includes(code)) throw new InvalidArgumentError(whyNot(code));
  if (!isRuleLevel(level)) throw new InvalidArgumentError(`write ${code}= and one of ${RULE_LEVELS.join(", ")}.`);
  return { ...before, [code]: level };
}
