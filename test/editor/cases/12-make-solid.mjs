/** From the design to files in the hand: the solid with its sheet, where the save dialog says. */
import fs from "node:fs";
import path from "node:path";
import { IN_TUNE } from "../designs.mjs";

export default {
  title: "Make the Solid writes a package of the parts where the dialog says, and shows the sheet",
  files: IN_TUNE.files,
  async run({ workbench, folder, assert }) {
    const { page } = workbench;
    await workbench.openFile(IN_TUNE.name);
    await workbench.runCommand("Borewright: Make the Solid…");
    const target = path.join(folder, "whistle.3mf");
    await workbench.answer(target);
    assert.match(await workbench.notification(/Written: whistle\.3mf/), /100 %/);
    await page.locator(".tab", { hasText: "how to print" }).waitFor();
    await workbench.screenshot("make-solid");
    assert.equal(fs.readFileSync(target).subarray(0, 2).toString(), "PK");
    assert.deepEqual(
      fs.readdirSync(folder).filter((name) => name.endsWith(".part")),
      [],
    );
  },
};
