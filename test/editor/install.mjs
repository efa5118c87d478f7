/** Where the VS Code server and Chromium are, installing them first if they are not (install-server.sh does the work). */
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const SCRIPT = fileURLToPath(new URL("install-server.sh", import.meta.url));

/**
 * @param {{ browser?: boolean }} [wanted] `browser: false` leaves a missing Chromium missing.
 * @returns {{ server: string, chromium: string | undefined }} paths of the server's main script and of the browser.
 * @throws when something could not be installed; the reason is already on stderr.
 */
export function installEditor({ browser = true } = {}) {
  const lines = execFileSync(SCRIPT, browser ? [] : ["--no-browser"], {
    encoding: "utf8",
    stdio: ["ignore", "pipe", "inherit"],
  });
  const found = new Map(
    lines
      .trim()
      .split("\n")
      .map((line) => line.split(/ (.*)/s)),
  );
  return { server: found.get("server"), chromium: found.get("chromium") || undefined };
}
