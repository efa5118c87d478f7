/** From a model that somebody shared to a design. */
import { execFileSync } from "node:child_process";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { IN_TUNE } from "../designs.mjs";

const PROGRAM = fileURLToPath(new URL("../../../dist/cli.cjs", import.meta.url));

export default {
  title: "Survey a Model… makes a design of a mesh, with its questions; what is no mesh is told",
  files: { ...IN_TUNE.files, "broken.stl": "no mesh at all" },
  async run({ workbench, folder, assert }) {
    execFileSync(process.execPath, [
      PROGRAM,
      "solid",
      path.join(folder, IN_TUNE.name),
      "-o",
      path.join(folder, "shared.3mf"),
    ]);
    await workbench.runCommand("Borewright: Survey a Model…");
    await workbench.fileNamed(path.join(folder, "shared.3mf"), "Survey");
    assert.match(await workbench.notification(/fingerings proposed/), /licence/);
    // The first lines of the untitled design.
    await workbench.page
      .locator(".view-line", { hasText: /Surveyed.from.a.mesh/ })
      .first()
      .waitFor();
    await workbench.page
      .locator(".view-line", { hasText: /family:.duct/ })
      .first()
      .waitFor();
    await workbench.screenshot("survey");
    await workbench.runCommand("Borewright: Survey a Model…");
    await workbench.fileNamed(path.join(folder, "broken.stl"), "Survey");
    await workbench.notification(/cannot be surveyed/);
  },
};
