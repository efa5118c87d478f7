/** The extension with nothing but a browser: findings, hints, a hover, another key by the light bulb, saved through the editor. */
import { IN_TUNE, OUT_OF_TUNE } from "../../designs.mjs";
import { placeOf } from "../../text.mjs";

export default {
  title: "in a browser alone, a design has findings and hints, and the light bulb puts it into another key",
  files: { ...OUT_OF_TUNE.files, ...IN_TUNE.files },
  async run({ workbench, read, assert }) {
    const { text } = workbench;
    await workbench.openFile(OUT_OF_TUNE.name);
    const fault = placeOf(read(OUT_OF_TUNE.name), "160", { from: "name: L1" });
    await text.squiggle(fault, "warning");
    assert.match(await workbench.problem("G#5 sounds"), /\d+ cents flat.*pitch\/out-of-tune/);
    assert.match(await text.hover(fault, "cents flat"), /Move L1 [\d.]+ mm toward the mouth/);
    await workbench.screenshot("web-findings");

    const before = read(IN_TUNE.name);
    await workbench.openFile(IN_TUNE.name);
    await text.codeLens("fingerings");
    await text.quickFix(placeOf(before, "G4", { from: "key:" }), /Rekey to F4.*[Rr]edraw/);
    await workbench.save();
    assert.match(read(IN_TUNE.name), /^key: F4$/m);
    await workbench.screenshot("web-rekeyed");
  },
};
