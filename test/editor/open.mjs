/**
 * `npm run editor`: a real VS Code with the extension as it stands, in the browser, until Ctrl+C.
 *
 *   npm run editor -- [FOLDER] [--port N] [--screenshot FILE.png [--show NAME]]
 *
 * Without FOLDER a copy of the examples is opened, to try things on: in out/playground, where what is saved stays. --screenshot takes a picture of one file and ends.
 */
import { spawn } from "node:child_process";
import fs from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { startSession } from "./session.mjs";
import { extensionPackage } from "./vsix.mjs";

const EXAMPLES = new URL("../../examples/", import.meta.url);
const OUT = fileURLToPath(new URL("../../out/editor", import.meta.url));
const PLAYGROUND = fileURLToPath(new URL("../../out/playground", import.meta.url));

const { values: options, positionals } = parseArgs({
  allowPositionals: true,
  options: { port: { type: "string", default: "0" }, screenshot: { type: "string" }, show: { type: "string" } },
});

const vsix = extensionPackage();
const session = await startSession({
  vsix,
  out: OUT,
  port: Number(options.port),
  browser: Boolean(options.screenshot),
});
const folder = positionals[0]
  ? path.resolve(positionals[0])
  : options.screenshot
    ? session.workspace("examples", examples())
    : playground();

if (options.screenshot) {
  await takePicture(options.screenshot, options.show ?? firstDesign(folder));
  await session.close();
} else {
  const url = session.server.url(folder);
  console.log(
    `VS Code with Borewright on ${folder}\n\n  ${url}\n\nCtrl+C ends it. What you save in that folder stays there.`,
  );
  openInDesktopBrowser(url);
  setInterval(() => {}, 60_000); // the signal handlers of the session end the process
}

function examples() {
  return Object.fromEntries(fs.readdirSync(EXAMPLES).map((name) => [name, new URL(name, EXAMPLES)]));
}

/** A folder of examples to try things on. It is never emptied: what is there already is left as it is. */
function playground() {
  fs.mkdirSync(PLAYGROUND, { recursive: true });
  for (const [name, original] of Object.entries(examples()))
    if (!fs.existsSync(path.join(PLAYGROUND, name)))
      fs.cpSync(original, path.join(PLAYGROUND, name), { recursive: true });
  return PLAYGROUND;
}

function firstDesign(inFolder) {
  const design = fs.readdirSync(inFolder).find((name) => /\.bore\.(ya?ml|json)$/.test(name));
  if (!design) throw new Error(`There is no *.bore.yaml or *.bore.json in ${inFolder}`);
  return design;
}

async function takePicture(file, design) {
  const workbench = await session.window(folder);
  await workbench.openFile(design);
  await workbench.text.codeLens(/./); // the analysis is there
  const shot = await workbench.screenshot("picture");
  fs.copyFileSync(shot, file);
  console.log(`${design} is in ${file}`);
}

function openInDesktopBrowser(url) {
  if (!process.env.DISPLAY && !process.env.WAYLAND_DISPLAY) return;
  const opener = spawn("xdg-open", [url], { detached: true, stdio: "ignore" });
  opener.on("error", () => {}); // no desktop after all: the address is on the screen
  opener.unref();
}
