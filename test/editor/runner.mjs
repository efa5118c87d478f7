/** A tiny test runner: one case after the other, each in a window and a workspace of its own. */
import assert from "node:assert/strict";
import fs from "node:fs";
import path from "node:path";
import { pathToFileURL } from "node:url";

const CASE_TIMEOUT_MS = 180_000;

/**
 * @typedef {object} Case
 * @property {string} title what the case proves, as a sentence
 * @property {Record<string, URL | string>} files the workspace: name → original to copy, or text
 * @property {(tools: Tools) => Promise<void>} run throws when the case fails
 *
 * @typedef {object} Tools
 * @property {import("./page.mjs").Workbench} workbench
 * @property {string} folder the workspace folder on disk
 * @property {(name: string) => string} read a workspace file as it stands on disk
 * @property {typeof import("node:assert/strict")} assert
 */

/** The cases in a folder whose file name contains one of `filters` (all without filters), in the order of their names. */
export async function loadCases(folder, filters) {
  const names = fs.readdirSync(folder).filter((name) => name.endsWith(".mjs"));
  const chosen = names.filter((name) => filters.length === 0 || filters.some((filter) => name.includes(filter))).sort();
  if (chosen.length === 0) throw new Error(`No case in ${folder} is named like ${filters.join(" or ") || "*.mjs"}`);
  return Promise.all(
    chosen.map(async (file) => ({
      name: path.basename(file, ".mjs"),
      ...(await import(pathToFileURL(path.join(folder, file)).href)).default,
    })),
  );
}

/**
 * Runs the cases and prints a line for each and a closing line.
 * @returns {Promise<boolean>} whether all passed
 */
export async function runCases(session, cases) {
  let failed = 0;
  for (const each of cases) {
    const begun = Date.now();
    let error = await runCase(session, each);
    if (error) {
      // A browser on a busy machine loses a key or a click now and then. What is broken fails twice.
      console.log(`failed once, tried again - ${each.title}\n${indented(error)}`);
      error = await runCase(session, { ...each, name: `${each.name}-again` });
    }
    const verdict = error ? "not ok" : "ok";
    console.log(`${verdict} - ${each.title} (${Date.now() - begun} ms)`);
    if (error) {
      failed += 1;
      console.log(indented(error));
    }
  }
  console.log(`${cases.length - failed} passed, ${failed} failed`);
  return failed === 0;
}

const indented = (error) => String(error.stack ?? error).replace(/^/gm, "    ");

async function runCase(session, { name, files, run }) {
  const folder = session.workspace(name, files);
  const read = (file) => fs.readFileSync(path.join(folder, file), "utf8");
  let workbench;
  try {
    workbench = await session.window(folder);
    await withTimeout(run({ workbench, folder, read, assert }));
    return undefined;
  } catch (error) {
    await workbench?.screenshot(`failure-${name}`).catch(() => {}); // the window may be what failed
    return error;
  } finally {
    await workbench?.close();
  }
}

function withTimeout(running) {
  let timer;
  const late = new Promise((_, reject) => {
    timer = setTimeout(
      () => reject(new Error(`The case took longer than ${CASE_TIMEOUT_MS / 1000} s`)),
      CASE_TIMEOUT_MS,
    );
  });
  return Promise.race([running, late]).finally(() => clearTimeout(timer));
}
