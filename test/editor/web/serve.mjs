/** `npm run web`: the page that edits the examples in a browser alone, built into out/page and served until Ctrl+C. -- --port N */
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { buildWebPage } from "../../../.ci/bundle/webPage.mjs";
import { serveFolder } from "./static.mjs";

const { values } = parseArgs({ options: { port: { type: "string", default: "0" } } });
const out = fileURLToPath(new URL("../../../out/page", import.meta.url));
await buildWebPage(out);
const { url } = await serveFolder(out, Number(values.port));
console.log(`${url}\nThe files are in out/page, for any web server. Ctrl+C ends this one.`);
