/** A design in JSON: VS Code has a service of its own for JSON, which is to leave it to ours. */
import { placeOf } from "../text.mjs";

const NAME = "once.bore.json";
const DESIGN = `{
  "borewright": 1,
  "family": "ductt",
  "tolerance": "ten",

}
`;

export default {
  title: "in a JSON design each fault, hover and completion is there once",
  files: { [NAME]: DESIGN },
  async run({ workbench, assert }) {
    const { page, text } = workbench;
    await workbench.openFile(NAME);
    await workbench.problem("ductt");
    await workbench.problem("tolerance");
    const problems = (await workbench.problems()).filter((line) => /\[Ln /.test(line));
    for (const problem of problems) assert.match(problem, /borewright/);
    // Beside the two: the comma before the end, and what is still missing.
    assert.equal(problems.length, 4, problems.join("\n"));
    for (const at of ["Ln 3,", "Ln 4,"])
      assert.equal(problems.filter((line) => line.includes(at)).length, 1, problems.join("\n"));
    const hover = await text.hover(placeOf(DESIGN, "tolerance"), "cents");
    assert.equal(hover.match(/Deviation beyond which/g)?.length, 1, hover);
    await text.leave();
    await text.goTo({ line: 5, column: 1 });
    const labels = await text.completions("temperament");
    assert.deepEqual(labels, [...new Set(labels)]);
    await page.keyboard.press("Escape");
    await workbench.screenshot("json-once");
  },
};
