/** Which tests evaluate which mutants, found by one run of the tests on instrumented sources and kept in out/mutate. */
import { fork } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import type { Mutants } from "./mutants.js";
import type { Begin, Heard, Told } from "./orders.js";

export interface Covering {
  readonly file: string;
  readonly id: string;
  readonly seconds: number;
  /** What the file costs before its first test. */
  readonly loading: number;
}

/** The tests that evaluate a mutant, or load what does. */
export type Coverage = (mutant: number) => readonly Covering[];

const hash = (text: string) => createHash("sha256").update(text).digest("hex").slice(0, 16);

/** @throws Error where a test fails on the sources as they are */
export async function coverageOf(
  root: string,
  host: string,
  mutants: Mutants,
  files: readonly string[],
): Promise<Coverage> {
  const out = path.join(root, "out/mutate", hash(JSON.stringify([...mutants.texts])));
  mkdirSync(out, { recursive: true });
  const kept = (file: string) => {
    const text = readFileSync(path.join(root, file), "utf8");
    return path.join(out, `${path.basename(file)}.${hash(file + text)}.json`);
  };
  const missing = files.filter((file) => !existsSync(kept(file)));
  if (missing.length > 0) {
    const instrumented = path.join(out, "instrumented.json");
    const ids = 1 + Math.max(...mutants.mutants.map(({ id }) => id));
    const texts = [...mutants.instrumented].map(([name, text]) => [name, counting(text, ids)]);
    writeFileSync(instrumented, JSON.stringify(Object.fromEntries(texts)));
    const heard: Heard[] = [];
    await listen(host, { root, files: missing, instrumented }, (one) => {
      heard.push(one);
      // The last message of its file. Kept at once: an interrupted run need not start again.
      if (one.id !== undefined) return;
      const own = heard.filter(({ file }) => file === one.file);
      if (own.every(({ failed }) => !failed)) writeFileSync(kept(one.file), JSON.stringify(own));
      process.stderr.write(`covered by ${one.file}\n`);
    });
    // A test that looks at its own process may fail on instrumented sources: without its file the score is a lower bound still.
    for (const file of new Set(heard.flatMap((one) => (one.failed ? [one.file] : []))))
      process.stderr.write(`not asked, for it fails without any mutant: ${file}\n`);
  }
  const sound = files.filter((file) => existsSync(kept(file)));
  if (sound.length === 0) throw new Error("no file of tests passes without any mutant");
  const all: Heard[] = sound.flatMap((file) => JSON.parse(readFileSync(kept(file), "utf8")));
  const marked = all.map((one) => ({ ...one, bits: Buffer.from(one.touched, "base64") }));
  const touches = (bits: Buffer, mutant: number) => (((bits[mutant >> 3] ?? 0) >> (mutant & 7)) & 1) === 1;
  const loading = new Map(all.flatMap(({ file, id, seconds }) => (id === undefined ? [[file, seconds] as const] : [])));
  return (mutant) => {
    const whole = new Set(
      marked.filter(({ id, bits }) => id === undefined && touches(bits, mutant)).map(({ file }) => file),
    );
    return marked.flatMap(({ file, id, seconds, bits }) =>
      id !== undefined && (whole.has(file) || touches(bits, mutant))
        ? [{ file, id, seconds, loading: loading.get(file) ?? 0 }]
        : [],
    );
  };
}

/** StrykerJS's switches, which cost a call by name each, made a mark in an array. */
function counting(text: string, mutants: number): string {
  const body = text
    .replaceAll(/stryMutAct_9fa48\("\d+"\)/g, "false")
    .replaceAll(/stryCov_9fa48\(((?:"\d+"(?:,\s*)?)+)\)/g, (_, ids: string) => {
      const marks = ids.split(",").map((id) => `mutantsTouched[${id.replaceAll('"', "").trim()}] = `);
      return `(${marks.join("")}1)`;
    });
  return `// @ts-nocheck
const mutantsTouched = (globalThis.mutantsTouched ??= new Uint8Array(${mutants}));
${body}`;
}

function listen(host: string, begin: Begin, heard: (one: Heard) => void): Promise<void> {
  const child = fork(host, { stdio: ["ignore", "inherit", "inherit", "ipc"] });
  child.on("message", (told: Told) => {
    if (told.kind === "heard") heard(told.heard);
  });
  child.send(begin);
  return new Promise((resolve, reject) => {
    child.on("exit", (status) =>
      // 1 where a test failed, which was heard.
      status === 0 || status === 1 ? resolve() : reject(new Error(`the tests ended with status ${status}`)),
    );
  });
}

/** Files of tests named or below some folders, but for those that replace modules of the product. */
export function testsBelow(root: string, folders: readonly string[]): string[] {
  return folders.flatMap((folder) => {
    if (folder.endsWith(".test.ts")) return [folder];
    return readdirSync(path.join(root, folder), { recursive: true, encoding: "utf8" })
      .filter((name) => name.endsWith(".test.ts"))
      .map((name) => path.posix.join(folder, name))
      .filter((name) => !/\bvi\.(do)?mock\(/i.test(readFileSync(path.join(root, name), "utf8")))
      .sort();
  });
}
