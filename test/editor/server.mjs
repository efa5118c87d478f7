/** A VS Code server with nothing of the user's in it: own home, own settings, no marketplace, loopback only. */
import { execFile, spawn } from "node:child_process";
import { randomUUID } from "node:crypto";
import fs from "node:fs";
import net from "node:net";
import path from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { promisify } from "node:util";

const HOST = "127.0.0.1"; // webviews work on this address and `localhost` only
const START_TIMEOUT_MS = 60_000;
const STOP_TIMEOUT_MS = 3_000;

/** A user who is left in peace. */
export const SETTINGS = {
  "workbench.startupEditor": "none",
  "workbench.tips.enabled": false,
  "workbench.enableExperiments": false,
  "workbench.colorTheme": "Default Light Modern",
  "workbench.reduceMotion": "on",
  "extensions.autoUpdate": false,
  "extensions.autoCheckUpdates": false,
  "extensions.ignoreRecommendations": true,
  "telemetry.telemetryLevel": "off",
  "security.workspace.trust.enabled": false,
  "git.enabled": false,
  "files.autoSave": "off", // in a browser the default is to save at once
  "files.hotExit": "off",
  "editor.minimap.enabled": false,
  "editor.hover.delay": 100,
};

export class EditorServer {
  #main;
  #env;
  #folders;
  #process;
  #token = randomUUID();
  #tokenFile;
  #port = 0;

  /**
   * @param {string} main the server's main script (install.mjs finds it)
   * @param {string} home an empty folder to keep everything in; short, as sockets below it have a length limit
   * @param {Record<string, unknown>} [settings] user settings on top of the quiet ones above
   */
  constructor(main, home, settings = {}) {
    this.#main = main;
    this.#folders = {
      data: path.join(home, "data"),
      user: path.join(home, "user"),
      extensions: path.join(home, "ext"),
    };
    fs.mkdirSync(path.join(this.#folders.user, "User"), { recursive: true });
    fs.mkdirSync(this.#folders.extensions, { recursive: true });
    fs.writeFileSync(path.join(this.#folders.user, "User/settings.json"), JSON.stringify({ ...SETTINGS, ...settings }));
    this.#tokenFile = path.join(home, "token");
    fs.writeFileSync(this.#tokenFile, this.#token, { mode: 0o600 }); // not for others on this machine: VS Code has a terminal
    this.#env = cleanEnvironment(home);
  }

  get #commonArguments() {
    const { data, user, extensions } = this.#folders;
    return [
      this.#main,
      "--accept-server-license-terms",
      ...["--server-data-dir", data, "--user-data-dir", user, "--extensions-dir", extensions],
    ];
  }

  /** The folder the server and its extension hosts log into. */
  get logFolder() {
    return path.join(this.#folders.user, "logs");
  }

  /** Installs a .vsix as a user would with `code --install-extension`; returns what the command said. */
  async installExtension(vsix) {
    const command = [...this.#commonArguments, "--install-extension", path.resolve(vsix), "--force"];
    const { stdout, stderr } = await promisify(execFile)(process.execPath, command, { env: this.#env });
    return (stdout + stderr).trim();
  }

  /** Starts the server and waits until it answers. `port` 0 takes any free one. */
  async start(logFile, { port = 0 } = {}) {
    this.#port = await freePort(port);
    const log = fs.openSync(logFile, "w");
    const listen = ["--host", HOST, "--port", String(this.#port), "--connection-token-file", this.#tokenFile];
    const child = spawn(
      process.execPath,
      [...this.#commonArguments, ...listen, "--telemetry-level", "off", "--disable-workspace-trust"],
      { env: this.#env, stdio: ["ignore", log, log], detached: true }, // its own process group, see stop()
    );
    fs.closeSync(log);
    this.#process = child;
    const deadline = Date.now() + START_TIMEOUT_MS;
    while (!(await answers(`http://${HOST}:${this.#port}/version`))) {
      if (child.exitCode !== null || Date.now() > deadline) {
        await this.stop();
        throw new Error(`The VS Code server did not start; its log is ${logFile}`);
      }
      await sleep(200);
    }
  }

  /** The page that shows `folder` as the workspace. */
  url(folder) {
    return `http://${HOST}:${this.#port}/?${new URLSearchParams({ folder, tkn: this.#token })}`;
  }

  /** Ends the whole process group: extension hosts and language servers would outlive the server alone. */
  async stop() {
    const child = this.#process;
    if (!child?.pid) return;
    signalGroup(child.pid, "SIGTERM");
    const deadline = Date.now() + STOP_TIMEOUT_MS;
    while (child.exitCode === null && child.signalCode === null && Date.now() < deadline) await sleep(50);
    signalGroup(child.pid, "SIGKILL");
  }
}

function cleanEnvironment(home) {
  const inherited = Object.entries(process.env).filter(
    ([name]) => !name.startsWith("VSCODE_") && name !== "ELECTRON_RUN_AS_NODE",
  );
  return {
    ...Object.fromEntries(inherited),
    HOME: home,
    XDG_CONFIG_HOME: path.join(home, "config"),
    XDG_DATA_HOME: path.join(home, "share"),
    XDG_CACHE_HOME: path.join(home, "cache"),
    EXTENSIONS_GALLERY: "{}", // no marketplace, so nothing is looked up outside
  };
}

/** `wanted` if nothing listens there, any free port for 0. */
function freePort(wanted) {
  return new Promise((resolve, reject) => {
    const probe = net.createServer();
    probe.once("error", (error) => reject(new Error(`Port ${wanted} cannot be used: ${error.message}`)));
    probe.listen(wanted, HOST, () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}

async function answers(url) {
  try {
    return (await fetch(url)).ok;
  } catch {
    return false;
  }
}

function signalGroup(pid, signal) {
  try {
    process.kill(-pid, signal);
  } catch {
    // The group has ended already.
  }
}
