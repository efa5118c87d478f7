/** From a recording to measured notes: a file that is no WAV, decoded by the editor's own page. */
import fs from "node:fs";
import path from "node:path";
import { pitch } from "../commandLine.mjs";
import { IN_TUNE } from "../designs.mjs";
import { flacOf } from "../flac.mjs";

export default {
  title:
    "Listen to a Recording… decodes a FLAC file and writes every fingering under `measured`; what is no recording is told",
  files: { ...IN_TUNE.files, "noise.mp3": "no recording at all" },
  async run({ workbench, folder, read, assert }) {
    const notes = pitch(path.join(folder, IN_TUNE.name)).fingerings.map(({ predictedHz }) => predictedHz);
    fs.writeFileSync(path.join(folder, "take.flac"), flacOf([...notes, ...notes.toReversed()]));
    await workbench.openFile(IN_TUNE.name);
    await workbench.runCommand("Borewright: Listen to a Recording…");
    await workbench.fileNamed(path.join(folder, "take.flac"), "Listen");
    await workbench.answer("22");
    assert.match(await workbench.notification(/fingerings heard/), new RegExp(`${notes.length} of ${notes.length}`));
    await workbench.save();
    assert.equal(read(IN_TUNE.name).match(/temperature: 22, uncertainty/g).length, notes.length);
    await workbench.screenshot("listen");
    await workbench.runCommand("Borewright: Listen to a Recording…");
    await workbench.fileNamed(path.join(folder, "noise.mp3"), "Listen");
    await workbench.answer("");
    await workbench.notification(/cannot decode it/);
  },
};
