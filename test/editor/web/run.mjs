/**
 * The interface tests without a server: the packaged .vsix in VS Code for the web, in a real browser.
 *
 *   node test/editor/web/run.mjs [NAME…]     only cases whose file name contains one of the names
 *
 * EDITOR_VSIX names a .vsix to test instead of packaging one now.
 */
import fs from "node:fs";
import { fileURLToPath } from "node:url";
import { loadCases, runCases } from "../runner.mjs";
import { extensionPackage } from "../vsix.mjs";
import { startWebSession } from "./session.mjs";

const out = fileURLToPath(new URL("../../../out/web", import.meta.url));

const cases = await loadCases(fileURLToPath(new URL("cases", import.meta.url)), process.argv.slice(2));
const vsix = extensionPackage();
fs.rmSync(out, { recursive: true, force: true });
const session = await startWebSession({ vsix, out });
try {
  if (!(await runCases(session, cases))) process.exitCode = 1;
} finally {
  await session.close();
}
