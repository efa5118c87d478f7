/** Tries mutants one after the other on a host, which is restarted where a mutant has stopped it. */
import { type ChildProcess, fork } from "node:child_process";
import type { Coverage, Covering } from "./coverage.js";
import { type Mutant, mutated } from "./mutants.js";
import type { Begin, Outcome, Told, Trial } from "./orders.js";

export interface Judged {
  readonly mutant: Mutant;
  readonly outcome: Outcome | "not covered";
  /** The test that noticed. */
  readonly by?: string;
  /** Whether more tests evaluate it than were asked. */
  readonly cut?: boolean;
  /** Whether a test beyond the budget noticed. */
  readonly late?: boolean;
}

type Answer = Pick<Judged, "by"> & { readonly outcome: Outcome };

/** A test, or loading a file of them, may take this many times its usual time, and this many seconds more, before it counts as endless. */
const PATIENCE = { factor: 3, more: 8 };
/** Seconds more for a host that has translated no source yet. */
const COLD = 30;

export class Judge {
  private child: ChildProcess | undefined;

  /** @param budget seconds of tests that a mutant may cost, those near it and quick tests first */
  constructor(
    private readonly host: string,
    private readonly begin: Begin,
    private readonly coverage: Coverage,
    private readonly budget: number,
  ) {}

  async judge(mutant: Mutant, text: string): Promise<Judged> {
    const covering = this.covering(mutant);
    if (covering.length === 0) return { mutant, outcome: "not covered" };
    const asked = withinBudget(covering, this.budget);
    return { mutant, ...(await this.ask(mutant, text, asked)), cut: asked.length < covering.length };
  }

  /** Asks all tests that the budget left out. */
  async judgeLate(mutant: Mutant, text: string): Promise<Judged> {
    const covering = this.covering(mutant);
    const asked = new Set(withinBudget(covering, this.budget));
    const rest = covering.filter((each) => !asked.has(each));
    return { mutant, ...(await this.ask(mutant, text, rest)), late: true };
  }

  /** The tests that evaluate a mutant, in the order they are asked. */
  private covering(mutant: Mutant): readonly Covering[] {
    const costs = ({ file, seconds }: Covering) => seconds / worth(file, mutant.file);
    return [...this.coverage(mutant.id)].sort((one, other) => costs(one) - costs(other));
  }

  private ask(mutant: Mutant, text: string, tests: readonly Covering[]): Promise<Answer> {
    const longest = Math.max(...tests.flatMap(({ seconds, loading }) => [seconds, loading]));
    return this.attempt({
      file: mutant.file,
      text: mutated(text, mutant),
      tests: byFile(tests, mutant.file),
      patience: longest * PATIENCE.factor + PATIENCE.more,
    });
  }

  close(): void {
    this.child?.kill();
  }

  private async attempt(trial: Trial): Promise<Answer> {
    const isCold = this.child === undefined;
    this.child ??= await started(this.host, this.begin);
    const child = this.child;
    const answer = new Promise<Answer>((resolve) => {
      const done = (outcome: Outcome, by?: string) => {
        child.removeAllListeners();
        resolve({ outcome, ...(by !== undefined && { by }) });
      };
      child.on("message", (told: Told) => {
        if (told.kind === "outcome") done(told.outcome, told.by);
      });
      child.on("exit", () => done("crashed"));
    });
    child.send({ ...trial, patience: trial.patience + (isCold ? COLD : 0) });
    const result = await answer;
    if (result.outcome === "timed out" || result.outcome === "crashed") {
      child.kill("SIGKILL");
      this.child = undefined;
    }
    return result;
  }
}

async function started(host: string, begin: Begin): Promise<ChildProcess> {
  const child = fork(host, { stdio: ["ignore", "ignore", "inherit", "ipc"] });
  child.send(begin);
  await new Promise<void>((resolve, reject) => {
    child.once("message", () => resolve());
    child.once("exit", () => reject(new Error("the host of the tests did not start")));
  });
  child.removeAllListeners();
  return child;
}

/** How many seconds of other tests one of these is worth: what mirrors the source's folder was written to notice, and what is named like the source. */
function worth(test: string, source: string): number {
  const mirrored = source.replace("server/src", "test").replace(/[^/]*$/, "");
  return (test.startsWith(mirrored) ? NEAR : 1) * (isNamedLike(test, source) ? NEAR : 1);
}

const NEAR = 5;

function isNamedLike(test: string, source: string): boolean {
  return test.endsWith(`/${source.replace(/^.*\/|\.ts$/g, "")}.test.ts`);
}

/** The first always. A warm host loads the product once for all files: what loading cost each of them by itself does not count. */
function withinBudget(bestFirst: readonly Covering[], budget: number): readonly Covering[] {
  let spent = 0;
  return bestFirst.filter(({ seconds }, at) => {
    if (at > 0 && spent + seconds > budget) return false;
    spent += seconds;
    return true;
  });
}

/** The file that is named like the mutant's first, then those that cost least. */
function byFile(tests: readonly Covering[], source: string): Trial["tests"] {
  const files = new Map<string, { file: string; ids: string[]; seconds: number }>();
  for (const { file, id, seconds } of tests) {
    const group = files.get(file) ?? { file, ids: [], seconds: 0 };
    group.ids.push(id);
    group.seconds += seconds;
    files.set(file, group);
  }
  const rank = (file: string) => (isNamedLike(file, source) ? 0 : 1);
  return [...files.values()].sort((one, other) => rank(one.file) - rank(other.file) || one.seconds - other.seconds);
}
