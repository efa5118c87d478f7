/** A mesh file of any format that is read: STL, OBJ, 3MF. By its bytes first, by its name where they do not tell. */
import { readObj } from "./obj.js";
import { checkedFile, type MeshFile } from "./soup.js";
import { readStl } from "./stl.js";
import { read3mf } from "./threeMf.js";

/** Endings of the files that are read. */
export const MESH_ENDINGS = ["stl", "3mf", "obj"] as const;
/** What is read of a file at most, bytes: two million triangles of binary STL come to 100 MB, as text to three times that. */
export const MOST_MESH_BYTES = 300e6;

/** @throws CannotSurvey */
export function readMesh(bytes: Uint8Array, name: string): MeshFile {
  const isZip = bytes[0] === 0x50 && bytes[1] === 0x4b;
  if (isZip || /\.3mf$/i.test(name)) return checkedFile(read3mf(bytes));
  const soup = /\.obj$/i.test(name) ? readObj(bytes) : readStl(bytes);
  return checkedFile({ parts: [soup], millimetres: undefined });
}
