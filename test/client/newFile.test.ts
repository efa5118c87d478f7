/** Where a new design goes when it is saved: into the folder that is open, and over nothing. */
import { beforeEach, describe, expect, it, vi } from "vitest";

const world = {
  folders: [] as { uri: { scheme: string; path: string } }[],
  open: [] as string[],
  files: [] as string[],
  opened: "",
};

vi.mock("vscode", () => {
  const uriOf = (scheme: string, path: string) => ({
    scheme,
    path,
    with: (to: { scheme: string }) => uriOf(to.scheme, path),
  });
  return {
    FileType: { Unknown: 0 },
    Position: class {},
    ViewColumn: { Active: -1 },
    WorkspaceEdit: class {
      insert() {}
    },
    Uri: {
      from: ({ scheme, path }: { scheme: string; path: string }) => uriOf(scheme, path),
      file: (path: string) => uriOf("file", path),
    },
    window: { showTextDocument: () => {} },
    workspace: {
      get workspaceFolders() {
        return world.folders;
      },
      get textDocuments() {
        return world.open.map((path) => ({ uri: { path } }));
      },
      fs: {
        stat: async ({ path }: { path: string }) => {
          if (!world.files.includes(path)) throw new Error("not found");
          return { type: 1 };
        },
      },
      openTextDocument: async ({ path }: { path: string }) => {
        world.opened = path;
        return {};
      },
      applyEdit: async () => true,
    },
  };
});

const { fileNameOf, openUntitled, setHome } = await import("../../client/src/newFile.js");

const FOLDER = { uri: { scheme: "file", path: "/work/flutes" } };

describe("a new design", () => {
  beforeEach(() => {
    Object.assign(world, { folders: [FOLDER], open: [], files: [], opened: "" });
    setHome("/home/maker");
  });

  it("goes into the folder that is open", async () => {
    await openUntitled("D5 whistle", "text");
    expect(world.opened).toBe("/work/flutes/d5-whistle.bore.yaml");
  });

  it("goes home where no folder is open, never to the root of the disk", async () => {
    world.folders = [];
    await openUntitled("D5 whistle", "text");
    expect(world.opened).toBe("/home/maker/d5-whistle.bore.yaml");
  });

  it("takes a name that neither a file nor an open design has", async () => {
    world.files = ["/work/flutes/d5-whistle.bore.yaml"];
    world.open = ["/work/flutes/d5-whistle-2.bore.yaml"];
    await openUntitled("D5 whistle", "text");
    expect(world.opened).toBe("/work/flutes/d5-whistle-3.bore.yaml");
  });

  it("has no place yet in a browser, whose folders have other names", async () => {
    world.folders = [{ uri: { scheme: "vscode-vfs", path: "/github/flutes" } }];
    setHome(undefined);
    await openUntitled("D5 whistle", "text");
    expect(world.opened).toBe("d5-whistle.bore.yaml");
  });

  it("is named with characters that every disk accepts", () => {
    expect(fileNameOf("F#5 whistle / child's")).toBe("fs5-whistle-child-s");
    expect(fileNameOf("…")).toBe("instrument");
  });
});
