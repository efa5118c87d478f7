/** The picture saved by the editor's own dialog and read back; sound's nodes running, and ended. */
import fs from "node:fs";
import path from "node:path";
import { XMLValidator } from "fast-xml-parser";
import { IN_TUNE } from "../designs.mjs";
import { frameOf, openView } from "../view.mjs";

const PNG = [0x89, 0x50, 0x4e, 0x47];

export default {
  title: "the bore view is saved as SVG and PNG by the editor's dialog, and sounds only when asked",
  files: IN_TUNE.files,
  async run({ workbench, folder, assert }) {
    const { page } = workbench;
    const view = await openView(workbench, IN_TUNE.name);
    for (const kind of ["svg", "png"]) {
      await view.getByRole("button", { name: `Save ${kind.toUpperCase()}` }).click();
      const file = path.join(folder, `picture.${kind}`);
      await workbench.saveAs(file);
      await page.waitForFunction(() => true); // one turn
      const bytes = await eventually(() => fs.existsSync(file) && fs.readFileSync(file));
      if (kind === "svg") {
        assert.equal(XMLValidator.validate(bytes.toString("utf8")), true);
        assert.match(bytes.toString("utf8"), /<svg[^>]*>[\s\S]*G4/);
      } else assert.deepEqual([...bytes.subarray(0, 4)], PNG);
    }

    const frame = await frameOf(workbench);
    await frame.evaluate(() => {
      globalThis.contexts = [];
      globalThis.started = 0;
      const Real = globalThis.AudioContext;
      globalThis.AudioContext = class extends Real {
        constructor(...given) {
          super(...given);
          globalThis.contexts.push(this);
        }
      };
      const { start } = OscillatorNode.prototype;
      OscillatorNode.prototype.start = function (...given) {
        globalThis.started++;
        return start.apply(this, given);
      };
    });
    const sound = () =>
      frame.evaluate(() => ({ states: globalThis.contexts.map(({ state }) => state), started: globalThis.started }));
    assert.deepEqual(await sound(), { states: [], started: 0 }, "no sound unasked");
    await view.getByRole("button", { name: "Scale" }).click();
    await view.getByRole("button", { name: "Stop" }).waitFor();
    const { states, started } = await sound();
    assert.deepEqual(states, ["running"]);
    assert.ok(started >= 13, `${started} oscillators`);
    await view.getByRole("button", { name: "Stop" }).click();
    await view.getByRole("button", { name: "Play note" }).waitFor();
  },
};

async function eventually(found) {
  for (let attempt = 0; attempt < 50; attempt++) {
    const value = found();
    if (value) return value;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error("the file was not written");
}
