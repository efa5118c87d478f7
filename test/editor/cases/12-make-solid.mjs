/** From the design to files in the hand: the solid with its sheet, where the save dialog says. */
import fs from "node:fs";
import path from "node:path";
import { IN_TUNE } from "../designs.mjs";

export default {
  title:
    "Make the Solid writes a package of the parts where the dialog says, and shows the sheet; the bore view turns and measures it",
  files: IN_TUNE.files,
  async run({ workbench, folder, assert }) {
    const { page } = workbench;
    await workbench.openFile(IN_TUNE.name);
    await workbench.runCommand("Borewright: Make the Solid…");
    const target = path.join(folder, "whistle.3mf");
    await workbench.saveAs(target);
    assert.match(await workbench.notification(/Written: whistle\.3mf/), /100 %/);
    await page.locator(".tab", { hasText: "how to print" }).waitFor();
    await workbench.screenshot("make-solid");
    assert.equal(fs.readFileSync(target).subarray(0, 2).toString(), "PK");
    await workbench.openFile(IN_TUNE.name);
    await workbench.runCommand("Borewright: Open the Bore View");
    const view = page.frameLocator("iframe.webview.ready").frameLocator("iframe#active-frame");
    await view.getByText("Solid, to be turned and measured").click();
    const said = view.locator(".solid p");
    await said.filter({ hasNotText: "Making the solid" }).waitFor();
    assert.match(await said.textContent(), /^Point at it to measure/);
    const canvas = view.locator(".solid canvas");
    await canvas.scrollIntoViewIfNeeded();
    const { x, y, width, height } = await canvas.boundingBox();
    await page.mouse.move(x + width / 2, y + height / 2);
    await view.getByText("from the mouth's middle").waitFor();
    await workbench.screenshot("solid-in-view");
    assert.deepEqual(
      fs.readdirSync(folder).filter((name) => name.endsWith(".part")),
      [],
    );
  },
};
