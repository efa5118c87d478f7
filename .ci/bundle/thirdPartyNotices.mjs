/** The notices of the libraries that a bundle has in it: their licences ask that they go with every copy. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const NOTICE_FILE = /^(licen[cs]e|copying|notice)/i;
const LICENCE_SECTION = /^#+ *licen[cs]e\b.*\n([\s\S]*)/im;

/**
 * The text of every notice in the bundles that esbuild has made.
 * @param {readonly import("esbuild").Metafile[]} metafiles
 * @param {readonly string[]} beside folders of the libraries that are copied beside them
 * @throws Error where a library comes without a licence: look into it before it is shipped
 */
export function thirdPartyNotices(metafiles, beside) {
  const inputs = metafiles.flatMap(({ outputs }) =>
    Object.values(outputs).flatMap(({ inputs: own }) =>
      // What was left out as unused is not in the bundle.
      Object.entries(own).flatMap(([path, { bytesInOutput }]) => (bytesInOutput > 0 ? [path] : [])),
    ),
  );
  const folders = new Set([...inputs.flatMap((path) => packageFolder(path) ?? []), ...beside]);
  const notices = [...folders].map(noticeOf).sort((a, b) => (a.title < b.title ? -1 : 1));
  const intro = "Borewright contains the following libraries, each under its own licence.\n";
  return [intro, ...notices.map(({ title, text }) => `${"=".repeat(80)}\n${title}\n\n${text}\n`)].join("\n");
}

/** `a/node_modules/@b/c/d.js` → `a/node_modules/@b/c`. */
function packageFolder(path) {
  return /^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/.exec(path)?.[0];
}

function noticeOf(folder) {
  const { name, version, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));
  const files = readdirSync(folder);
  const read = (file) => readFileSync(join(folder, file), "utf8");
  const own = files.filter((file) => NOTICE_FILE.test(file)).sort();
  // Some have it at the end of their README alone.
  const readme = files.find((file) => /^readme\b/i.test(file));
  const texts = own.length > 0 ? own.map(read) : [LICENCE_SECTION.exec(readme ? read(readme) : "")?.[1] ?? ""];
  const text = texts.map((each) => each.trim()).join("\n\n");
  if (!/copyright/i.test(text)) throw new Error(`${name} ${version} is bundled, but ${folder} has no licence with it`);
  return { title: `${name} ${version} (${license})`, text };
}
