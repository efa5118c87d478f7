/** `Rekey to…` asks for any note and for the way; the print scale is the one thing that changes in the drawing. */
import path from "node:path";
import { pitch } from "../commandLine.mjs";
import { IN_JSON } from "../designs.mjs";

export default {
  title: "Rekey to… takes any note, refuses what is none, and writes a print scale into a JSON design",
  files: IN_JSON.files,
  async run({ workbench, folder, read, assert }) {
    const { text } = workbench;
    const before = JSON.parse(read(IN_JSON.name));
    await workbench.openFile(IN_JSON.name);
    await text.pressCodeLens("Rekey to…", workbench.quickInput());
    await workbench.answerRefused("H4", "is not a note");
    await workbench.answer("Eb4");
    await workbench.pick("Print scale");
    await workbench.save();
    const design = JSON.parse(read(IN_JSON.name));
    assert.equal(design.key, "Eb4");
    assert.match(design.print.scale, /^12\d\.\d+ %$/);
    assert.deepEqual(design.bore, before.bore);
    const played = pitch(path.join(folder, IN_JSON.name));
    assert.equal(played.key, "Eb4");
    assert.ok(Math.abs(played.worstCents) <= 12, `worst ${played.worstCents}`);
    await workbench.screenshot("rekey-to");
  },
};
