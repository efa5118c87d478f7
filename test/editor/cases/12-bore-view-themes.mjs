/** The bore view in four themes, with response and tables unfolded: axe-core finds nothing; what is open stays so while it is hidden. */
import { OUT_OF_TUNE } from "../designs.mjs";
import { faultsOf, openFolds, openView, setTheme, THEMES, viewOf } from "../view.mjs";

export default {
  title: "axe-core finds nothing in the bore view in any theme, and what is unfolded stays so while the view is hidden",
  files: { ...OUT_OF_TUNE.files, "readme.txt": "An empty workshop.\n" },
  async run({ workbench, folder, assert }) {
    const { page } = workbench;
    const view = await openView(workbench, OUT_OF_TUNE.name);
    await openFolds(view);
    for (const theme of Object.keys(THEMES)) {
      await setTheme(workbench, folder, theme);
      assert.deepEqual(await faultsOf(workbench), [], theme);
      await workbench.screenshot(`bore-view-${theme}`);
    }
    // Narrow, as at a zoom of 200 % (VS Code zooms by fewer pixels): nothing is cut off sideways.
    await page.keyboard.press("Control+B");
    await page.setViewportSize({ width: 820, height: 700 });
    await workbench.screenshot("bore-view-narrow");
    const wide = await view.locator("body").evaluate(({ scrollWidth, clientWidth }) => scrollWidth - clientWidth);
    assert.ok(wide <= 0, `${wide} px are cut off`);
    await page.setViewportSize({ width: 1400, height: 900 });

    // Hidden behind another file, its page is gone; it comes back as it was.
    const unfolded = await viewOf(workbench).locator("details[open]").count();
    await page.locator(".tab", { hasText: "Bore view:" }).click();
    await workbench.openFile("readme.txt");
    await page.locator(".tab", { hasText: "Bore view:" }).click();
    await viewOf(workbench).locator("details[open] svg.chart").waitFor();
    assert.equal(await viewOf(workbench).locator("details[open]").count(), unfolded);
  },
};
