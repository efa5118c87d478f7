/** The bore view with nothing but a browser: drawn, dragged by keys; a solid written where the dialog says. */
import fs from "node:fs";
import path from "node:path";
import { IN_TUNE } from "../../designs.mjs";
import { openView } from "../../view.mjs";

export default {
  title: "in a browser alone, the bore view writes what is changed in it, and a solid goes where the dialog says",
  files: IN_TUNE.files,
  async run({ workbench, folder, assert }) {
    const { page } = workbench;
    const view = await openView(workbench, IN_TUNE.name);
    const hole = view.getByRole("slider", { name: /^L1: place/ });
    const was = Number(await hole.getAttribute("aria-valuenow"));
    await hole.focus();
    await page.keyboard.press("ArrowRight");
    await view.locator(`[role="slider"][aria-valuetext="${(was + 0.1).toFixed(1)} mm"]`).waitFor();
    await workbench.screenshot("web-bore-view");

    await workbench.press(page.locator(`.tab[data-resource-name="${IN_TUNE.name}"]`));
    await workbench.save();
    await workbench.runCommand("Borewright: Make the Solid…");
    await workbench.saveAs(`/${path.basename(folder)}/whistle.3mf`);
    assert.match(await workbench.notification(/Written: whistle\.3mf/), /100 %/);
    assert.equal(fs.readFileSync(path.join(folder, "whistle.3mf")).subarray(0, 2).toString(), "PK");
    assert.deepEqual(fs.readdirSync(folder).sort(), [IN_TUNE.name, "whistle.3mf"]);
  },
};
