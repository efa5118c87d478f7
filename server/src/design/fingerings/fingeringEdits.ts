/** A fingering that was found, written into the design in the way its others are. */
import { insertItems } from "../../document/appendItems.js";
import type { DesignDocument } from "../../document/designFile.js";
import { setNumber, setText } from "../../document/edits.js";
import { quotedLike } from "../../document/quoting.js";
import type { TextEdit } from "../../document/textEdit.js";
import { nodeAt } from "../../document/tree.js";
import { signsLike } from "../../instrument/fingerings.js";
import type { Fingering } from "../../instrument/model.js";
import { degreeOfNote, type Note } from "../../music/note.js";
import type { FoundFingering } from "./find.js";

type Found = Pick<FoundFingering, "pattern" | "register">;

/** In place of what the fingering says now. */
export function replacingEdits(
  document: DesignDocument,
  { path, register }: Fingering,
  found: Found,
): readonly TextEdit[] {
  const holes = [...path, "holes"];
  const edits = setText(document, holes, signsLike(writtenAt(document, holes), found.pattern));
  if (edits.length === 0 || found.register === register) return edits;
  return [...edits, ...setNumber(document, [...path, "register"], found.register, 0)];
}

/** As an entry of its own behind that of another fingering: by degree where that one is, and has a key to count from. */
export function addingEdits(
  document: DesignDocument,
  behind: Fingering,
  note: Note,
  { pattern, register }: Found,
): readonly TextEdit[] {
  const [list, index] = behind.path;
  if (list === undefined || typeof index !== "number") return [];
  const { key } = document.resolution.instrument;
  const degree = behind.targetKind === "degree" && key !== undefined ? degreeOfNote(key, note) : undefined;
  const json = document.syntax === "json";
  const holes = [...behind.path, "holes"];
  const node = nodeAt(document.root, holes);
  const raw = node?.kind === "scalar" ? node.raw : "";
  const signs = quotedLike(raw, signsLike(writtenAt(document, holes), pattern), document.syntax, true);
  const named = (name: string) => (json && !/^\d/.test(name) ? JSON.stringify(name) : name);
  const entries = [
    degree === undefined ? ["note", named(note.name)] : ["degree", named(degree)],
    ["holes", signs],
    ...(register === 1 ? [] : [["register", String(register)]]),
  ];
  const written = entries.map(([name = "", value]) => `${json ? JSON.stringify(name) : name}: ${value}`).join(", ");
  return insertItems(document, [list], index, [`{ ${written} }`]);
}

function writtenAt({ root }: DesignDocument, path: readonly (string | number)[]): string {
  const node = nodeAt(root, path);
  return node?.kind === "scalar" && typeof node.value === "string" ? node.value : "";
}
