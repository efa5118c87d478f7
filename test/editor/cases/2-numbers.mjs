/** What a maker reads while drawing, held against the command line: hover, inlay hints, code lens. */
import path from "node:path";
import { pitch } from "../commandLine.mjs";
import { IN_JSON, IN_TUNE } from "../designs.mjs";
import { placeOf } from "../text.mjs";

/** In the middle of the list, so that the hover shows a neighbour on each side. */
const HOVERED = 2;
const PREDICTED = /predicted\s+([\d.]+) Hz/;
const DEVIATION = /([+−]?[\d.]+) cents/;

export default {
  title: "hover, inlay hints and code lens say what every fingering sounds, as the command line does",
  files: { ...IN_TUNE.files, ...IN_JSON.files },
  async run({ workbench, folder, read, assert }) {
    const { text } = workbench;
    for (const { name } of [IN_JSON, IN_TUNE]) {
      const { key, worstCents, fingerings } = pitch(path.join(folder, name));
      const first = firstFingering(read(name));
      await workbench.openFile(name);

      const lens = await text.codeLens("fingerings");
      assert.ok(lens.startsWith(`${key} `) && lens.includes(` ${fingerings.length} fingerings `), lens);
      assert.ok(lens.includes(`worst ${Math.abs(worstCents).toFixed(0)} cents`), lens);

      for (const [index, { note, cents }] of fingerings.slice(0, 3).entries()) {
        const hint = await text.hint(first.line + index, DEVIATION);
        assert.ok(hint.startsWith(note), hint);
        assert.equal(deviation(hint), tenths(cents), hint);
      }

      const { note, predictedHz, cents } = fingerings[HOVERED];
      const hover = await text.hover({ ...first, line: first.line + HOVERED }, "predicted");
      assert.ok(hover.includes(note), hover);
      assert.equal(hover.match(PREDICTED)?.[1], predictedHz.toFixed(1), hover);
      assert.equal(deviation(hover), tenths(cents), hover);
    }
    const hole = await text.hover(placeOf(read(IN_TUNE.name), "L1", { from: "holes:" }), "L1");
    assert.match(hole, /cents/);
    await workbench.screenshot("numbers");
  },
};

function firstFingering(text) {
  return placeOf(text, "degree", { from: "fingerings", inside: 1 });
}

function deviation(words) {
  return Number(words.match(DEVIATION)?.[1].replace("−", "-"));
}

/** A number, since a nought bears no sign. */
function tenths(cents) {
  return Number(cents.toFixed(1)) + 0;
}
