/** The text of the active editor: places on the screen, hovers, squiggles, inlay hints, code lenses, quick fixes, completion. */
import { setTimeout as sleep } from "node:timers/promises";
import { plain, words } from "./words.mjs";

const EDITOR = ".editor-group-container.active .editor-instance";
const HOVER = ".monaco-hover:visible";
const ATTEMPTS = 6;
const ATTEMPT_TIMEOUT_MS = 5_000;
const POLL_MS = 100;
const POLL_TIMEOUT_MS = 20_000;
/** Into the character at the cursor, whose left edge the cursor stands on. */
const INTO_CHARACTER_PX = 4;

/**
 * The place of `needle` in a text.
 * @returns {{ line: number, column: number }} counted from 1, columns in UTF-16 units, as VS Code counts
 */
export function placeOf(text, needle, { from = "", inside = 0 } = {}) {
  const start = text.indexOf(from);
  const offset = text.indexOf(needle, Math.max(start, 0));
  if (start < 0 || offset < 0) throw new Error(`The text has no ${JSON.stringify(start < 0 ? from : needle)}`);
  const before = text.slice(0, offset + inside).split("\n");
  return { line: before.length, column: before.at(-1).length + 1 };
}

export class EditorText {
  #workbench;

  constructor(workbench) {
    this.#workbench = workbench;
  }

  get #page() {
    return this.#workbench.page;
  }

  /** Waits until the active editor shows text. */
  async ready() {
    await this.#page.locator(`${EDITOR} .view-line`).first().waitFor();
  }

  /** Puts the cursor at a place and returns where that is on the screen. */
  async goTo({ line, column }) {
    await this.#page.keyboard.press("Control+G");
    await this.#workbench.quickInput().waitFor();
    await this.#page.keyboard.type(`${line}:${column}`);
    await this.#page.keyboard.press("Enter");
    await this.#page
      .locator('.statusbar-item[id="status.editor.selection"]', { hasText: new RegExp(`^Ln ${line}, Col ${column}$`) })
      .waitFor();
    return this.#cursor();
  }

  /** The cursor's box once scrolling has come to rest. */
  async #cursor() {
    const cursor = this.#page.locator(`${EDITOR} .cursors-layer .cursor`).first();
    await cursor.waitFor({ state: "attached" });
    let last;
    return this.#poll("the cursor to come to rest", async () => {
      const box = await cursor.boundingBox();
      const resting = box && last && box.x === last.x && box.y === last.y;
      last = box;
      return resting ? { x: box.x + INTO_CHARACTER_PX, y: box.y + box.height / 2 } : undefined;
    });
  }

  /**
   * Rests the mouse at a place until a hover that contains `expected` shows; returns the hover's words.
   * An open hover is sticky and may cover the next line: so leave, wait until it is gone, come back, and try again.
   */
  async hover(place, expected) {
    const { x, y } = await this.goTo(place);
    const shown = this.#page.locator(HOVER, { hasText: expected }).first();
    for (let attempt = 1; ; attempt++) {
      await this.leave();
      await this.#page.mouse.move(x + 8, y);
      await this.#page.mouse.move(x, y, { steps: 4 });
      try {
        await shown.waitFor({ timeout: ATTEMPT_TIMEOUT_MS });
        return (await this.#page.locator(HOVER).allInnerTexts()).join("\n");
      } catch (error) {
        if (attempt === ATTEMPTS) throw error;
      }
    }
  }

  /** Takes the mouse off the text and waits until no hover is left. */
  async leave() {
    await this.#workbench.parkMouse();
    const gone = this.#page.locator(HOVER).first().waitFor({ state: "hidden", timeout: ATTEMPT_TIMEOUT_MS });
    await gone.catch(() => {}); // a hover that stays is only in the way, and the caller tries again
  }

  /** Waits until the character at a place is underlined with the squiggle of `severity` (error, warning, info or hint). */
  async squiggle(place, severity) {
    const { x, y } = await this.goTo(place);
    await this.#poll(`a squiggle of an ${severity} at ${place.line}:${place.column}`, async () => {
      const boxes = await this.#boxes(`${EDITOR} .squiggly-${severity}`);
      return boxes.some(
        (box) => box.x <= x && x <= box.x + box.width && Math.abs(box.y + box.height / 2 - y) <= box.height,
      );
    });
  }

  /** The inlay hints on a visible line, as one text: they are what Monaco draws in styles it makes up on the spot. */
  async hints(line) {
    const shown = await this.#viewLine(line);
    return plain(((await shown?.locator('[class*="dyn-rule"]').allInnerTexts()) ?? []).join(""));
  }

  /** The drawn line beside a line number. */
  async #viewLine(line) {
    const [number] = await this.#boxes(`${EDITOR} .line-numbers`, new RegExp(`^${line}$`));
    for (const candidate of await this.#page.locator(`${EDITOR} .view-lines .view-line`).all()) {
      const box = await candidate.boundingBox();
      if (number && box && Math.abs(box.y - number.y) < 2) return candidate;
    }
    return undefined;
  }

  /** Waits until the inlay hints on a line are as `expected` describes; returns them. */
  async hint(line, expected) {
    await this.goTo({ line, column: 1 });
    return this.#poll(`a hint ${expected} on line ${line}`, async () => {
      const hints = await this.hints(line);
      return expected.test(hints) ? hints : undefined;
    });
  }

  /** Waits for a code lens; returns its words. */
  async codeLens(expected) {
    const lens = this.#lens(expected);
    await lens.waitFor();
    return words(lens);
  }

  /**
   * Presses a code lens until what it should bring about is there. A lens that is being drawn anew swallows a press, and
   * one from VS Code's cache has no command until scrolling makes VS Code ask for it again.
   * @param {import("playwright-core").Locator} outcome something that shows once the lens has done its work
   */
  async pressCodeLens(expected, outcome) {
    for (let attempt = 1; ; attempt++) {
      await this.leave();
      try {
        await this.#workbench.press(this.#lens(expected).locator("a", { hasText: expected }).first());
        await outcome.first().waitFor({ timeout: ATTEMPT_TIMEOUT_MS });
        return;
      } catch (error) {
        if (attempt === ATTEMPTS) throw error;
        await this.#nudge();
      }
    }
  }

  #lens(expected) {
    return this.#page.locator(`${EDITOR} .codelens-decoration`, { hasText: expected }).first();
  }

  /** Scrolls a little to and fro. */
  async #nudge() {
    const { x, y } = await this.#workbench.middleOf(this.#page.locator(`${EDITOR} .view-lines`).first());
    await this.#page.mouse.move(x, y);
    await this.#page.mouse.wheel(0, 60);
    await sleep(300); // VS Code asks for lenses again only once scrolling has paused
    await this.#page.mouse.wheel(0, -200);
  }

  /** Puts the cursor at a place, opens the Ctrl+. menu and returns the titles it offers. Escape closes it. */
  async quickFixes(place) {
    await this.goTo(place);
    return this.#poll("the Ctrl+. menu", async () => {
      await this.#page.keyboard.press("Control+.");
      const rows = this.#page.locator(".action-widget .monaco-list-row.action");
      await rows
        .first()
        .waitFor({ timeout: ATTEMPT_TIMEOUT_MS })
        .catch(() => {}); // "no code actions": not analysed yet
      return (await rows.count()) > 0 ? (await rows.allInnerTexts()).map(plain) : undefined;
    });
  }

  /** Chooses an action of the Ctrl+. menu at a place by its title; returns the title chosen. */
  async quickFix(place, title) {
    const deadline = Date.now() + POLL_TIMEOUT_MS;
    for (;;) {
      const offered = await this.quickFixes(place);
      const chosen = offered.find((candidate) => title.test(candidate));
      if (chosen !== undefined) {
        await this.#workbench.press(
          this.#page.locator(".action-widget .monaco-list-row.action", { hasText: title }).first(),
        );
        return chosen;
      }
      await this.#page.keyboard.press("Escape");
      if (Date.now() > deadline) throw new Error(`Ctrl+. offers no ${title}, only: ${offered.join(" | ")}`);
      await sleep(POLL_MS);
    }
  }

  /** Asks for completions at the cursor and waits until one fits; returns all labels in view. */
  async completions(expected) {
    await this.#page.keyboard.press("Control+Space");
    const rows = this.#page.locator(".suggest-widget.visible .monaco-list-row");
    await rows.filter({ hasText: expected }).first().waitFor();
    return (await rows.allInnerTexts()).map(plain);
  }

  /** Chooses one of the completions in view. */
  async complete(label) {
    const row = this.#page.locator(".suggest-widget.visible .monaco-list-row", { hasText: label }).first();
    await this.#workbench.press(row);
    await this.#page.locator(".suggest-widget.visible").waitFor({ state: "hidden" });
  }

  /** Puts text in at the cursor as one piece, so that no suggestion that pops up meanwhile swallows a key. */
  async insert(text) {
    await this.#page.keyboard.insertText(text);
  }

  async #boxes(selector, hasText) {
    const found = await this.#page.locator(selector, hasText ? { hasText } : {}).all();
    return (await Promise.all(found.map((each) => each.boundingBox()))).filter((box) => box !== null);
  }

  async #poll(what, attempt) {
    const deadline = Date.now() + POLL_TIMEOUT_MS;
    for (;;) {
      const result = await attempt();
      if (result) return result;
      if (Date.now() > deadline) throw new Error(`Waited in vain for ${what}`);
      await sleep(POLL_MS);
    }
  }
}
