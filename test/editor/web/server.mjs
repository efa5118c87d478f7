/**
 * VS Code for the web with nothing but a browser behind it: its files, ours, and a folder served as any web server would. Extensions
 * run in a worker of the page; there is no Node for them.
 */
import fs from "node:fs";
import http from "node:http";
import path from "node:path";
import { SETTINGS } from "../server.mjs";

const HOST = "127.0.0.1";
const PAGE = "out/vs/code/browser/workbench/workbench.html";
const SCRIPT = "out/vs/code/browser/workbench/workbench.js";
/** Where this build of VS Code always goes to a server: for its extensions, and for the user's settings. */
const WITHOUT_SERVER = {
  ",remoteAuthority:location.host}": "}",
  '{scheme:K.vscodeRemote}),"User")': '{scheme:K.vscodeUserData}),"User")',
};
const TYPES = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".mjs": "text/javascript",
  ".css": "text/css",
  ".json": "application/json",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".wasm": "application/wasm",
};
/** vscode.FileType */
const FILE = 1;
const FOLDER = 2;

export class WebServer {
  #roots;
  #server;

  /**
   * @param {{ vscode: string, extension: string, files: string }} folders VS Code's own, the unpacked extension, and the one whose
   *   folders are opened
   */
  constructor({ vscode, extension, files }) {
    this.#roots = { vscode, extension, folder: new URL("folder", import.meta.url).pathname, files };
  }

  async start() {
    this.#server = http.createServer((request, response) => {
      this.#answer(request, response).catch((error) => {
        response.statusCode = error.code === "ENOENT" ? 404 : 500;
        response.end(String(error));
      });
    });
    await new Promise((resolve) => this.#server.listen(0, HOST, resolve));
  }

  get #authority() {
    return `${HOST}:${this.#server.address().port}`;
  }

  /** The page that shows a folder below `files`. */
  url(folder) {
    return `http://${this.#authority}/?${new URLSearchParams({ open: path.relative(this.#roots.files, folder) })}`;
  }

  async stop() {
    this.#server?.closeAllConnections();
    await new Promise((resolve) => this.#server?.close(resolve) ?? resolve());
  }

  async #answer(request, response) {
    const { pathname, search, searchParams } = new URL(request.url, "http://x");
    if (pathname === "/") return send(response, this.#page(searchParams.get("open")), ".html");
    const [, root, ...rest] = decodeURIComponent(pathname).split("/");
    const folder = Object.hasOwn(this.#roots, root) ? this.#roots[root] : undefined;
    const file = folder && path.join(folder, ...rest);
    if (file === undefined || !file.startsWith(folder)) throw Object.assign(new Error(pathname), { code: "ENOENT" });
    if (root === "files") return this.#answerOnFile(file, request, response, search.slice(1));
    const bytes = await fs.promises.readFile(file);
    send(response, rest.join("/") === SCRIPT ? withoutServer(bytes.toString()) : bytes, path.extname(file));
  }

  async #answerOnFile(file, request, response, query) {
    if (request.method === "PUT") await fs.promises.writeFile(file, await bodyOf(request));
    else if (request.method === "DELETE") await fs.promises.rm(file);
    else if (request.method === "POST")
      await fs.promises.rename(file, path.join(this.#roots.files, String(await bodyOf(request))));
    else if (query === "list") {
      const entries = await fs.promises.readdir(file, { withFileTypes: true });
      const list = entries.map((entry) => [entry.name, entry.isDirectory() ? FOLDER : FILE]);
      return send(response, JSON.stringify(list), ".json");
    } else if (query === "stat") {
      const { size, mtimeMs, ctimeMs, ...stats } = await fs.promises.stat(file);
      const type = (stats.mode & fs.constants.S_IFMT) === fs.constants.S_IFDIR ? FOLDER : FILE;
      return send(response, JSON.stringify({ type, size, mtime: mtimeMs, ctime: ctimeMs }), ".json");
    } else return send(response, await fs.promises.readFile(file), "");
    response.end();
  }

  #page(folder) {
    const at = (place) => ({ scheme: "http", authority: this.#authority, path: place });
    const base = `http://${this.#authority}/vscode`;
    const settings = {
      folderUri: { scheme: "memfs", path: `/${folder}` },
      additionalBuiltinExtensions: [at("/folder"), at("/extension")],
      userDataPath: "/",
      isEnabledFileDownloads: true,
      isEnabledFileUploads: true,
      isEnabledCoderGettingStarted: false,
      webviewEndpoint: `${base}/out/vs/workbench/contrib/webview/browser/pre`,
      configurationDefaults: SETTINGS,
      productConfiguration: { nameShort: "Code", nameLong: "Code in a browser", enableTelemetry: false },
    };
    const values = {
      WORKBENCH_WEB_CONFIGURATION: JSON.stringify(settings).replaceAll('"', "&quot;"),
      WORKBENCH_AUTH_SESSION: "",
      WORKBENCH_WEB_BASE_URL: base,
      WORKBENCH_NLS_FALLBACK_URL: `${base}/out/nls.messages.js`,
      WORKBENCH_NLS_URL: `${base}/out/nls.messages.js`,
      BASE: base,
      VS_BASE: base,
    };
    const page = fs.readFileSync(path.join(this.#roots.vscode, PAGE), "utf8");
    return page.replace(/\{\{(\w+)\}\}/g, (_, name) => values[name] ?? "");
  }
}

function withoutServer(script) {
  return Object.entries(WITHOUT_SERVER).reduce((text, [with_, without]) => {
    if (!text.includes(with_)) throw new Error("This build of VS Code is not the one that is known here");
    return text.replace(with_, without);
  }, script);
}

export function send(response, body, ending) {
  response.setHeader("content-type", TYPES[ending] ?? "application/octet-stream");
  response.end(body);
}

async function bodyOf(request) {
  const pieces = [];
  for await (const piece of request) pieces.push(piece);
  return Buffer.concat(pieces);
}
