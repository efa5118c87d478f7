/**
 * Runs in the tests' thread: the first test that fails is the last. Vitest's own bail comes from the main thread and does
 * not reach tests that never wait: seconds of them followed the failure.
 */
import type { RunnerTask, RunnerTestSuite as Suite, RunnerTestCase as Test } from "vitest";
import { TestRunner } from "vitest";

/** For the whole thread: each file of tests has a runner of its own. */
const world = globalThis as { aTestFailed?: boolean };

export default class Stopping extends TestRunner {
  override importFile(file: string, source: "collect" | "setup"): unknown {
    return world.aTestFailed ? undefined : super.importFile(file, source);
  }

  override async onBeforeRunTask(test: Test): Promise<void> {
    if (world.aTestFailed) this.cancel("test-failure");
    await super.onBeforeRunTask(test);
  }

  override onAfterRunTask(test: Test): void {
    super.onAfterRunTask(test);
    note(test);
  }

  override async onAfterRunSuite(suite: Suite): Promise<void> {
    await super.onAfterRunSuite(suite);
    note(suite);
  }
}

function note({ result }: RunnerTask): void {
  if (result?.state === "fail") world.aTestFailed = true;
}
