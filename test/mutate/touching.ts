/** Runs in the tests' thread: notes for each test which mutants it evaluates, and what it costs whatever else runs. */
import type { RunnerTestFile as File, RunnerTestSuite as Suite, RunnerTestCase as Test } from "vitest";
import { TestRunner } from "vitest";

/** Set by instrumented sources. */
const world = globalThis as { mutantsTouched?: Uint8Array };

export default class Touching extends TestRunner {
  private outside: Uint8Array | undefined;
  private begun = 0;

  override onCollectStart(file: File): void {
    super.onCollectStart(file);
    this.begun = processorSeconds();
  }

  override async onBeforeRunSuite(suite: Suite): Promise<void> {
    if ("filepath" in suite) Object.assign(suite.meta, { seconds: processorSeconds() - this.begun });
    await super.onBeforeRunSuite(suite);
  }

  override async onBeforeRunTask(test: Test): Promise<void> {
    this.outside = united(this.outside, taken());
    await super.onBeforeRunTask(test);
    this.begun = processorSeconds();
  }

  override onAfterRunTask(test: Test): void {
    super.onAfterRunTask(test);
    Object.assign(test.meta, { touched: written(taken()), seconds: processorSeconds() - this.begun });
  }

  override async onAfterRunSuite(suite: Suite): Promise<void> {
    if ("filepath" in suite) {
      this.outside = united(this.outside, taken());
      Object.assign(suite.meta, { touched: written(this.outside) });
      this.outside = undefined;
    }
    await super.onAfterRunSuite(suite);
  }
}

function processorSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}

function taken(): Uint8Array | undefined {
  const copy = world.mutantsTouched?.slice();
  world.mutantsTouched?.fill(0);
  return copy;
}

function united(some: Uint8Array | undefined, more: Uint8Array | undefined): Uint8Array | undefined {
  if (some === undefined || more === undefined) return some ?? more;
  return some.map((mark, at) => mark | (more[at] ?? 0));
}

function written(marks: Uint8Array | undefined): string {
  const bits = Buffer.alloc(Math.ceil((marks?.length ?? 0) / 8));
  marks?.forEach((mark, at) => {
    if (mark) bits[at >> 3] = (bits[at >> 3] ?? 0) | (1 << (at & 7));
  });
  return bits.toString("base64");
}
