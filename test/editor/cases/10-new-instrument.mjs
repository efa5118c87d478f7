/** From nothing to a whistle of one's own, in tune, with its bore view. */

import { viewOf } from "../view.mjs";

export default {
  title: "New Instrument asks for kind, key, tube and hand, and opens a design in tune",
  files: { "readme.txt": "An empty workshop.\n", "empty.bore.yaml": "" },
  async run({ workbench, read, assert }) {
    const { page } = workbench;
    // An empty design's view says what is missing, and leads to a whole one.
    await workbench.openFile("empty.bore.yaml");
    await workbench.runCommand("Borewright: Open the Bore View");
    await viewOf(workbench).getByText("This file is empty").waitFor();
    await viewOf(workbench).getByRole("button", { name: "New instrument" }).click();
    await page.locator(".quick-input-title", { hasText: "New Instrument" }).waitFor();
    await page.keyboard.press("Escape");
    await workbench.runCommand("View: Close All Editors");

    await workbench.runCommand("Borewright: New Instrument…");
    await workbench.pick("Whistle: blown through a duct");
    const asked = (words) => page.locator(".quick-input-message", { hasText: words }).waitFor();
    await asked("every hole closed");
    await workbench.answer("D5");
    await asked("Inner diameter");
    await workbench.answer("14 x 1");
    await workbench.pick("An adult's hands");
    assert.match(await workbench.notification(/worst note/), /D5/);
    await page.locator(".tab.active", { hasText: "d5-whistle.bore.yaml" }).waitFor();
    await workbench.text.codeLens("all in tune");
    await workbench.press(page.locator(".notification-toast .monaco-button", { hasText: "Bore view" }).first());
    const view = viewOf(workbench);
    await view.locator("svg.sheet").waitFor();
    await view.getByText("All 14 in tune").waitFor();
    await workbench.screenshot("new-instrument");
    // Saved by the view's own key, it is a file of the folder, and the view goes on with it.
    await view.locator("svg.sheet").getByRole("option").first().click();
    await page.keyboard.press("Control+S");
    await page.locator(".explorer-folders-view", { hasText: "d5-whistle.bore.yaml" }).waitFor();
    // The editor makes the file first, and writes into it after.
    for (let looked = 0; looked < 50 && read("d5-whistle.bore.yaml") === ""; looked++) await page.waitForTimeout(200);
    assert.match(read("d5-whistle.bore.yaml"), /^key: D5/m);
    await page.locator('.tab:not(.dirty)[data-resource-name="d5-whistle.bore.yaml"]').waitFor();
    await view.getByText("All 14 in tune").waitFor();
  },
};
