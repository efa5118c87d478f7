/** Instruments, holes and parameters of all designs, those of the folders that are not open included (workspace/symbol). */
import { pathToFileURL } from "node:url";
import type { SymbolInformation } from "vscode-languageserver";
import type { Steps } from "../../acoustics/steps.js";
import { LARGEST_FILE, readingOf, syntaxOf } from "../../document/read.js";
import { FileTrouble } from "../../files/fileTrouble.js";
import { readText } from "../../files/readText.js";
import { copyOf, isDesignText } from "../designContext.js";
import { namedParts } from "../documentSymbols.js";
import { sliced } from "../inSlices.js";
import type { Session } from "../session.js";
import { designFiles } from "./designFiles.js";
import { type Folders, pathOf } from "./folders.js";

/** More results than anybody reads. */
const MOST_SYMBOLS = 1000;

interface Known {
  readonly state: string;
  readonly symbols: readonly SymbolInformation[];
}

/** @param folders none if this program cannot read the disk */
export function registerSymbols(session: Session, folders: Folders): void {
  const known = new Map<string, Known>();
  session.connection.onWorkspaceSymbol(async ({ query }, token) => {
    const stop = () => token.isCancellationRequested;
    const found = [
      ...(await sliced(openSymbols(session), stop)),
      ...(await sliced(closedSymbols(session, folders, known), stop)),
    ];
    return found.filter(({ name }) => isMeant(name, query)).slice(0, MOST_SYMBOLS);
  });
}

/** The letters of the query, in their order: what editors look for themselves. */
function isMeant(name: string, query: string): boolean {
  let at = 0;
  const letters = name.toLowerCase();
  for (const letter of query.toLowerCase()) {
    at = letters.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}

function* openSymbols({ texts }: Session): Steps<SymbolInformation[]> {
  const found: SymbolInformation[] = [];
  for (const text of texts.all()) if (isDesignText(text)) found.push(...(yield* symbolsIn(text.uri, text.getText())));
  return found;
}

/** Each file is read once for each of its states. */
function* closedSymbols({ texts }: Session, folders: Folders, known: Map<string, Known>): Steps<SymbolInformation[]> {
  const open = new Set(texts.keys().map(pathOf));
  const files = designFiles(folders.all);
  for (const file of known.keys()) if (!files.has(file)) known.delete(file);
  const found: SymbolInformation[] = [];
  for (const [file, { state }] of files) {
    if (open.has(file)) continue;
    const before = known.get(file);
    const symbols = before?.state === state ? before.symbols : yield* symbolsOf(file);
    known.set(file, { state, symbols });
    found.push(...symbols);
  }
  return found;
}

function* symbolsOf(file: string): Steps<readonly SymbolInformation[]> {
  try {
    return yield* symbolsIn(pathToFileURL(file).href, readText(file, LARGEST_FILE).text);
  } catch (error) {
    if (error instanceof FileTrouble) return []; // said by the check
    throw error;
  }
}

function* symbolsIn(uri: string, text: string): Steps<SymbolInformation[]> {
  const file = yield* readingOf(text, syntaxOf(uri));
  return namedParts({ uri, file, text: copyOf(uri, 0, text) });
}
