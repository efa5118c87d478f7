/** The command palette's `Rekey to…`, then the light bulb's print scale on what it made. */
import path from "node:path";
import { check, pitch } from "../commandLine.mjs";
import { IN_TUNE } from "../designs.mjs";
import { placeOf } from "../text.mjs";

const COMMAND = "Borewright: Rekey to…";
const REDRAW = "Redraw";
const PRINT_SCALE = /^Rekey to C5 by print scale/;
/** All a print scale may touch in a design that has `print`. */
const TOUCHED_BY_PRINT_SCALE = /^(key|print):/;

export default {
  title: "a redraw from the palette and a print scale from the light bulb, one after the other, leave the file in tune",
  files: IN_TUNE.files,
  async run({ workbench, folder, read, assert }) {
    const { text } = workbench;
    await workbench.openFile(IN_TUNE.name);
    await text.codeLens("fingerings");
    await workbench.runCommand(COMMAND);
    await workbench.answer("Bb4");
    await workbench.pick(REDRAW);
    await workbench.save();
    assertInTune("Bb4");

    const redrawn = read(IN_TUNE.name);
    await text.quickFix(placeOf(redrawn, "Bb4", { from: "key:" }), PRINT_SCALE);
    await workbench.save();
    assertInTune("C5");
    const before = redrawn.split("\n");
    const changed = read(IN_TUNE.name)
      .split("\n")
      .filter((line, index) => line !== before[index]);
    assert.ok(
      changed.every((line) => TOUCHED_BY_PRINT_SCALE.test(line)),
      `print scale rewrote\n${changed.join("\n")}`,
    );
    await workbench.screenshot("rekey-palette");

    function assertInTune(key) {
      const file = path.join(folder, IN_TUNE.name);
      assert.equal(pitch(file).key, key);
      const { passes, findings } = check(file);
      assert.ok(passes, `in ${key}: ${JSON.stringify(findings)}`);
    }
  },
};
