/** Reads a large file in pieces: one piece is held at a time. */
import { closeSync, constants, fstatSync, openSync, readSync, statSync } from "node:fs";
import { FileTrouble, withFile } from "./fileTrouble.js";
import { kindOf } from "./readText.js";

const PIECE = 1 << 16;

/** Each piece is overwritten by the next. @throws FileTrouble where it is no regular file, or cannot be read to its end */
export async function* readChunks(file: string): AsyncGenerator<Uint8Array> {
  const open = withFile(file, () => {
    mustBeRegular(file, statSync(file));
    return openSync(file, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  });
  try {
    withFile(file, () => mustBeRegular(file, fstatSync(open)));
    const piece = Buffer.allocUnsafe(PIECE);
    for (;;) {
      const length = withFile(file, () => readSync(open, piece));
      if (length === 0) return;
      yield piece.subarray(0, length);
    }
  } finally {
    closeSync(open);
  }
}

function mustBeRegular(file: string, stats: Parameters<typeof kindOf>[0]): void {
  const kind = kindOf(stats);
  if (kind !== undefined) throw new FileTrouble(file, kind);
}
