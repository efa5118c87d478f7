/**
 * Bundles that share their common parts, as scripts that Node requires and a browser's worker takes by `importScripts`. esbuild splits
 * ES modules only: these are turned into CommonJS, each in a function, as scripts of a worker share one scope.
 */
import { mkdir, writeFile } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import * as esbuild from "esbuild";

/** By which a bundle loads an ES module beside it. Everything else is turned into `require`. */
const IMPORT_BESIDE = "importBeside";
const HEAD = `(function(module,exports,require){const ${IMPORT_BESIDE}=(name)=>import(name);`;
const TAIL = "\n})(module,exports,require);\n";
const HASHBANG = "#!/usr/bin/env node\n";

/**
 * @param {object} options
 * @param {boolean} options.sourcemap
 * @param {Record<string, string>} options.moduleBeside packages that are not bundled, with the ES module beside the bundle that is
 *   loaded in their place
 * @param {Record<string, string>} options.names of entries that are not to be called as esbuild calls them
 * @param {string} options.program the entry that is run by its name
 * @returns {esbuild.Plugin}
 */
export function asScripts({ sourcemap, moduleBeside, names, program }) {
  return {
    name: "scripts with common parts",
    setup(build) {
      Object.assign(build.initialOptions, {
        format: "esm",
        write: false,
        sourcemap: sourcemap ? "inline" : false,
      });
      for (const [name, path] of Object.entries(moduleBeside))
        build.onResolve({ filter: new RegExp(`^${name}$`) }, () => ({ path, external: true }));
      build.onEnd(async ({ outputFiles = [] }) => {
        for (const { path, text } of outputFiles) await write(path, await asScript(text, path));
      });
    },
  };

  async function asScript(text, path) {
    const besides = Object.values(moduleBeside).map((beside) => JSON.stringify(beside));
    const marked = besides.reduce(
      (code, beside) => code.replaceAll(`import(${beside})`, `${IMPORT_BESIDE}(${beside})`),
      text,
    );
    const { code, map } = await esbuild.transform(marked, {
      format: "cjs",
      target: "node20",
      platform: "node",
      supported: { "dynamic-import": false },
      minify: !sourcemap,
      charset: "utf8",
      sourcemap: sourcemap ? "external" : false,
      sourcefile: path,
    });
    return { code, map };
  }

  async function write(path, { code, map }) {
    const folder = dirname(path);
    const name = names[basename(path)] ?? basename(path);
    await mkdir(folder, { recursive: true });
    const link = map === "" ? "" : `//# sourceMappingURL=${name}.map\n`;
    const hashbang = name === program ? HASHBANG : "";
    await writeFile(join(folder, name), `${hashbang}${HEAD}${code}${TAIL}${link}`);
    if (map !== "") await writeFile(join(folder, `${name}.map`), map);
  }
}
