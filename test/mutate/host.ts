/** A process that keeps one vitest warm: it loads a mutant in place of a source, runs the given tests and reports the result. */
import { readFileSync } from "node:fs";
import path from "node:path";
import {
  createVitest,
  type Reporter,
  type TestCase,
  type TestModule,
  type TestSpecification,
  type Vitest,
} from "vitest/node";
import type { Begin, Told, Touched, Trial } from "./orders.js";

/** How often to check whether the tests still make progress, ms. */
const LOOK = 250;

const tell = (told: Told) => process.send?.(told);
const processorSeconds = () => process.resourceUsage().userCPUTime / 1e6;

/** Texts to load in place of the files. */
const replaced = new Map<string, string>();
let lastHeard = 0;
let failed: string | undefined;

class Listening implements Reporter {
  constructor(private readonly root: string) {}

  onTestModuleCollected(): void {
    lastHeard = processorSeconds();
  }

  onTestCaseReady(): void {
    lastHeard = processorSeconds();
  }

  onTestCaseResult(test: TestCase): void {
    lastHeard = processorSeconds();
    const { state } = test.result();
    if (state === "failed") failed ??= test.fullName;
    if (state === "skipped") return;
    this.heard(test.module, test.meta(), test.diagnostic()?.duration ?? 0, state === "failed", test.id);
  }

  onTestModuleEnd(module: TestModule): void {
    const { collectDuration, prepareDuration, setupDuration } = module.diagnostic();
    const [error] = module.errors();
    if (error !== undefined) failed ??= `${module.relativeModuleId}: ${error.message}`;
    this.heard(module, module.meta(), collectDuration + prepareDuration + setupDuration, error !== undefined);
  }

  private heard(module: TestModule, meta: object, ms: number, failed: boolean, id?: string): void {
    const file = path.relative(this.root, module.moduleId);
    const { touched = "", seconds = ms / 1000 } = meta as Touched;
    tell({ kind: "heard", heard: { file, ...(id !== undefined && { id }), seconds, failed, touched } });
  }
}

async function begin({ root, files, instrumented }: Begin): Promise<Vitest> {
  if (instrumented !== undefined) {
    const texts: Record<string, string> = JSON.parse(readFileSync(instrumented, "utf8"));
    for (const [file, text] of Object.entries(texts)) replaced.set(path.join(root, file), text);
  }
  return createVitest(
    "test",
    {
      config: false,
      root,
      watch: false,
      include: [...files],
      pool: "threads",
      maxWorkers: 1,
      // Loaded again for each file only where the effect of loading must be known.
      isolate: instrumented !== undefined,
      setupFiles: ["test/setup.ts"],
      runner: `test/mutate/${instrumented === undefined ? "stopping" : "touching"}.ts`,
      testTimeout: 600_000,
      server: { deps: { inline: [/@tonaljs/] } },
      reporters: [new Listening(root)],
      silent: true,
      sequence: { sequencer: AsTold },
    },
    {
      plugins: [{ name: "mutant", enforce: "pre", load: (id) => replaced.get(id) }],
      logLevel: "silent",
      server: { watch: null },
    },
  );
}

class AsTold {
  shard(files: TestSpecification[]) {
    return Promise.resolve(files);
  }
  sort(files: TestSpecification[]) {
    return Promise.resolve(files);
  }
}

async function attempt(vitest: Vitest, root: string, { file, text, tests, patience }: Trial): Promise<void> {
  const source = path.join(root, file);
  replaced.set(source, text);
  vitest.invalidateFile(source);
  failed = undefined;
  lastHeard = processorSeconds();
  const look = setInterval(() => {
    if (processorSeconds() - lastHeard < patience) return;
    // The thread cannot be reached any more, so the process ends with it.
    process.send?.({ kind: "outcome", outcome: "timed out" } satisfies Told, () => process.exit());
  }, LOOK);
  const project = vitest.getRootProject();
  const { unhandledErrors } = await vitest.runTestSpecifications(
    tests.map(({ file, ids }) => project.createSpecification(path.join(root, file), { testIds: [...ids] })),
  );
  clearInterval(look);
  vitest.state.clearErrors();
  replaced.delete(source);
  vitest.invalidateFile(source);
  if (unhandledErrors.length > 0) failed ??= "an error outside the tests";
  process.exitCode = 0;
  tell({
    kind: "outcome",
    outcome: failed === undefined ? "survived" : "killed",
    ...(failed !== undefined && { by: failed }),
  });
}

// An interruption is for the main process, which still needs the answer.
process.on("SIGINT", () => {});
// Where that was killed, nobody waits for an answer.
process.once("disconnect", () => process.exit());
process.once("message", async (first: Begin) => {
  const vitest = await begin(first);
  process.on("message", (trial: Trial) => attempt(vitest, first.root, trial));
  if (first.instrumented !== undefined) {
    const project = vitest.getRootProject();
    await vitest.runTestSpecifications(
      first.files.map((file) => project.createSpecification(path.join(first.root, file))),
    );
    await vitest.close();
    process.disconnect();
    return;
  }
  tell({ kind: "ready" });
});
