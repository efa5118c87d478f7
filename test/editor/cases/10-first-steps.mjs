/** What one who has only just installed it does: nothing runs without a design; an example by a command; a rule's page as a page. */
import { execFileSync } from "node:child_process";
import path from "node:path";

/** Language servers of this session's extension. */
const servers = (folder) =>
  execFileSync("ps", ["-eo", "args"], { encoding: "utf8" })
    .split("\n")
    .filter((line) => line.includes(path.resolve(folder, "../..")) && /cli\.cjs serve/.test(line)).length;

export default {
  title: "the server starts with the first design, an example opens by a command, and a rule's page is shown as a page",
  files: { "other.yaml": "a: 1\n" },
  async run({ workbench, folder, assert }) {
    const { page, text } = workbench;
    await workbench.openFile("other.yaml");
    await page.waitForTimeout(5000);
    assert.equal(servers(folder), 0);
    await workbench.runCommand("Borewright: Open an Example");
    await text.codeLens(/cents/);
    assert.equal(servers(folder), 1);
    assert.match(await workbench.problem("sounds"), /pitch\//);
    await workbench.press(page.locator(".markers-panel a.monaco-link").first());
    const shown = page.frameLocator("iframe.webview.ready").frameLocator("iframe#active-frame");
    await shown.locator("h1").first().waitFor();
    assert.match(await shown.locator("h1").first().textContent(), /\w/);
    await workbench.screenshot("first-steps");
  },
};
