/** The .vsix that `npm run package` makes. */
import { execFileSync } from "node:child_process";
import fs from "node:fs";
import { fileURLToPath } from "node:url";

const ROOT = new URL("../../", import.meta.url);

/** Path of the packaged extension of the version in package.json; packages it first if it is not there or `fresh` is asked. */
export function packagedExtension({ fresh = false } = {}) {
  const { name, version } = JSON.parse(fs.readFileSync(new URL("package.json", ROOT), "utf8"));
  const vsix = fileURLToPath(new URL(`${name}-${version}.vsix`, ROOT));
  if (fresh || !fs.existsSync(vsix)) {
    execFileSync("npm", ["run", "--silent", "package"], { cwd: fileURLToPath(ROOT), stdio: "inherit" });
  }
  if (!fs.existsSync(vsix)) throw new Error(`npm run package left no ${vsix}`);
  return vsix;
}
