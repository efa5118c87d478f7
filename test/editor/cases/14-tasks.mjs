/** The task that checks all designs: its findings are problems of files that are not open. */
const EXAMPLE = new URL("../../../examples/gull-first-print.bore.yaml", import.meta.url);

export default {
  title: "a task checks designs that are not open, and its findings are problems",
  files: { "gull.bore.yaml": EXAMPLE, "notes.txt": "" },
  async run({ workbench, assert }) {
    await workbench.openFile("notes.txt");
    await workbench.runCommand("Tasks: Run Task");
    await workbench.pick("borewright");
    // The list is filled anew while it opens: what is pressed too early is nobody's any more.
    await workbench.screenshot("tasks-listed");
    await workbench.pick("check all designs");
    // The number in the status bar: another command would close the list before the task is chosen.
    await workbench.page.locator("[id='status.problems']", { hasText: "8" }).waitFor();
    assert.match(await workbench.problem("B4 sounds"), /pitch\/out-of-tune.*Ln 24/s);
    await workbench.screenshot("tasks");
  },
};
