/** A folder as any web server would serve it, on this machine alone. */
import fs from "node:fs";
import http from "node:http";
import path from "node:path";
import { send } from "./server.mjs";

const HOST = "127.0.0.1";

/** @returns its address, and how it ends */
export async function serveFolder(folder, port = 0) {
  const server = http.createServer(async (request, response) => {
    const { pathname } = new URL(request.url, "http://x");
    const file = path.join(folder, pathname === "/" ? "index.html" : decodeURIComponent(pathname));
    try {
      if (!file.startsWith(folder + path.sep)) throw new Error("outside");
      send(response, await fs.promises.readFile(file), path.extname(file));
    } catch {
      response.statusCode = 404;
      response.end();
    }
  });
  await new Promise((resolve) => server.listen(port, HOST, resolve));
  return {
    url: `http://${HOST}:${server.address().port}/`,
    stop: () => {
      server.closeAllConnections();
      return new Promise((resolve) => server.close(resolve));
    },
  };
}
