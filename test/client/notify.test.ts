/** Notifications of the client go through the one function that takes links out of their words. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";

const CLIENT = join(import.meta.dirname, "../../client/src");

it("are shown by notify.ts alone", () => {
  const showing = readdirSync(CLIENT, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .filter((name) => /\bshow(Information|Warning|Error)Message\b/.test(readFileSync(join(CLIENT, name), "utf8")));
  expect(showing).toEqual(["notify.ts"]);
});
