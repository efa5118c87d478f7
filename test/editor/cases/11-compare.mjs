/** Two versions of a design: in a diff the hints say how the notes changed; `Compare With…` shows it note by note. */
import fs from "node:fs";

const NEW = "whistle.bore.yaml";
const OLD = "whistle-before.bore.yaml";
const EXAMPLE = new URL("../../../examples/quay-whistle.bore.yaml", import.meta.url);

export default {
  title: "a diff says how each note changed, and Compare With… shows it note by note",
  files: { [OLD]: EXAMPLE, [NEW]: fs.readFileSync(EXAMPLE, "utf8").replace("at: 205.3", "at: 209.3") },
  async run({ workbench, assert }) {
    const { page, text } = workbench;
    await workbench.openFile(NEW);
    await text.codeLens(/cents/);
    await workbench.runCommand("Borewright: Compare With…");
    await workbench.pick(OLD);
    const shown = page.frameLocator("iframe.webview.ready").frameLocator("iframe#active-frame");
    await shown.locator("table").first().waitFor();
    assert.match(await shown.locator("body").textContent(), /at of L2: 205\.3 → 209\.3 mm \(\+4\)/);
    await workbench.screenshot("compare");
    await workbench.runCommand("View: Close All Editors");
    await workbench.openFile(OLD);
    await workbench.runCommand("File: Compare Active File With...");
    await workbench.pick(NEW);
    await page.locator(".monaco-diff-editor").first().waitFor();
    await page
      .locator(".modified-in-monaco-diff-editor .view-line", { hasText: /E5.\+\d+.→.−\d+,.flat/ })
      .first()
      .waitFor();
    await workbench.screenshot("diff");
  },
};
