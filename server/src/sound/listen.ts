/** A whole recording into the notes that were played. */
import { type HeardNote, Listener } from "./listener.js";
import { monoPieces } from "./mono.js";
import type { Range } from "./pitchOfFrame.js";
import type { SampleFormat } from "./sampleFormat.js";
import { type TidyNotes, tidy } from "./tidy.js";

export interface Recording extends TidyNotes {
  readonly seconds: number;
  /** Samples at full scale in a row; samples that were not numbers. */
  readonly clipped: number;
  readonly damaged: number;
}

export interface ListenOptions {
  /** The format of bare samples; undefined for a WAV file. */
  readonly raw?: SampleFormat | undefined;
  /** Lowest and highest pitch looked for, Hz. */
  readonly range?: Range | undefined;
  /** Called with each note as it ends, before fragments are joined. */
  readonly onNote?: ((note: HeardNote) => void) | undefined;
}

/** @throws NotReadable */
export async function listen(chunks: AsyncIterable<Uint8Array>, options: ListenOptions = {}): Promise<Recording> {
  const heard: HeardNote[] = [];
  let listener: Listener | undefined;
  let recording = { seconds: 0, clipped: 0, damaged: 0 };
  for await (const { samples, reader } of monoPieces(chunks, options.raw)) {
    listener ??= new Listener(reader.format.rate, options.range, (note) => {
      heard.push(note);
      options.onNote?.(note);
    });
    listener.push(samples);
    recording = { seconds: reader.count / reader.format.rate, clipped: reader.clipped, damaged: reader.damaged };
  }
  listener?.end();
  return { ...tidy(heard, listener?.mains.hz), ...recording };
}
