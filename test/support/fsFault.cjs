/**
 * Loaded before a program (`node --require`): makes the system calls of `node:fs` fail as BOREWRIGHT_TEST_FAULT says, JSON
 * `{ at, does, file?, once? }`. `at` is the number of the call, from 1, or the name of the function. `does` is the code of the
 * error it throws, `kill`, which ends the process with no chance to tidy up (a text is then half written), or `append`,
 * which adds a line to `file` first, as somebody else would, or `pipe`, which puts a pipe in the place of `file` first. `once` is for the first call of the name alone.
 * A program may set the next fault itself by `globalThis.nextFault`, which counts from 1 again.
 */
const { execFileSync } = require("node:child_process");
const fs = require("node:fs");

let { at, does, file, once } = JSON.parse(process.env.BOREWRIGHT_TEST_FAULT ?? "{}");
const CALLS = [
  "closeSync",
  "fchmodSync",
  "fchownSync",
  "fstatSync",
  "fsyncSync",
  "lstatSync",
  "mkdirSync",
  "openSync",
  "readSync",
  "realpathSync",
  "renameSync",
  "statSync",
  "unlinkSync",
  "writeFileSync",
];

let count = 0;
let done = false;
globalThis.nextFault = (next) => {
  ({ at, does, file, once } = next);
  count = 0;
  done = false;
};
for (const name of CALLS) {
  const real = fs[name];
  fs[name] = (...args) => {
    if (isNode(new Error().stack)) return real(...args);
    count++;
    if ((at === count || at === name) && !(once && done)) {
      done = true;
      fault(name, args);
    }
    return real(...args);
  };
}

/** Whether the call comes from Node itself, which loads the program by the same functions. */
function isNode(stack) {
  return stack.split("\n")[2].includes("node:internal");
}

/** Of what a text is written with: as the real one, whatever stands in its place by now. */
const { writeSync, appendFileSync, rmSync } = fs;

function fault(name, args) {
  if (does === "pipe") {
    rmSync(file);
    execFileSync("mkfifo", [file]);
    return;
  }
  if (does === "append") {
    appendFileSync(file, "# added meanwhile\n");
    return;
  }
  if (name === "writeFileSync") writeSync(args[0], args[1].slice(0, args[1].length / 2));
  if (does === "kill") process.kill(process.pid, "SIGKILL");
  // As Node words it: code, words, call.
  throw Object.assign(new Error(`${does}: injected, ${name.replace("Sync", "")}`), { code: does, syscall: name });
}
