/** What a user does to VS Code around the text: open, save, run a command, answer, read the problems. Text: text.mjs. */
import fs from "node:fs";
import path from "node:path";
import { EditorText } from "./text.mjs";
import { plain, words } from "./words.mjs";

const WORKBENCH_TIMEOUT_MS = 60_000;
const ELEMENT_TIMEOUT_MS = 40_000;
const KEY_TIMEOUT_MS = 5_000;
/** Hovers and menus fade in; a picture waits for that. */
const SETTLE_MS = 400;
/** How often an element that is taken away meanwhile is looked for. */
const ATTEMPTS = 10;
/** How often in a row, and how long apart, a name must be seen to stay. */
const STAYED = 4;
const LOOK_MS = 200;
/** A spot in the status bar, away from the text and from everything that opens on a passing mouse. */
const PARKING = { x: 700, y: 895 };

export class Workbench {
  #shots;

  /**
   * @param {import("playwright-core").Page} page
   * @param {string} shots folder for screenshots
   */
  constructor(page, shots) {
    this.page = page;
    this.#shots = shots;
    this.text = new EditorText(this);
    page.setDefaultTimeout(ELEMENT_TIMEOUT_MS);
  }

  /** Loads the workbench and waits until its file explorer is filled. */
  async open(url) {
    await this.page.goto(url);
    await this.page
      .locator(".explorer-folders-view .monaco-list-row")
      .first()
      .waitFor({ timeout: WORKBENCH_TIMEOUT_MS });
  }

  /**
   * Moves the real mouse to an element and presses it. Playwright's own click() and hover() first scroll into view, which
   * shifts Monaco's overflow-hidden boxes and leaves the editor's layout off from then on.
   */
  async press(locator) {
    const { x, y } = await this.middleOf(locator);
    await this.page.mouse.move(x, y, { steps: 3 });
    await this.page.mouse.click(x, y);
  }

  async middleOf(locator) {
    // A list that is being drawn anew takes the element away between the two.
    for (let attempt = 1; ; attempt++) {
      await locator.waitFor();
      const box = await locator.boundingBox();
      if (box) return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
      if (attempt === ATTEMPTS) throw new Error(`${locator} is not drawn`);
    }
  }

  async parkMouse() {
    await this.page.mouse.move(PARKING.x, PARKING.y);
  }

  /** Opens a file of the workspace through Quick Open. */
  async openFile(name) {
    await this.#chooseInQuickInput("Control+P", name);
    await this.#tab(name).waitFor();
    await this.text.ready();
  }

  /** Runs a command through the palette, by its title as the palette shows it ("Category: Title"). */
  async runCommand(title) {
    await this.#chooseInQuickInput("F1", title);
  }

  /**
   * A key that comes while a webview takes the focus is lost, as a user's would be, and a list that is opened before an extension is known does not
   * learn of it: both are asked for again.
   */
  async #chooseInQuickInput(key, label) {
    const row = this.page.locator(".quick-input-list .monaco-list-row", { hasText: label }).first();
    const there = (locator) =>
      locator.waitFor({ timeout: KEY_TIMEOUT_MS }).then(
        () => true,
        () => false,
      );
    for (let attempt = 1; ; attempt++) {
      await this.page.keyboard.press(key);
      if (await there(this.quickInput())) {
        await this.page.keyboard.press("Control+A");
        await this.page.keyboard.type(`${key === "F1" ? ">" : ""}${label}`);
        if (await there(row)) break;
        await this.page.keyboard.press("Escape");
      }
      if (attempt === ATTEMPTS) throw new Error(`${key} does not lead to ${label}`);
    }
    await this.pick(label);
  }

  /** The box at the top that commands, files, choices and questions share. */
  quickInput() {
    return this.page.locator(".quick-input-widget:visible input").first();
  }

  /** Chooses the first entry of an open quick pick that contains `label` (a string or an expression). */
  async pick(label) {
    await this.press(this.page.locator(".quick-input-list .monaco-list-row", { hasText: label }).first());
  }

  /** The entries of an open quick pick. */
  async picks() {
    await this.page.locator(".quick-input-list .monaco-list-row").first().waitFor();
    return this.page.locator(".quick-input-list .monaco-list-row").allInnerTexts();
  }

  /** Answers an open input box; another question may follow. */
  async answer(value) {
    await this.quickInput().waitFor();
    await this.page.keyboard.press("Control+A");
    await this.page.keyboard.type(value);
    await this.page.keyboard.press("Enter");
  }

  /** Names the file in the editor's own save dialog. */
  async saveAs(file) {
    await this.fileNamed(file, "OK");
  }

  /**
   * Names the file in one of the editor's own dialogs, whose button says `button`. The dialog lists folders meanwhile and may write its own path over
   * what was typed, so the name is taken only once it has stayed.
   */
  async fileNamed(file, button) {
    const input = this.quickInput();
    await input.waitFor();
    for (let stayed = 0, attempt = 1; stayed < STAYED; attempt++) {
      if (attempt > ATTEMPTS * STAYED)
        throw new Error(`The save dialog does not keep the name: ${await input.inputValue()}`);
      stayed = (await input.inputValue()) === file ? stayed + 1 : 0;
      if (stayed === 0) await input.fill(file);
      await this.page.waitForTimeout(LOOK_MS);
    }
    const done = this.page.locator(".quick-input-widget .monaco-button", { hasText: button });
    await this.press(done);
    // The box itself may stay for the next question.
    await done.waitFor({ state: "hidden" });
  }

  /** Types into an open input box and waits for what it then says: its prompt, or what is wrong with the value. */
  async answerRefused(value, expected) {
    await this.quickInput().waitFor();
    await this.page.keyboard.press("Control+A");
    await this.page.keyboard.type(value);
    await this.page.locator(".quick-input-widget .quick-input-message", { hasText: expected }).waitFor();
  }

  /** Waits until an edit has reached the active editor, saves it and waits until that is done. */
  async save() {
    const changed = this.page.locator(".tab.active.dirty");
    await changed.waitFor();
    await this.page.keyboard.press("Control+S");
    await changed.waitFor({ state: "hidden" });
  }

  #tab(name) {
    return this.page.locator(`.tab.active[data-resource-name="${name}"]`);
  }

  /** Shows the Problems panel and waits for one whose whole line (message, source, code, place) fits; returns that line. */
  async problem(expected) {
    await this.runCommand("Problems: Focus on Problems View");
    const row = this.page.locator(".markers-panel .monaco-list-row", { hasText: expected }).first();
    await row.waitFor();
    return words(row);
  }

  /** Everything the Problems panel shows at the moment, one line a problem. */
  async problems() {
    const rows = await this.page.locator(".markers-panel .monaco-list-row").allInnerTexts();
    return rows.map(plain);
  }

  /** Waits until no problem in the open Problems panel fits. */
  async noProblem(expected) {
    await this.page
      .locator(".markers-panel .monaco-list-row", { hasText: expected })
      .first()
      .waitFor({ state: "hidden" });
  }

  /** Waits for a message in the corner; returns its words. */
  async notification(expected) {
    const toast = this.page.locator(".notification-toast", { hasText: expected }).first();
    await toast.waitFor();
    return words(toast);
  }

  /** Keeps a picture of the window as `NAME.png` and returns its path. */
  async screenshot(name) {
    await this.page.waitForTimeout(SETTLE_MS);
    fs.mkdirSync(this.#shots, { recursive: true });
    const file = path.join(this.#shots, `${name}.png`);
    await this.page.screenshot({ path: file });
    return file;
  }

  /** Closes the window as a user would, so that its extension host ends too. */
  async close() {
    await this.page.goto("about:blank").catch(() => {}); // a window that hangs is closed all the same
    await this.page.context().close();
  }
}
