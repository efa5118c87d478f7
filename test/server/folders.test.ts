/** Several folders: settings of each, folders that come and go, and what is found by name in all of them. */
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { SymbolInformation, WorkspaceDiagnosticReport } from "vscode-languageserver/node";
import { checkFile } from "../../server/src/cli/check/checkFile.js";
import { workspaceOnDisk } from "../../server/src/language/workspace/register.js";
import { type Client, client, PULLING, pulled, until } from "../support/client.js";
import { WHISTLE } from "../support/designs.js";

const CAPABILITIES = {
  ...PULLING,
  workspace: { ...PULLING.workspace, workspaceFolders: true, didChangeWatchedFiles: { dynamicRegistration: true } },
};
const workspace = workspaceOnDisk(async (files, settings, onDone) => {
  for (const file of files) onDone(file, checkFile(file, { settings, withFixes: false }));
});
let root = "";
const uri = (name: string) => pathToFileURL(join(root, name)).href;
/** Without a tolerance of its own. */
const LOOSE = WHISTLE.replace("tolerance: 10\n", "");

beforeAll(() => {
  root = realpathSync(mkdtempSync(join(tmpdir(), "borewright-folders-")));
  for (const folder of ["whistles", "altos"]) {
    mkdirSync(join(root, folder));
    writeFileSync(join(root, folder, "a.bore.yaml"), LOOSE.replace("name: Test", `name: Of ${folder}`));
  }
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

const started = () => client(CAPABILITIES, { workspace }, join(root, "whistles"));
/** In one folder nothing is out of tune. */
const byFolder = (loose: string) => (scope?: string) => (scope?.startsWith(uri(loose)) ? { tolerance: 90 } : {});
const changed = (self: Client) =>
  self.connection.sendNotification("workspace/didChangeConfiguration", { settings: null });
const folders = (self: Client, added: string[], removed: string[] = []) =>
  self.connection.sendNotification("workspace/didChangeWorkspaceFolders", {
    event: {
      added: added.map((name) => ({ uri: uri(name), name })),
      removed: removed.map((name) => ({ uri: uri(name), name })),
    },
  });
const checkedBy = async (self: Client, previousResultIds: object[] = []) => {
  const { items } = await self.connection.sendRequest<WorkspaceDiagnosticReport>("workspace/diagnostic", {
    previousResultIds,
  });
  return Object.fromEntries(
    items.map((item) => [item.uri.slice(uri("").length + 1), "items" in item && item.items.length]),
  );
};

describe("settings", () => {
  it("are each folder's own, from the first answer on, and change while the design is open", async () => {
    const self = await started();
    self.settings = byFolder("altos");
    for (const folder of ["whistles", "altos"]) self.open(LOOSE, uri(`${folder}/open.bore.yaml`));
    const counts = async () => [
      (await pulled(self, uri("whistles/open.bore.yaml"))).length,
      (await pulled(self, uri("altos/open.bore.yaml"))).length,
    ];
    expect(await counts()).toEqual([1, 0]);
    const { refreshes } = self;
    self.settings = byFolder("whistles");
    await changed(self);
    await until(() => self.refreshes > refreshes);
    expect(await counts()).toEqual([0, 1]);
  });

  it("of a folder hold for the designs in it that are not open", async () => {
    const self = await started();
    self.settings = byFolder("altos");
    await folders(self, ["altos"]);
    expect(await checkedBy(self)).toEqual({ "whistles/a.bore.yaml": 1, "altos/a.bore.yaml": 0 });
  });

  it("are not waited for where the client does not answer", async () => {
    const self = await started();
    self.connection.onRequest("workspace/configuration", () => new Promise(() => undefined));
    self.open(LOOSE, uri("whistles/open.bore.yaml"));
    expect(await pulled(self, uri("whistles/open.bore.yaml"))).toHaveLength(1);
  });
});

describe("folders", () => {
  it("are checked as they come, and left when they go", async () => {
    const self = await started();
    expect(Object.keys(await checkedBy(self))).toEqual(["whistles/a.bore.yaml"]);
    await folders(self, ["altos"], ["whistles"]);
    const told = [{ uri: uri("whistles/a.bore.yaml"), value: "1" }];
    expect(await checkedBy(self, told)).toEqual({ "altos/a.bore.yaml": 1, "whistles/a.bore.yaml": 0 });
  });
});

describe("workspace symbols", () => {
  const found = async (self: Client, query: string) => {
    const symbols = await self.connection.sendRequest<SymbolInformation[]>("workspace/symbol", { query });
    return symbols.map(({ name, containerName = "", location }) =>
      [name, containerName, location.uri.slice(uri("").length + 1), location.range.start.line].join(" | "),
    );
  };

  it("is an instrument, a hole or a parameter, of designs that are open, as they are now, and of those that are not", async () => {
    const self = await started();
    self.open(LOOSE.replace("name: Test", "name: Being written"), uri("altos/a.bore.yaml"));
    await folders(self, ["altos"]);
    const line = (place: string) => LOOSE.split("\n").findIndex((each) => each.includes(place));
    expect((await found(self, "L3")).sort()).toEqual([
      `L3 | Being written whistle | altos/a.bore.yaml | ${line("name: L3")}`,
      `L3 | Of whistles whistle | whistles/a.bore.yaml | ${line("name: L3")}`,
    ]);
    expect((await found(self, "wal")).map((each) => each.split(" | ")[0])).toEqual(["wall", "wall"]);
    expect(await found(self, "bngwrtn")).toHaveLength(1);
    expect(await found(self, "no such thing")).toEqual([]);
  });

  it("is as the file is after it was written", async () => {
    const self = await started();
    const file = join(root, "whistles/b.bore.yaml");
    writeFileSync(file, "borewright: 1\nname: Sketch\n");
    expect(await found(self, "sketch")).toHaveLength(1);
    writeFileSync(file, "borewright: 1\nname: Another name\n");
    expect(await found(self, "sketch")).toEqual([]);
    rmSync(file);
    expect(await found(self, "another")).toEqual([]);
  });
});
