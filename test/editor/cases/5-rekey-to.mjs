/** `Rekey to…` asks for any note and for the way; the print scale is the one thing that changes in the drawing. */
import path from "node:path";
import { pitch } from "../commandLine.mjs";
import { IN_JSON } from "../designs.mjs";

export default {
  title: "Rekey to… takes any note, refuses what is none, and writes a print scale into a JSON design",
  files: IN_JSON.files,
  async run({ workbench, folder, read, assert }) {
    const { text } = workbench;
    await workbench.openFile(IN_JSON.name);
    await text.pressCodeLens("Rekey to…", workbench.quickInput());
    await workbench.answerRefused("H4", "is no note");
    await workbench.page.keyboard.press("Control+A");
    await workbench.page.keyboard.type("Eb4");
    await workbench.page.keyboard.press("Enter");
    await workbench.pick("Print scale");
    await workbench.save();
    const design = JSON.parse(read(IN_JSON.name));
    assert.equal(design.key, "Eb4");
    assert.match(design.print.scale, /^12\d\.\d+ %$/);
    assert.deepEqual(design.bore, JSON.parse(fsText(IN_JSON)).bore);
    const played = pitch(path.join(folder, IN_JSON.name));
    assert.equal(played.key, "Eb4");
    assert.ok(Math.abs(played.worstCents) <= 12, `worst ${played.worstCents}`);
    await workbench.screenshot("rekey-to");
  },
};

import fs from "node:fs";

function fsText({ original }) {
  return fs.readFileSync(original, "utf8");
}
