/** Mutants of the sources, as StrykerJS draws them. */
import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { Instrumenter } from "@stryker-mutator/instrumenter";

export interface Mutant {
  readonly id: number;
  /** From the root of the project. */
  readonly file: string;
  readonly kind: string;
  /** Of the first character that is replaced, from 1. */
  readonly line: number;
  /** Offsets in the text of the file. */
  readonly from: number;
  readonly to: number;
  readonly replacement: string;
}

export interface Mutants {
  readonly mutants: readonly Mutant[];
  /** Text of each file by its name. */
  readonly texts: ReadonlyMap<string, string>;
  /** The same with a call of `stryCov_9fa48` wherever a mutant would be evaluated. */
  readonly instrumented: ReadonlyMap<string, string>;
}

const silent = () => {};
const logger = {
  isTraceEnabled: () => false,
  isDebugEnabled: () => false,
  isInfoEnabled: () => false,
  isWarnEnabled: () => false,
  isErrorEnabled: () => false,
  isFatalEnabled: () => false,
  trace: silent,
  debug: silent,
  info: silent,
  warn: silent,
  error: silent,
  fatal: silent,
};

/** All mutants of the TypeScript sources below a folder, in the order of their files. */
export async function mutantsOf(root: string, folder: string): Promise<Mutants> {
  const names = readdirSync(path.join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts") && !name.endsWith(".d.ts"))
    .map((name) => path.posix.join(folder, name))
    .sort();
  const texts = new Map(names.map((name) => [name, readFileSync(path.join(root, name), "utf8")]));
  const { files, mutants } = await new Instrumenter(logger).instrument(
    [...texts].map(([name, content]) => ({ name, content, mutate: true })),
    { plugins: null, excludedMutations: [], ignorers: [] },
  );
  const starts = new Map([...texts].map(([name, text]) => [name, lineStarts(text)]));
  const offset = (name: string, { line, column }: { line: number; column: number }) =>
    (starts.get(name)?.[line] ?? 0) + column;
  return {
    texts,
    instrumented: new Map(files.map(({ name, content }) => [name, content])),
    mutants: mutants
      .filter(({ status }) => status === undefined)
      .map(({ id, fileName, mutatorName, location, replacement }) => ({
        id: Number(id),
        file: fileName,
        kind: mutatorName,
        line: location.start.line + 1,
        from: offset(fileName, location.start),
        to: offset(fileName, location.end),
        replacement,
      })),
  };
}

/** The file's text with the mutant in it. */
export function mutated(text: string, { from, to, kind, replacement }: Mutant): string {
  const original = text.slice(from, to);
  // What replaces an expression must stay one whatever stands beside it.
  const expression = kind !== "BlockStatement" && !/^(case\b|default\s*:)/.test(original);
  return text.slice(0, from) + (expression ? `(${replacement})` : replacement) + text.slice(to);
}

function lineStarts(text: string): number[] {
  const starts = [0];
  for (let at = text.indexOf("\n"); at !== -1; at = text.indexOf("\n", at + 1)) starts.push(at + 1);
  return starts;
}
