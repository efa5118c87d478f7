/** What OLD and NEW stand for: a file, a folder, `REV:path` of git, or a revision at which the other one's path is meant. */
import { statSync } from "node:fs";
import { basename, dirname, relative } from "node:path";
import { FileTrouble } from "../../files/fileTrouble.js";
import { slashed } from "../../files/slashed.js";
import { findDesignFiles, isDesignName, MOST_BYTES, type ReadFile, readDesignBytes, readDesignFile } from "../files.js";
import { type GitObject, gitBlob, gitFiles, gitObject } from "./git.js";

/** One design file of a source. */
export interface SourceFile {
  /** Path from the folder that was named, with `/`; the file's own name where a file was named. */
  readonly path: string;
  /** @throws FileTrouble */
  readonly read: () => ReadFile;
}

export interface Source {
  readonly isFolder: boolean;
  readonly files: readonly SourceFile[];
  /** What could not be read. */
  readonly troubles: readonly FileTrouble[];
}

/** @throws FileTrouble where one of them names nothing */
export function sourcesOf(old: string, next: string): readonly [Source, Source] {
  return [sourceOf(old, next), sourceOf(next, old)];
}

function sourceOf(named: string, other: string): Source {
  const onDisk = statSync(named, { throwIfNoEntry: false });
  if (onDisk !== undefined) return onDisk.isDirectory() ? folderOnDisk(named) : fileOnDisk(named);
  if (named.includes(":")) return inGit(named, ".", named);
  const { folder, path, label } = placeInRepository(other);
  return inGit(`${named}:${path}`, folder, label === "" ? named : `${named}:${label}`);
}

/** Where the other one's path lies for git, which takes one that begins with `./` or `../` from the folder it looks from. */
function placeInRepository(other: string) {
  const onDisk = statSync(other, { throwIfNoEntry: false });
  if (onDisk === undefined) {
    // Two revisions: the same path, or all that is in the repository.
    const path = /^[^:]*:(.*)$/s.exec(other)?.[1] ?? "";
    return { folder: ".", path, label: path };
  }
  const label = other.replace(/^\.[\\/]/, "");
  // Within a hook, git is told where its repository is, from the folder that the hook runs in.
  if (process.env.GIT_DIR !== undefined) return { folder: ".", path: `./${slashed(relative(".", other))}`, label };
  if (onDisk.isDirectory()) return { folder: other, path: "./", label };
  return { folder: dirname(other), path: `./${basename(other)}`, label };
}

function fileOnDisk(file: string): Source {
  return { isFolder: false, files: [{ path: basename(file), read: () => readDesignFile(file) }], troubles: [] };
}

function folderOnDisk(folder: string): Source {
  const { files, troubles } = findDesignFiles([folder]);
  return {
    isFolder: true,
    files: files.map((file) => ({
      path: slashed(relative(folder, file)),
      read: () => readDesignFile(file),
    })),
    troubles,
  };
}

/** @param label what the user meant, for messages and headings */
function inGit(name: string, folder: string, label: string): Source {
  const object = gitObject(name, folder);
  const file = (blob: GitObject, path: string, shownAs: string): SourceFile => ({
    path,
    read: () => readDesignBytes(shownAs, gitBlob(blob, folder, shownAs, MOST_BYTES)),
  });
  switch (object.kind) {
    case "blob":
      return { isFolder: false, files: [file(object, lastPart(name), label)], troubles: [] };
    case "tree": {
      const within = /[:/]$/.test(label) ? label : `${label}${label.includes(":") ? "/" : ":"}`;
      const files = [...gitFiles(object, folder, label)]
        .filter(([path]) => isDesignName(path))
        .map(([path, blob]) => file(blob, path, `${within}${path}`));
      return { isFolder: true, files, troubles: [] };
    }
    case "other":
      throw new FileTrouble(label, "neither a file nor a folder of the repository");
  }
}

function lastPart(name: string): string {
  return name.slice(1 + Math.max(name.lastIndexOf("/"), name.lastIndexOf(":")));
}
