/** The quick fix of an out-of-tune hole, through the interface, then read back from disk. */
import path from "node:path";
import { check } from "../commandLine.mjs";
import { OUT_OF_TUNE } from "../designs.mjs";
import { placeOf } from "../text.mjs";

const MOVE = /^Move L1 [\d.]+ mm toward the mouth/;

export default {
  title: "a quick fix moves a hole, and its finding is gone from the editor and from the file",
  files: OUT_OF_TUNE.files,
  async run({ workbench, folder, read, assert }) {
    const { text } = workbench;
    const file = path.join(folder, OUT_OF_TUNE.name);
    const before = read(OUT_OF_TUNE.name);
    const onL1 = ({ message, code }) => code === "pitch/out-of-tune" && / L1 /.test(message);
    assert.ok(check(file).findings.some(onL1));
    await workbench.openFile(OUT_OF_TUNE.name);
    const place = placeOf(before, "160", { from: "name: L1" });
    await text.squiggle(place, "warning");
    await text.quickFix(place, MOVE);
    await workbench.save();
    const after = read(OUT_OF_TUNE.name);
    const changed = after.split("\n").filter((line, i) => line !== before.split("\n")[i]);
    assert.equal(changed.length, 1);
    assert.match(changed[0], /name: L1, at: 15\d\.\d, diameter: 6\.2/);
    assert.ok(!check(file).findings.some(onL1));
    await workbench.problem("pitch/out-of-tune");
    await workbench.noProblem("Move L1");
    await workbench.screenshot("fix-hole");
  },
};
