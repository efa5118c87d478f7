/** Loaded before a program (`node --require`): a thread beside the main one that opens a file named `kills…` ends at once. */
const fs = require("node:fs");
const { basename } = require("node:path");
const { isMainThread } = require("node:worker_threads");

if (!isMainThread) {
  const { openSync } = fs;
  fs.openSync = (file, ...rest) => {
    if (basename(String(file)).startsWith("kills")) process.exit(7);
    return openSync(file, ...rest);
  };
}
