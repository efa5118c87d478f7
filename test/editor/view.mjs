/** The bore view as a user meets it: its page, its themes, and what a reader for the blind finds in it. */
import fs from "node:fs";
import path from "node:path";
import axe from "axe-core";

const FRAME = "iframe.webview.ready";

/** The themes that VS Code brings, one of each kind. */
export const THEMES = {
  light: "Default Light Modern",
  dark: "Default Dark Modern",
  contrast: "Default High Contrast",
  "contrast-light": "Default High Contrast Light",
};

/** Opens a design and its bore view; the page in it. */
export async function openView(workbench, name) {
  await workbench.openFile(name);
  await workbench.runCommand("Borewright: Open the Bore View");
  const view = viewOf(workbench);
  await view.locator("svg.sheet").waitFor();
  return view;
}

export function viewOf({ page }) {
  return page.frameLocator(FRAME).last().frameLocator("iframe#active-frame");
}

/** The frame itself, to run something in it. */
export async function frameOf(workbench) {
  const handle = await workbench.page.locator(FRAME).last().elementHandle();
  const outer = await handle.contentFrame();
  const inner = await outer.waitForSelector("iframe#active-frame");
  return inner.contentFrame();
}

/** Faults that axe-core finds in the page, in a line each. It runs from outside: the page's policy lets no foreign script in. */
export async function faultsOf(workbench) {
  const frame = await frameOf(workbench);
  await frame.evaluate(axe.source);
  const { violations } = await frame.evaluate(() => globalThis.axe.run());
  return violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes.map(({ html }) => html).join(" ")}`);
}

/** Of this window alone, by its workspace's settings. */
export async function setTheme(workbench, folder, theme) {
  const file = path.join(folder, ".vscode/settings.json");
  fs.mkdirSync(path.dirname(file), { recursive: true });
  fs.writeFileSync(file, JSON.stringify({ "workbench.colorTheme": THEMES[theme] }));
  const kind = { light: "vs", dark: "vs-dark", contrast: "hc-black", "contrast-light": "hc-light" }[theme];
  await workbench.page.locator(`.monaco-workbench.${kind}`).waitFor();
}

export async function openFolds(view) {
  const folded = view.locator("details:not([open]) > summary");
  while ((await folded.count()) > 0) await folded.first().click();
  await view.locator("svg.chart").waitFor();
  await view.locator("caption").first().waitFor();
}
