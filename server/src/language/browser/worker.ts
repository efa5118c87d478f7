/**
 * The script that a browser starts as a worker. The server's own script is for Node and for browsers: here `require` is provided as
 * Node would, each script once.
 */
import type { WorkerRole } from "../../protocol/browserWorker.js";

interface WorkerScope {
  onmessage: ((event: { readonly data: unknown }) => void) | null;
  module: { exports: unknown };
  exports: unknown;
  require(name: string): unknown;
  importScripts(url: string): void;
}

declare const self: WorkerScope;

self.onmessage = ({ data }) => {
  const role = data as WorkerRole;
  const folder = role.program.slice(0, role.program.lastIndexOf("/") + 1);
  const known = new Map<string, { exports: unknown }>();
  self.require = (name) => {
    const there = known.get(name);
    if (there !== undefined) return there.exports;
    const module = { exports: {} };
    known.set(name, module);
    // Taken by the script as it begins: what it requires may put others here.
    Object.assign(self, { module, exports: module.exports });
    self.importScripts(folder + name.replace(/^\.\//, ""));
    return module.exports;
  };
  const { begin } = self.require("./webServer.js") as { begin(role: WorkerRole): void };
  begin(role);
};
