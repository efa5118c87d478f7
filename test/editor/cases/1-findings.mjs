/** An out-of-tune design shows its faults: squiggle, problem with code, hover with the numbers. */
import { OUT_OF_TUNE } from "../designs.mjs";
import { placeOf } from "../text.mjs";

export default {
  title: "an out-of-tune hole is underlined, listed among the problems and explained in a hover",
  files: OUT_OF_TUNE.files,
  async run({ workbench, read, assert }) {
    const { text } = workbench;
    const place = placeOf(read(OUT_OF_TUNE.name), "160", { from: "name: L1" });
    await workbench.openFile(OUT_OF_TUNE.name);
    await text.squiggle(place, "warning");
    const problem = await workbench.problem("G#5 sounds");
    assert.match(problem, /\d+ cents flat/);
    assert.match(problem, /pitch\/out-of-tune/);
    const hover = await text.hover(place, "cents flat");
    assert.match(hover, /Move L1 [\d.]+ mm toward the mouth/);
    // A language of its own: what speaks about YAML in general says nothing here.
    assert.equal(await workbench.page.locator("#status\\.editor\\.mode").textContent(), "Instrument Design (YAML)");
    await workbench.screenshot("findings");
  },
};
