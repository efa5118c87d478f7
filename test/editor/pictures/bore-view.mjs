/** README's pictures, of the examples as they are. Run by `npm run pictures`. */
import fs from "node:fs";
import { fileURLToPath } from "node:url";
import { IN_TUNE, OUT_OF_TUNE } from "../designs.mjs";
import { openView } from "../view.mjs";

const IMAGES = new URL("../../../docs/images/", import.meta.url);
const keep = (shot, name) => fs.copyFileSync(shot, new URL(name, IMAGES));

export default {
  title: "the pictures of README are taken anew",
  files: { ...IN_TUNE.files, ...OUT_OF_TUNE.files },
  async run({ workbench }) {
    const { page, text } = workbench;
    await workbench.openFile(IN_TUNE.name);
    await page.keyboard.press("Control+B"); // without the explorer
    await text.codeLens(/cents/);
    const lines = fs.readFileSync(IN_TUNE.files[IN_TUNE.name], "utf8").split("\n");
    const at = lines.findIndex((line) => line.includes("name: L1"));
    await text.hover({ line: at + 1, column: lines[at].indexOf("L1") + 1 }, "L1");
    keep(await workbench.screenshot("editor"), "editor.png");
    await text.leave();
    const view = await openView(workbench, IN_TUNE.name);
    await view.locator("svg.sheet").getByRole("option").nth(3).click();
    await workbench.parkMouse();
    await workbench.screenshot("bore-view");
    // The view alone: it is what the picture is of, and the package carries it.
    const clip = await page.locator("iframe.webview.ready").last().boundingBox();
    await page.screenshot({ path: fileURLToPath(new URL("bore-view.png", IMAGES)), clip });
  },
};
