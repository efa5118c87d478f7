/** A rekey by the light bulb on `key`, then the file on disk is in tune in the new key. */
import path from "node:path";
import { check, pitch } from "../commandLine.mjs";
import { IN_TUNE } from "../designs.mjs";
import { placeOf } from "../text.mjs";

const REDRAW = /Rekey to F4 .*redraw|Rekey to F4.*[Rr]edraw/;

export default {
  title: "the key's light bulb redraws the design for F4, and the file on disk plays in tune there",
  files: IN_TUNE.files,
  async run({ workbench, folder, read, assert }) {
    const { text } = workbench;
    const file = path.join(folder, IN_TUNE.name);
    const before = read(IN_TUNE.name);
    await workbench.openFile(IN_TUNE.name);
    await text.codeLens("fingerings");
    const place = placeOf(before, "G4", { from: "key:" });
    const offered = await text.quickFixes(place);
    assert.ok(offered.filter((title) => /print scale/i.test(title)).length >= 4, offered.join(" | "));
    await workbench.screenshot("rekey-menu");
    await workbench.page.keyboard.press("Escape");
    await text.quickFix(place, REDRAW);
    await workbench.save();
    const after = read(IN_TUNE.name);
    assert.match(after, /^key: F4$/m);
    assert.match(after, /diameter: =tube/);
    assert.equal(after.split("\n").length, before.split("\n").length);
    const played = pitch(file);
    assert.equal(played.key, "F4");
    assert.ok(Math.abs(played.worstCents) <= 10, `worst ${played.worstCents}`);
    // A larger instrument may ask for more reach: that is told, and is no fault of its pitch.
    const outOfTune = check(file).findings.filter(({ code }) => code.startsWith("pitch/"));
    assert.deepEqual(outOfTune, []);
    await workbench.screenshot("rekey-done");
  },
};
