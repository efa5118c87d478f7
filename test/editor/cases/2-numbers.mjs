/** What a maker reads while drawing: hover, inlay hints, code lens. */
import { FIRST_PATTERN, IN_TUNE } from "../designs.mjs";
import { placeOf } from "../text.mjs";

export default {
  title: "hover, inlay hints and code lens say what every fingering sounds",
  files: IN_TUNE.files,
  async run({ workbench, read, assert }) {
    const { text } = workbench;
    const design = read(IN_TUNE.name);
    const line = design.split("\n").findIndex((each) => each.includes("degree: 1,")) + 1;
    const column = (design.split("\n")[line - 1].match(FIRST_PATTERN.needle)?.index ?? 0) + 1;
    await workbench.openFile(IN_TUNE.name);
    const lens = await text.codeLens("fingerings");
    assert.match(lens, /G4 duct · 13 fingerings · worst \d+ cents (flat|sharp) \(G\d\)/);
    await text.goTo({ line, column });
    assert.match(await text.hint(line, /cents/), /G4 −8\.\d cents/);
    const hover = await text.hover({ line, column }, "Hz");
    assert.match(hover, /392\.0 Hz/);
    assert.match(hover, /cents/);
    const hole = await text.hover(placeOf(design, "173.3"), "L1");
    assert.match(hole, /F#5/);
    await workbench.screenshot("numbers");
  },
};
