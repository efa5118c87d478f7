/**
 * Which files begin: those that take seconds though they are short, so that no core is left alone with one of them at the end. The
 * rest goes by what the last run took or, on a clean machine, by their size.
 */
import { BaseSequencer, type TestSpecification } from "vitest/node";

const SLOW = [
  "survey/tubes",
  "survey/vessels",
  "survey/scannedMouths",
  "survey/scans",
  "hostile/cases",
  "package/packed",
  "docs/tenSteps",
  "docs/notices",
  "design/refit/octave",
  "design/refit/refit",
  "design/bench/plan",
  "design/rekey/again",
  "design/rekey/vessel",
  "document/equivalence",
  "files/writeFiles",
  "cli/trouble",
  "cli/check",
].map((name) => `/test/${name}.test.ts`);

export class SlowFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const isSlow = ({ moduleId }: TestSpecification) => SLOW.some((name) => moduleId.endsWith(name));
    // Projects stay apart: a process is kept only for the next file of its own project.
    const projects = [...new Set(sorted.map(({ project }) => project))];
    return projects.flatMap((project) => {
      const own = sorted.filter((file) => file.project === project);
      return [...own.filter(isSlow), ...own.filter((file) => !isSlow(file))];
    });
  }
}
