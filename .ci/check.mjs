/** `npm run check`: what the scripts `check:…` of package.json hold, side by side; one that fails prints what it found. */
import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { availableParallelism } from "node:os";

const root = new URL("..", import.meta.url);
const { scripts } = JSON.parse(readFileSync(new URL("package.json", root), "utf8"));
const waiting = Object.entries(scripts).flatMap(([name, line]) =>
  name.startsWith("check:") ? line.split(" && ") : [],
);

function run(line) {
  return new Promise((resolve) => {
    const PATH = `${new URL("node_modules/.bin", root).pathname}:${process.env.PATH}`;
    const child = spawn(line, {
      cwd: root,
      shell: true,
      env: { ...process.env, PATH },
      stdio: ["ignore", "pipe", "pipe"],
    });
    let said = "";
    for (const stream of [child.stdout, child.stderr]) stream.on("data", (text) => (said += text));
    child.on("close", (status) => {
      if (status !== 0) {
        process.stdout.write(`== ${line}\n${said}`);
        process.exitCode = 1;
      }
      resolve();
    });
  });
}

async function work() {
  for (let line = waiting.shift(); line !== undefined; line = waiting.shift()) await run(line);
}

await Promise.all(Array.from({ length: availableParallelism() }, work));
