/** A refit by the light bulb is shown before it is made; once accepted, the file on disk is in tune in the new key. */
import path from "node:path";
import { pitch } from "../commandLine.mjs";
import { IN_TUNE } from "../designs.mjs";
import { placeOf } from "../text.mjs";

export default {
  title: "a refit is previewed, and once applied the file plays in tune in the new key with its walls as they were",
  files: IN_TUNE.files,
  async run({ workbench, folder, read, assert }) {
    const { text } = workbench;
    const before = read(IN_TUNE.name);
    await workbench.openFile(IN_TUNE.name);
    await text.codeLens("fingerings");
    await text.quickFix(placeOf(before, "G4", { from: "key:" }), /^Refit to F4/);
    const panel = workbench.page.locator(".bulk-edit-panel");
    await panel.waitFor();
    await workbench.screenshot("refit-preview");
    assert.equal(read(IN_TUNE.name), before);
    await workbench.press(panel.getByRole("button", { name: "Apply" }));
    await workbench.screenshot("refit-applied");
    await workbench.save();
    const after = read(IN_TUNE.name);
    assert.match(after, /^key: F4$/m);
    assert.equal(/wall: .*/.exec(after)?.[0], /wall: .*/.exec(before)?.[0]);
    const played = pitch(path.join(folder, IN_TUNE.name));
    assert.equal(played.key, "F4");
    assert.ok(Math.abs(played.worstCents) <= 2, `worst ${played.worstCents}`);
  },
};
