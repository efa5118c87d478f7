/** Designs that are not open: their findings are problems by themselves, and once only when the task has found them, too. */
import fs from "node:fs";
import path from "node:path";

const EXAMPLE = new URL("../../../examples/gull-first-print.bore.yaml", import.meta.url);

export default {
  title: "designs that are not open have their problems, with the task that checks all of them, too",
  files: { "gull.bore.yaml": EXAMPLE, "notes.txt": "" },
  async run({ workbench, folder, assert }) {
    const { page } = workbench;
    await workbench.openFile("notes.txt");
    assert.match(await workbench.problem("B4 sounds"), /pitch\/out-of-tune.*Ln 24/s);
    const before = await workbench.problems();
    await workbench.runCommand("Tasks: Run Task");
    await workbench.pick("borewright");
    // The list is filled anew while it opens: what is pressed too early is nobody's any more.
    await workbench.screenshot("tasks-listed");
    await workbench.pick("check all designs");
    // It ends with 1, for there are findings: the editor says so on its tab.
    await page
      .locator(".terminal-tabs-entry, .single-terminal-tab", { hasText: "check all designs" })
      .first()
      .waitFor();
    await page.waitForTimeout(5000);
    await workbench.problem("B4 sounds");
    assert.deepEqual((await workbench.problems()).length, before.length);
    await workbench.screenshot("tasks");
    fs.rmSync(path.join(folder, "gull.bore.yaml"));
    await workbench.noProblem("B4 sounds");
  },
};
