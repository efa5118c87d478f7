/** The .vsix that `npm run package` makes. */
import { execFileSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));

/** Path of the extension to test: EDITOR_VSIX if that is set, else one packaged now from the sources as they stand. */
export function extensionPackage() {
  if (process.env.EDITOR_VSIX) return path.resolve(process.env.EDITOR_VSIX);
  execFileSync("npm", ["run", "--silent", "package"], { cwd: ROOT, stdio: ["ignore", "inherit", "inherit"] });
  const { name, version } = JSON.parse(fs.readFileSync(path.join(ROOT, "package.json"), "utf8"));
  const vsix = path.join(ROOT, `${name}-${version}.vsix`);
  if (!fs.existsSync(vsix)) throw new Error(`npm run package left no ${vsix}`);
  return vsix;
}
