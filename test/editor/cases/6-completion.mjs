/** Writing a design from nothing: completion knows the words. */
const NAME = "new.bore.yaml";

export default {
  title: "completion offers a whole design in an empty file, and the properties that are still missing",
  files: { [NAME]: "" },
  async run({ workbench, read, assert }) {
    const { text } = workbench;
    await workbench.openFile(NAME);
    await text.goTo({ line: 1, column: 1 });
    const starters = await text.completions("duct");
    assert.ok(starters.length >= 3, starters.join(" | "));
    await workbench.page.keyboard.press("Escape");
    await text.insert("borewright: 1\nfamily: duct\nte");
    const labels = await text.completions("temperament");
    assert.ok(!labels.some((label) => label.startsWith("family")));
    await text.complete("temperament");
    await workbench.page.keyboard.press("Escape");
    await workbench.save();
    assert.match(read(NAME), /^temperament: /m);
    await workbench.screenshot("completion");
  },
};
