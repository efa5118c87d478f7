/** The walkthrough on the Welcome page: each of its steps is done by its button. */
const STEPS = [
  ["Open a first print gone wrong", "Open the Example"],
  ["Bring every hole into tune", "Bring It into Tune"],
  ["Put it into another key", "Rekey to"],
  ["Begin your own", "New Instrument"],
];

export default {
  title: "each step of the walkthrough is done by a click",
  files: { "readme.txt": "The harbour workshop's designs go here.\n" },
  async run({ workbench, assert }) {
    const { page } = workbench;
    await workbench.runCommand("Welcome: Open Walkthrough...");
    await workbench.pick("Your first instrument in tune");
    const press = async ([title, button]) => {
      await workbench.press(page.locator(".getting-started-step", { hasText: title }).first());
      await workbench.press(page.locator(".getting-started-step.expanded .monaco-button", { hasText: button }).first());
    };
    const back = () => workbench.press(page.locator(".tab", { hasText: "Walkthrough" }));
    const [open, tune, rekey, own] = STEPS;

    await press(open);
    await page.locator(".tab.active", { hasText: "gull-first-print.bore.yaml" }).waitFor();
    await back();
    await press(tune);
    assert.match(await workbench.notification(/dimensions changed/), /bore stays/);
    await back();
    await press(rekey);
    await page.locator(".quick-input-widget", { hasText: "Now in A4" }).waitFor();
    await page.keyboard.press("Escape");
    await back();
    await press(own);
    assert.ok((await workbench.picks()).some((kind) => kind.startsWith("Whistle")));
    await workbench.screenshot("walkthrough");
  },
};
