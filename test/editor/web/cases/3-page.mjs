/** The page of our own: no editor behind it but the one that is in it. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { buildWebPage } from "../../../../.ci/bundle/webPage.mjs";
import { serveFolder } from "../static.mjs";

export default {
  title: "a page without any editor behind it shows an example's hints, findings and hovers, and follows a change",
  // The window opens with a file in its folder, whatever the case makes of it.
  files: { "readme.md": "" },
  async run({ workbench: { page }, assert }) {
    const folder = mkdtempSync(path.join(tmpdir(), "bore-page-"));
    await buildWebPage(folder);
    const served = await serveFolder(folder);
    try {
      await page.goto(served.url);
      await page.selectOption("#example", "gull-first-print.bore.yaml");
      const finding = page.locator("#findings li", { hasText: "G#5 sounds" });
      assert.match(await finding.textContent(), /^19: G#5 sounds \d+ cents flat\. Move L1/);
      await page.locator(".cm-hint", { hasText: "(G#5), flat" }).waitFor();
      await page.locator(".cm-lintRange", { hasText: "160" }).hover();
      await page.locator(".cm-tooltip", { hasText: "governs the notes" }).first().waitFor();
      // To the finding's place, and another number in its stead.
      await finding.getByRole("button").click();
      for (const key of ["Delete", "Delete", "Delete"]) await page.keyboard.press(key);
      await page.keyboard.type("156");
      await finding.waitFor({ state: "detached" });
    } finally {
      await served.stop();
      rmSync(folder, { recursive: true });
    }
  },
};
