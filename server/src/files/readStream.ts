/** Reads what another program writes to us, up to a limit. */
import { tooLarge } from "./readText.js";

/** @param name what the user calls it. Rejects with FileTooLarge beyond `mostBytes`. */
export async function readStream(stream: AsyncIterable<Uint8Array>, name: string, mostBytes: number): Promise<Buffer> {
  const chunks: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of stream) {
    chunks.push(chunk);
    length += chunk.length;
    if (length > mostBytes) throw tooLarge(name, mostBytes);
  }
  return Buffer.concat(chunks, length);
}
