/** Cases that are the text of one file: what they are made of, and how they are made smaller. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { Parts } from "./kind.js";

export interface TextCase {
  /** The file's name: its ending says how it is read. */
  readonly file: string;
  readonly text: string;
  /** Seed of what is drawn while it is tried: places, and which of many actions. */
  readonly draws: number;
}

export const byLines: Parts<TextCase> = {
  of: ({ text }) => text.split("\n"),
  from: (given, lines) => ({ ...given, text: lines.join("\n") }),
};

export const byCharacters: Parts<TextCase> = {
  of: ({ text }) => [...text],
  from: (given, characters) => ({ ...given, text: characters.join("") }),
};

export interface Example {
  readonly file: string;
  readonly text: string;
}

let read: readonly Example[] | undefined;

/** All examples of the project; the folder of the project is the working folder. */
export function examples(): readonly Example[] {
  read ??= readdirSync("examples").map((file) => ({ file, text: readFileSync(join("examples", file), "utf8") }));
  return read;
}

export const isJson = (file: string) => file.endsWith(".json");
