/** Designs that are not open: checked as they are found, told once, and again when their files change. */
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { CancellationTokenSource, type WorkspaceDiagnosticReport } from "vscode-languageserver/node";
import { checkFile } from "../../server/src/cli/check/checkFile.js";
import type { CheckFiles } from "../../server/src/language/workspace/closedDesigns.js";
import { workspaceOnDisk } from "../../server/src/language/workspace/register.js";
import { type Client, client, PULLING } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";

const TUNED = WHISTLE.replace("at: 210.3", "at: 205.3");
const WATCHING = {
  ...PULLING,
  workspace: { ...PULLING.workspace, didChangeWatchedFiles: { dynamicRegistration: true } },
};
let folder = "";
let checked: string[] = [];

/** As the program does it on a thread, in this one. */
const checkFiles: CheckFiles = async (files, settings, onDone, signal) => {
  for (const file of files) {
    if (signal.aborted) return;
    checked.push(file.slice(folder.length + 1));
    onDone(file, checkFile(file, { settings, withFixes: false }));
  }
};

beforeAll(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "borewright-workspace-")));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));
beforeEach(() => {
  rmSync(folder, { recursive: true });
  mkdirSync(join(folder, "node_modules"), { recursive: true });
  for (const [name, text] of Object.entries({
    "a.bore.yaml": WHISTLE,
    "b.bore.yaml": TUNED,
    "node_modules/c.bore.yaml": WHISTLE,
  }))
    writeFileSync(join(folder, name), text);
  checked = [];
});

const uri = (name: string) => pathToFileURL(join(folder, name)).href;
const started = () => client(WATCHING, { workspace: workspaceOnDisk(checkFiles) }, folder);

/** The client's side: what it was told last of each file. */
class Asking {
  private readonly told = new Map<string, string>();

  constructor(private readonly self: Client) {}

  /** Codes of the findings of the files that are new to it, by name. */
  async next(token = new CancellationTokenSource().token): Promise<Record<string, unknown>> {
    const previousResultIds = [...this.told].map(([of, value]) => ({ uri: of, value }));
    const { items } = await this.self.connection.sendRequest<WorkspaceDiagnosticReport>(
      "workspace/diagnostic",
      { previousResultIds },
      token,
    );
    for (const item of items)
      if (item.resultId === undefined) this.told.delete(item.uri);
      else this.told.set(item.uri, item.resultId);
    return Object.fromEntries(
      items.map((item) => [item.uri.split("/").at(-1), "items" in item ? item.items.map(({ code }) => code) : "same"]),
    );
  }
}

async function write(self: Client, name: string, text: string | undefined): Promise<void> {
  if (text === undefined) rmSync(join(folder, name));
  else writeFileSync(join(folder, name), text);
  await self.connection.sendNotification("workspace/didChangeWatchedFiles", { changes: [{ uri: uri(name), type: 2 }] });
}

describe("the findings of designs that are not open", () => {
  it("are reported for all of them, other people's folders left out", async () => {
    const self = await started();
    expect(self.result.capabilities.diagnosticProvider).toMatchObject({ workspaceDiagnostics: true });
    expect(await new Asking(self).next()).toEqual({ "a.bore.yaml": ["pitch/out-of-tune"], "b.bore.yaml": [] });
  });

  it("are reported again for what has changed, is new or gone, and for nothing else", async () => {
    const self = await started();
    const asking = new Asking(self);
    await asking.next();
    const waiting = asking.next();
    await write(self, "b.bore.yaml", WHISTLE);
    expect(await waiting).toEqual({ "b.bore.yaml": ["pitch/out-of-tune"] });
    expect(checked).toEqual(["a.bore.yaml", "b.bore.yaml", "b.bore.yaml"]);
    await write(self, "new.bore.yaml", TUNED);
    expect(await asking.next()).toEqual({ "new.bore.yaml": [] });
    await write(self, "a.bore.yaml", undefined);
    expect(await asking.next()).toEqual({ "a.bore.yaml": [] });
  });

  it("are its text's while it is open, and the file's again after", async () => {
    const self = await started();
    self.open(WHISTLE, uri("b.bore.yaml"));
    const asking = new Asking(self);
    expect(await asking.next()).toEqual({ "a.bore.yaml": ["pitch/out-of-tune"] });
    const waiting = asking.next();
    await self.connection.sendNotification("textDocument/didClose", { textDocument: { uri: uri("b.bore.yaml") } });
    expect(await waiting).toEqual({ "b.bore.yaml": [] });
  });

  it("change with the settings", async () => {
    const self = await started();
    const asking = new Asking(self);
    await asking.next();
    const waiting = asking.next();
    self.settings = { rules: { "pitch/out-of-tune": "off" } };
    await self.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
    expect(await waiting).toEqual({ "a.bore.yaml": [], "b.bore.yaml": [] });
  });

  it("are waited for no longer once that is cancelled", async () => {
    const self = await started();
    const asking = new Asking(self);
    await asking.next();
    const source = new CancellationTokenSource();
    const waiting = asking.next(source.token);
    source.cancel();
    await expect(waiting).rejects.toThrow("cancelled");
  });
});
