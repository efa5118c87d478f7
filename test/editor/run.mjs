/**
 * The interface tests: the packaged .vsix in a real VS Code in a real browser.
 *
 *   node test/editor/run.mjs [NAME…]     only cases whose file name contains one of the names
 *
 * EDITOR_VSIX names a .vsix to test instead of packaging one now; EDITOR_CASES takes the cases from another folder.
 */
import fs from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { loadCases, runCases } from "./runner.mjs";
import { startSession } from "./session.mjs";
import { extensionPackage } from "./vsix.mjs";

const here = fileURLToPath(new URL(".", import.meta.url));
const out = path.resolve(here, "../../out/editor");

const cases = await loadCases(process.env.EDITOR_CASES ?? path.join(here, "cases"), process.argv.slice(2));
const vsix = extensionPackage();
fs.rmSync(out, { recursive: true, force: true });
const session = await startSession({ vsix, out });
try {
  if (!(await runCases(session, cases))) process.exitCode = 1;
} finally {
  try {
    session.keepLogs();
  } finally {
    await session.close();
  }
}
