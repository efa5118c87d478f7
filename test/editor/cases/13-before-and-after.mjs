/** A change shown in the bore view before it is made: ghost, numbers, reasons; applied as one step of undo, or dropped. */
import { OUT_OF_TUNE } from "../designs.mjs";
import { faultsOf, openView } from "../view.mjs";

export default {
  title: "the bore view shows a retune, a fix and a key before they are made; Apply is one undo, Discard nothing",
  files: OUT_OF_TUNE.files,
  async run({ workbench, read, assert }) {
    const { page } = workbench;
    const before = read(OUT_OF_TUNE.name);
    const view = await openView(workbench, OUT_OF_TUNE.name);
    const dirty = page.locator(`.tab.dirty[data-resource-name="${OUT_OF_TUNE.name}"]`);
    const panel = view.getByRole("region", { name: "Preview of a change" });

    await view.getByRole("button", { name: "Retune…" }).click();
    await panel.getByText(/Worst note: .* → .* cents/).waitFor();
    assert.ok((await view.locator(".ghost").count()) > 3, "ghosts of the old");
    assert.match(await panel.textContent(), /L1 to L2 [\d.]+ → [\d.]+ mm/);
    assert.deepEqual(await faultsOf(workbench), []);
    await workbench.screenshot("bore-view-preview");
    await view.getByRole("button", { name: "Compare texts" }).click();
    await page.locator(".tab", { hasText: "as it would be" }).waitFor();
    await workbench.screenshot("bore-view-compare");
    await view.getByRole("button", { name: "Discard" }).click();
    await panel.waitFor({ state: "hidden" });
    assert.equal(await dirty.count(), 0, "nothing was changed");

    // A fix of one note, chosen among those offered.
    const off = view.locator(".row", { has: view.locator(".mark.off") }).first();
    await off.click();
    await view.getByRole("button", { name: /^Fix / }).click();
    await view
      .getByRole("region", { name: /^Fixes of / })
      .getByRole("button")
      .first()
      .click();
    await panel.waitFor();
    await view.getByRole("button", { name: "Apply to the text" }).click();
    await dirty.waitFor();
    await panel.waitFor({ state: "hidden" });

    // One step of undo.
    await page
      .locator(`.tab[data-resource-name="${OUT_OF_TUNE.name}"]`, { hasNotText: "as it would be" })
      .first()
      .click();
    await page.keyboard.press("Control+Z");
    await dirty.waitFor({ state: "hidden" });
    assert.equal(read(OUT_OF_TUNE.name), before);

    // Another key is asked for by the editor, and shown in the view.
    await view.getByRole("button", { name: "Rekey…" }).click();
    await workbench.answer("G4");
    await workbench.pick("Print scale");
    await panel.getByText("A4 → G4 by print scale").waitFor();
    await panel.getByText(/print at [\d.]+ %/).waitFor();
    await view.getByRole("button", { name: "Discard" }).click();
    assert.equal(await dirty.count(), 0);
  },
};
