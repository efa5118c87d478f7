/** How fast the bore view follows: printed, not asserted. Run by `npm run bench:editor`. */
import { IN_TUNE } from "../designs.mjs";
import { frameOf, openView } from "../view.mjs";

const KEYS = 30;
const MOVES = 40;
/** More than either takes. */
const PATIENCE_MS = 5000;

export default {
  title: "measured: key to redrawn view, pointer to predicted notes",
  files: IN_TUNE.files,
  async run({ workbench }) {
    const { page } = workbench;
    const view = await openView(workbench, IN_TUNE.name);
    const frame = await frameOf(workbench);
    await frame.evaluate(() => {
      globalThis.drawn = 0;
      globalThis.heard = { pointer: 0, trial: 0 };
      // After the frame in which it is painted.
      const painted = () => requestAnimationFrame(() => setTimeout(() => (globalThis.drawn = Date.now())));
      addEventListener("message", ({ data }) => {
        if (data.type === "view") painted();
        if (data.type === "trial") globalThis.heard.trial = Date.now();
      });
      addEventListener("pointermove", () => (globalThis.heard.pointer = Date.now()), true);
    });

    await page.locator(`.tab[data-resource-name="${IN_TUNE.name}"]`).click();
    const line = (await import("node:fs")).readFileSync(IN_TUNE.files[IN_TUNE.name], "utf8").split("\n");
    const at = line.findIndex((each) => each.includes("name: L1"));
    await workbench.text.goTo({ line: at + 1, column: line[at].indexOf("173.3") + 6 });
    const keys = [];
    for (let i = 0; i < KEYS; i++) {
      const pressed = Date.now();
      if (i % 2 === 0) await page.keyboard.press(String(1 + (i % 9)));
      else await page.keyboard.press("Backspace");
      keys.push((await since(() => frame.evaluate(() => globalThis.drawn), pressed)) - pressed);
      await page.waitForTimeout(300); // a key of its own, not one of a burst
    }
    report("key → redrawn view", keys);

    const hole = view.getByRole("slider", { name: /L2: place/ });
    const box = await hole.boundingBox();
    const from = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    const moves = [];
    for (let i = 1; i <= MOVES; i++) {
      const moved = Date.now();
      await page.mouse.move(from.x + (i % 8), from.y);
      await since(() => frame.evaluate(() => globalThis.heard.trial), moved);
      moves.push(await frame.evaluate(() => globalThis.heard.trial - globalThis.heard.pointer));
    }
    await page.keyboard.press("Escape");
    await page.mouse.up();
    report("pointer → notes predicted by the server", moves);
  },
};

async function since(read, moment) {
  const end = Date.now() + PATIENCE_MS;
  for (;;) {
    const value = await read();
    if (value >= moment) return value;
    if (Date.now() > end) throw new Error("nothing came");
  }
}

function report(what, values) {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
  console.log(`${what}: median ${at(0.5)} ms, nine of ten within ${at(0.9)} ms, ${sorted.length} times`);
}
