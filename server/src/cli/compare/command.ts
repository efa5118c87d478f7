/** The command `compare`: its arguments and its exit status. */
import { type Command, Option } from "commander";
import { stops } from "../../review/compared.js";
import { FINDINGS, FINE, UNUSABLE, UnusableInput } from "../exitStatus.js";
import { type AirOptions, settingsFrom, withAir } from "../options.js";
import { complain } from "../output.js";
import { compareSources } from "./compare.js";
import { COMPARE_FORMATS, type CompareFormat, printComparison } from "./reports.js";

const SOURCES = `
OLD and NEW are each a file, a folder, REV:path as git names it (:path is what is staged), or a revision alone, which
means the other one's path at that revision.`;

export function compareCommand(root: Command): void {
  withAir(
    root.command("compare").description("show what changed between two versions of a design, note by note, in cents"),
  )
    .argument("<old>", "file, folder, REV:path of git, or a revision")
    .argument("<new>", "the same, newer")
    .addOption(new Option("--format <format>", "how to print").choices(COMPARE_FORMATS).default("text"))
    .addHelpText("after", SOURCES)
    .action((old: string, next: string, options: AirOptions & { format: CompareFormat }) => {
      const { compared, single, troubles } = compareSources(old, next, settingsFrom(options));
      if (compared.length === 0 && troubles.length === 0)
        throw new UnusableInput(`${old}, ${next}`, "no *.bore.yaml, *.bore.yml or *.bore.json there");
      printComparison(compared, options.format, single);
      if (troubles.length > 0) complain(troubles.map(({ message }) => message));
      process.exitCode = troubles.length > 0 ? UNUSABLE : stops(compared) ? FINDINGS : FINE;
    });
}
