/** A model and a recording, chosen in the editor, by the requests that its commands send. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { DEFAULT_SETTINGS } from "../../server/src/design/settings.js";
import { applyEdits } from "../../server/src/document/edits.js";
import { inThisThreadWith } from "../../server/src/language/longWork/longWork.js";
import { FILES_ON_DISK } from "../../server/src/language/node/thread.js";
import { synthesise, wav } from "../sound/synthesis.js";
import { WHISTLE } from "../support/designs.js";
import { soundings } from "../support/predictions.js";
import { solid3mf } from "../support/surveyedSolids.js";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "borewright-files-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const job = { text: WHISTLE, syntax: "yaml", documentIndex: 0, settings: DEFAULT_SETTINGS } as const;
const go = () => false;
const inThisThread = inThisThreadWith(FILES_ON_DISK);

it("a model becomes a design, and a file that is not a model is refused with a reason", async () => {
  const file = join(folder, "shared whistle.3mf");
  writeFileSync(file, await solid3mf(WHISTLE));
  const { edits, message } = await inThisThread.run({ ...job, text: "", work: { do: "survey", file } }, go);
  expect(applyEdits("", edits)).toMatch(/^name: shared whistle$[\s\S]*at: 210\.3, diameter: 8\.5/m);
  expect(message).toContain("respect its licence");
  writeFileSync(file, "no package");
  await expect(inThisThread.run({ ...job, work: { do: "survey", file } }, go)).rejects.toThrow(/cut off or damaged/);
});

it("a recording becomes measured notes, and takes the place of those measured before", async () => {
  const file = join(folder, "take.wav");
  const once = soundings(WHISTLE).map((hz) => ({ hz, seconds: 0.7, rest: 0.2 }));
  writeFileSync(file, wav(synthesise([...once, ...once.toReversed()], { noise: 0.01, rate: 22_050 }), "s16le", 22_050));
  const text = `${WHISTLE}measured: [{ note: G4, hz: 300 }]\n`;
  const { edits, message } = await inThisThread.run(
    { ...job, text, work: { do: "listen", file, temperature: 21 } },
    go,
  );
  const after = applyEdits(text, edits);
  expect(message).toContain("7 of 7 fingerings heard.");
  expect(after).toMatch(/note: G4, hz: 389\./);
  expect(after).toMatch(/note: D5, hz: [\d.]+, temperature: 21, uncertainty: /);
  writeFileSync(file, "RIFF");
  await expect(inThisThread.run({ ...job, work: { do: "listen", file } }, go)).rejects.toThrow(/ends before/);
});
