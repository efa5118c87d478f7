/** Drawn and damaged designs through every command: whole files, sound words, and the second time nothing new. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { editFaults } from "../checks/edited.js";
import { type Runner, run, runFaults } from "../commandLine.js";
import { drawnDesign, FAMILIES } from "../drawnDesign.js";
import type { Fault, Kind } from "../kind.js";
import { damaged } from "../mutations.js";
import type { Random } from "../random.js";
import { byLines, examples, isJson, type TextCase } from "../texts.js";
import { written } from "../written.js";

interface CommandCase extends TextCase {
  /** What follows the file's name. */
  readonly command: string;
  readonly options: readonly string[];
}

export const commands: Kind<CommandCase> = {
  name: "commands",
  share: 4,
  draw: (random) => {
    const { file, text } = random.chance(0.3)
      ? random.pick(examples())
      : written(drawnDesign(random, random.pick(FAMILIES)), random);
    const [command, options] = drawnCommand(random);
    return { file, text: random.chance(0.3) ? damaged(text, random) : text, draws: 0, command, options };
  },
  check: commandFaults,
  parts: [byLines as never],
};

function drawnCommand(random: Random): readonly [string, readonly string[]] {
  const json = random.chance(0.3) ? ["--json"] : [];
  const to = random.pick(["A4", "F4", "Bb4", "C5", "D4"]);
  const writing = random.pick([["--write"], ["--write"], [], ["-o", "other.bore.yaml"]]);
  return random.pick<() => readonly [string, readonly string[]]>([
    () => ["pitch", random.chance(0.3) ? ["--bands"] : json],
    () => ["check", ["--format", random.pick(["text", "json", "sarif", "github"])]],
    () => ["rekey", ["--to", to, "--by", "print-scale", ...writing, ...json]],
    () => ["rekey", ["--to", to, "--by", "redraw", ...writing, ...json]],
    () => ["rekey", ["--to", to, "--by", "refit", ...writing]],
    () => ["rekey", ["--table"]],
    () => ["retune", [...random.pick([[], ["--keep-bore"]]), ...writing]],
    () => ["response", random.chance(0.3) ? ["--curve", to] : json],
    () => ["calibrate", [...random.pick([[], ["--write"]]), ...json]],
  ])();
}

async function commandFaults(
  { file, text, command, options }: CommandCase,
  runs: Runner = run,
): Promise<readonly Fault[]> {
  const folder = mkdtempSync(join(tmpdir(), "borewright-hostile-"));
  const path = join(folder, file);
  const once = () => runs([command, file, ...options], { cwd: folder, patience: 60_000 });
  const read = () => readFileSync(path, "utf8");
  try {
    writeFileSync(path, text);
    const first = await once();
    const faults = [...runFaults(first, text)];
    const after = read();
    const writes = options.includes("--write");
    if ((!writes || first.code !== 0) && after !== text)
      faults.push({ rule: "broken file", detail: `${command} changed a file it was not to write` });
    if (writes && first.code === 0 && after !== text) {
      const title = command === "calibrate" ? "Calibrate" : titleOf(command, options);
      faults.push(...editFaults(title, text, after, isJson(file)));
      const again = await once();
      faults.push(...runFaults(again, after));
      if (read() !== after)
        faults.push({
          rule: "no fixed point",
          detail: `${command} ${options[3] ?? ""}: the second time changes the file again`,
        });
    }
    return faults;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The title of the action that does the same in the editor. */
function titleOf(command: string, options: readonly string[]): string {
  if (command === "retune") return "Bring every hole into tune";
  const by = options[options.indexOf("--by") + 1];
  return by === "refit" ? "Refit" : `Rekey by ${by === "print-scale" ? "print scale" : by}`;
}
