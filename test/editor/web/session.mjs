/** One editor in a browser alone, with the extension as it is packaged, and workspaces that are copies of files. */
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { unzipSync } from "fflate";
import { launchBrowser } from "../browser.mjs";
import { installEditor } from "../install.mjs";
import { WebServer } from "./server.mjs";
import { WebWorkbench } from "./workbench.mjs";

/** @param {{ vsix: string, out: string }} options `out` gets screenshots and what the page's console said */
export async function startWebSession({ vsix, out }) {
  const programs = installEditor();
  const home = fs.mkdtempSync(path.join(os.tmpdir(), "bore-web-"));
  const extension = path.join(home, "extension");
  const files = path.join(home, "files");
  unpack(vsix, extension);
  fs.mkdirSync(files);
  fs.mkdirSync(out, { recursive: true });
  const vscode = path.dirname(path.dirname(programs.server));
  const server = new WebServer({ vscode, extension: path.join(extension, "extension"), files });
  let browser;
  const close = async () => {
    await browser?.close();
    await server.stop();
    fs.rmSync(home, { recursive: true, force: true, maxRetries: 5 });
  };
  try {
    await server.start();
    browser = await launchBrowser(programs.chromium);
  } catch (error) {
    await close();
    throw error;
  }
  const log = fs.createWriteStream(path.join(out, "console.log"));
  return {
    close,
    server,
    workspace(name, originals) {
      const folder = path.join(files, name);
      fs.mkdirSync(folder, { recursive: true });
      for (const [file, content] of Object.entries(originals)) {
        if (content instanceof URL) fs.cpSync(content, path.join(folder, file), { recursive: true });
        else fs.writeFileSync(path.join(folder, file), content);
      }
      return folder;
    },
    async window(folder) {
      const page = await browser.freshPage();
      page.on("console", (message) => log.write(`${message.type()}: ${message.text()}\n`));
      const workbench = new WebWorkbench(page, out);
      await workbench.open(server.url(folder));
      return workbench;
    },
  };
}

function unpack(vsix, into) {
  for (const [name, bytes] of Object.entries(unzipSync(fs.readFileSync(vsix)))) {
    const file = path.join(into, name);
    fs.mkdirSync(path.dirname(file), { recursive: true });
    if (!name.endsWith("/")) fs.writeFileSync(file, bytes);
  }
}
