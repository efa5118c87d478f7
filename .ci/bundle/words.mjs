/**
 * The translations as they are shipped. What the client says through `l10n.t` keeps its English key, by which the editor looks it up;
 * of everything else the mark of the English suffices.
 */
import { mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import * as esbuild from "esbuild";

/** @param {string} from folder with `bundle.l10n.*.json` by their English @param {string} client folder of the client's sources @param {string} to */
export async function shipWords(from, client, to) {
  const { markOf } = await module("server/src/words/mark.ts");
  const sources = await sourcesIn(client);
  await mkdir(to, { recursive: true });
  for (const name of await readdir(from)) {
    const bundle = JSON.parse(await readFile(join(from, name), "utf8"));
    const entries = Object.entries(bundle).map(([english, said]) => [
      sources.includes(JSON.stringify(english)) ? english : markOf(english),
      said,
    ]);
    await writeFile(join(to, name), JSON.stringify(Object.fromEntries(entries)));
  }
}

async function sourcesIn(folder) {
  const names = (await readdir(folder, { recursive: true })).filter((name) => name.endsWith(".ts"));
  return (await Promise.all(names.map((name) => readFile(join(folder, name), "utf8")))).join("\n");
}

async function module(path) {
  const { outputFiles } = await esbuild.build({ entryPoints: [path], bundle: true, format: "esm", write: false });
  return import(`data:text/javascript,${encodeURIComponent(outputFiles[0].text)}`);
}
