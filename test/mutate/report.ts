/** What a run of mutants comes to, as text. */
import type { Judged } from "./judge.js";
import { wilson } from "./score.js";

const noticed = ({ outcome }: Judged) => outcome !== "survived" && outcome !== "not covered";
const percent = (share: number) => `${(100 * share).toFixed(1)} %`;

/** Score, one line a file, and the survivors with the line each is in. */
export function report(judged: readonly Judged[], texts: ReadonlyMap<string, string>): string {
  const count = (outcome: Judged["outcome"]) => judged.filter((one) => one.outcome === outcome).length;
  const held = judged.filter(noticed).length;
  const late = judged.filter((one) => one.late && noticed(one)).length;
  const files = [...new Set(judged.map(({ mutant }) => mutant.file))].sort();
  return [
    "",
    ...judged.filter((one) => !noticed(one)).map((one) => survivor(one, texts)),
    "noticed of tried, by file",
    ...files.map((file) => {
      const own = judged.filter(({ mutant }) => mutant.file === file);
      return `  ${String(own.filter(noticed).length).padStart(3)} / ${String(own.length).padStart(3)}  ${file}`;
    }),
    "",
    `killed ${count("killed")}, timed out ${count("timed out")}, crashed ${count("crashed")}, survived ${count("survived")}, not covered ${count("not covered")}`,
    score("within the budget", held - late, judged.length),
    ...(judged.some((one) => one.late) ? [score("by all tests that evaluate them", held, judged.length)] : []),
    "",
  ].join("\n");
}

function score(how: string, held: number, tried: number): string {
  const { least, greatest } = wilson(held, tried);
  return `noticed ${how}: ${percent(held / tried)} (95 %: ${percent(least)} to ${percent(greatest)}), ${held} of ${tried}`;
}

function survivor({ mutant, outcome, cut }: Judged, texts: ReadonlyMap<string, string>): string {
  const text = texts.get(mutant.file) ?? "";
  const original = text.slice(mutant.from, mutant.to);
  const line = text.split("\n")[mutant.line - 1]?.trim() ?? "";
  return [
    `${mutant.file}:${mutant.line} ${outcome}${cut ? " by the tests within the budget" : ""} (${mutant.kind}, ${mutant.id})`,
    `    ${line}`,
    `  - ${short(original)}`,
    `  + ${short(mutant.replacement)}`,
    "",
  ].join("\n");
}

function short(code: string): string {
  const line = code.replace(/\s+/g, " ");
  return line.length > 120 ? `${line.slice(0, 117)}...` : line;
}
