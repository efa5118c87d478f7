/** A change against the last commit, as VS Code's own git shows it: both sides have their hints, the new one's say the change. */
import { execFileSync } from "node:child_process";
import fs from "node:fs";
import path from "node:path";

const DESIGN = "whistle.bore.yaml";
const EXAMPLE = new URL("../../../examples/quay-whistle.bore.yaml", import.meta.url);

export default {
  title: "a diff of git has hints on both sides, and says what has changed since the last commit",
  files: { [DESIGN]: EXAMPLE },
  async run({ workbench, folder }) {
    const { page } = workbench;
    // The other cases have no repository, and do without VS Code's git.
    fs.mkdirSync(path.join(folder, ".vscode"));
    fs.writeFileSync(path.join(folder, ".vscode/settings.json"), '{ "git.enabled": true }');
    const who = ["-c", "user.name=Workshop", "-c", "user.email=workshop@example.com"];
    for (const args of [
      ["init", "-q"],
      ["add", "."],
      [...who, "commit", "-q", "-m", "A whistle"],
    ])
      execFileSync("git", args, { cwd: folder });
    const file = path.join(folder, DESIGN);
    fs.writeFileSync(file, fs.readFileSync(file, "utf8").replace("at: 205.3", "at: 209.3"));
    await workbench.open(page.url());
    await workbench.openFile(DESIGN);
    await workbench.text.codeLens(/cents/);
    await workbench.runCommand("Git: Open Changes");
    const side = (name, hint) =>
      page.locator(`.${name}-in-monaco-diff-editor .view-line`, { hasText: hint }).first().waitFor();
    await side("modified", /E5.\+\d+.→.−\d+,.flat.·.since.the.last.commit/);
    await side("original", /E5.\+\d+(\.\d)?.cents/);
    await workbench.screenshot("git-diff");
  },
};
