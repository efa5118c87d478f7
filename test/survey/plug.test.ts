/** A plug whose face is no plane: what sounds before the window is the air that is left. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { stl } from "../../server/src/make/file/stl.js";
import { makeSolid } from "../../server/src/make/solid/build.js";
import { Kernel } from "../../server/src/make/solid/kernel.js";
import { Shapes } from "../../server/src/make/solid/shapes.js";
import { inPlace } from "../../server/src/make/solid/together.js";
import { documentOf, fileOf } from "../support/designs.js";
import { readStl } from "../support/mesh.js";
import { surveyOf, tubeOf, turned } from "../support/surveys.js";

// The window's edge lies 11.1 mm downstream of the plug's face.
test.each([9, 11.3])(
  "a cone of %d mm on the plug is counted by its volume, and its tip hides no window",
  async (height) => {
    const [flat, radius, bore, up] = [6, 9.3, 9.5, -2.55] as const;
    const text = readFileSync("examples/harbour-mist-flute.bore.yaml", "utf8")
      .replace(/^print:.*$/m, "")
      .replace("stopper: 3 }", `stopper: ${flat} }`);
    const { parts } = await makeSolid(documentOf(fileOf(text)).resolution);
    const soups = await Kernel.use((kernel) =>
      parts.map((part) => {
        const { vertices, triangles } = inPlace(part);
        const solid = kernel.meshed([...vertices], [...triangles]);
        const face = up - flat;
        const cone = new Shapes(kernel).filled([
          [face - 1, radius],
          [face, radius],
          [face + height, 0.01],
        ]);
        return readStl(stl(kernel.mesh(part.name === "plug" ? kernel.union([solid, cone]) : solid)));
      }),
    );
    const { mouth } = tubeOf(surveyOf(...soups.map((soup) => turned(soup))));
    if (mouth.kind !== "window") throw new Error(mouth.kind);
    // Upstream of the window lies the cone without its tip, which is as high as it reaches in.
    const cone = (height / 3) * (1 - (1 - flat / height) ** 3) * (radius / bore) ** 2;
    expect(Math.abs((mouth.window.stopper?.mm ?? 0) - (flat - cone))).toBeLessThan(0.05);
  },
);
