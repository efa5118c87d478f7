/** The bore view beside the text: drawn, followed, dragged, played, saved. */
import { IN_TUNE } from "../designs.mjs";

const FRAME = "iframe.webview.ready";

export default {
  title: "the bore view draws the design, follows the cursor, and a dragged hole is one edit in the text",
  files: IN_TUNE.files,
  async run({ workbench, read, assert }) {
    const { page } = workbench;
    const before = read(IN_TUNE.name);
    await workbench.openFile(IN_TUNE.name);
    await workbench.runCommand("Borewright: Open the Bore View");
    const view = page.frameLocator(FRAME).frameLocator("iframe#active-frame");
    await view.locator("svg.sheet").waitFor();
    const rows = view.locator("svg.sheet").getByRole("option");
    assert.ok((await rows.count()) >= 7, "a row for each fingering");
    await workbench.screenshot("bore-view");

    // A row that is chosen is selected in the text, and the other way round.
    await rows.nth(2).click();
    assert.equal(await rows.nth(2).getAttribute("aria-selected"), "true");

    // A hole is dragged: the notes follow, the text is written on release.
    const hole = view.getByRole("slider", { name: /^L1: place/ });
    const { x, y, width, height } = await hole.boundingBox();
    const from = { x: x + width / 2, y: y + height / 2 };
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(from.x + 6, from.y, { steps: 4 });
    await view.getByText("Trying:").waitFor();
    await workbench.screenshot("bore-view-drag");
    await page.mouse.up();
    await page.locator(".tab.dirty").first().waitFor();
    await view.getByText("Trying:").waitFor({ state: "hidden" });

    // The keyboard does the same, to the tenth of a millimetre.
    const was = Number(await hole.getAttribute("aria-valuenow"));
    const moved = await hole.boundingBox();
    await page.mouse.click(moved.x + moved.width / 2, moved.y + moved.height / 2);
    await hole.focus();
    await page.keyboard.press("ArrowRight");
    const next = (was + 0.1).toFixed(1);
    const at = (mm) => view.locator(`[role="slider"][aria-label^="L1: place"][aria-valuetext="${mm} mm"]`).waitFor();
    await at(next);
    await view.getByText("Trying:").waitFor({ state: "hidden" });

    // Taken back where the hands are, which stay on the hole.
    await page.keyboard.press("Control+Z");
    await at(was.toFixed(1));
    await page.locator(".tab.active", { hasText: "Bore view" }).waitFor();
    await page.keyboard.press("ArrowRight");
    await at(next);
    await view.getByText("Trying:").waitFor({ state: "hidden" });

    // Sound only when asked for.
    await view.getByRole("button", { name: "Play note" }).click();
    await view.getByRole("button", { name: "Stop" }).waitFor();
    await view.getByRole("button", { name: "Play note" }).waitFor();

    // A place that comes from a formula moves the parameter behind it; what else follows is said.
    const formula = view.getByRole("slider", { name: /^R1: place, moves the parameter lower, and with it/ });
    await formula.focus();
    await view.getByText("It moves the parameter lower").waitFor();
    await page.keyboard.press("ArrowRight");
    await view.locator('[role="slider"][aria-label^="R1: place"][aria-valuetext="270.9 mm"]').waitFor();
    await view.getByText("Trying:").waitFor({ state: "hidden" });
    // The bore is dragged in its section, across.
    const bore = view.getByRole("slider", { name: /^Bore, station 1: diameter/ });
    await bore.focus();
    await page.keyboard.press("+");
    await view.locator('[role="slider"][aria-label^="Bore, station 1"][aria-valuetext="16.1 mm"]').waitFor();
    await view.getByText("Trying:").waitFor({ state: "hidden" });

    await page.locator(`.tab[data-resource-name="${IN_TUNE.name}"]`).click();
    await workbench.save();
    const after = read(IN_TUNE.name);
    const changed = after.split("\n").filter((line, i) => line !== before.split("\n")[i]);
    assert.equal(changed.length, 3, `hole, parameter and bore: ${changed.join(" | ")}`);
    assert.ok(changed.some((line) => line.startsWith("  lower: 270.9 ")));
    assert.ok(changed.some((line) => line.startsWith("  tube: 16.1 ")));
  },
};
