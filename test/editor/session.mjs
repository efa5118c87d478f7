/** One editor with one extension in it: server, browser, and workspaces that are copies of a folder. */
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { launchBrowser } from "./browser.mjs";
import { installEditor } from "./install.mjs";
import { Workbench } from "./page.mjs";
import { EditorServer } from "./server.mjs";

/**
 * Starts VS Code with `vsix` installed.
 * @param {{ vsix: string, out: string, port?: number, browser?: boolean }} options `out` gets server.log and screenshots
 */
export async function startSession({ vsix, out, port = 0, browser: wantsBrowser = true }) {
  const programs = installEditor({ browser: wantsBrowser });
  const home = fs.mkdtempSync(path.join(os.tmpdir(), "bore-"));
  const server = new EditorServer(programs.server, home);
  let browser;

  const close = async () => {
    await browser?.close();
    await server.stop();
    fs.rmSync(home, { recursive: true, force: true, maxRetries: 5 });
  };

  for (const signal of ["SIGINT", "SIGTERM"]) {
    process.once(signal, () => close().finally(() => process.exit(128 + os.constants.signals[signal])));
  }
  try {
    fs.mkdirSync(out, { recursive: true });
    const installed = await server.installExtension(vsix);
    if (!/successfully installed/.test(installed)) throw new Error(`The .vsix was not installed: ${installed}`);
    await server.start(path.join(out, "server.log"), { port });
    if (wantsBrowser) browser = await launchBrowser(programs.chromium);
  } catch (error) {
    await close();
    throw error;
  }

  return {
    server,
    close,
    /** A workspace folder of its own, holding copies of `files` (name in the workspace → original, or text). */
    workspace(name, files) {
      const folder = path.join(home, "work", name);
      fs.mkdirSync(folder, { recursive: true });
      for (const [file, content] of Object.entries(files)) {
        if (content instanceof URL) fs.cpSync(content, path.join(folder, file), { recursive: true });
        else fs.writeFileSync(path.join(folder, file), content);
      }
      return folder;
    },
    /** A fresh window of the editor on a workspace folder. */
    async window(folder) {
      const workbench = new Workbench(await browser.freshPage(), out);
      await workbench.open(server.url(folder));
      return workbench;
    },
    /** Copies what server and extension hosts logged into `out`, for the post-mortem. */
    keepLogs() {
      if (fs.existsSync(server.logFolder)) fs.cpSync(server.logFolder, path.join(out, "logs"), { recursive: true });
    },
  };
}
