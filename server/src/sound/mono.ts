/** A stream of bytes to one channel of samples. */

import { t } from "../words/translation.js";
import { bytesOf, type SampleFormat, sampleReader } from "./sampleFormat.js";
import { NotReadable, readWavHeader } from "./wavHeader.js";

/** At full scale this many samples running: the recorder could take no more. */
const CLIPPED_RUN = 3;
const FULL_SCALE = 0.999;
/** Floating-point samples may exceed full scale, but not by this much: such a file is damaged. */
const ABSURD = 8;
/** Channels are compared until this many seconds were loud enough to decide. */
const COMPARE_SECONDS = 1;
/** Mean square below which nothing is heard yet: −70 dB of full scale. */
const AUDIBLE = 1e-7;
/** Where the mean of two channels has less than this share of the louder one's power, they cancel. */
const CANCELS = 0.3;

/** Samples of each channel turned into numbers at once: a whole file may come as one chunk. */
const MOST_AT_ONCE = 1 << 14;

/** The mean of all channels, or the loudest where they cancel one another (a plug wired the wrong way round). */
export class MonoReader {
  /** Samples that stood at full scale in a row. */
  clipped = 0;
  /** Samples that were not numbers, read as silence. */
  damaged = 0;
  /** Whole samples read, of each channel. */
  count = 0;
  private chosen: number | undefined;
  private compared = 0;
  private run = 0;
  private readonly power: Float64Array;
  private meanPower = 0;
  /** Taken again by each piece: a long recording has thousands. */
  private room = new Float32Array();
  private readonly read: (bytes: DataView, offset: number) => number;

  constructor(readonly format: SampleFormat) {
    this.power = new Float64Array(format.channels);
    this.read = sampleReader(format.kind);
  }

  /** Bytes of one sample of all channels. */
  get step(): number {
    return this.format.channels * bytesOf(this.format.kind);
  }

  /** @param bytes whole samples of all channels. What comes back is overwritten by the next call. */
  mono(bytes: Uint8Array): Float32Array {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const { channels } = this.format;
    const width = bytesOf(this.format.kind);
    const frames = Math.floor(bytes.length / this.step);
    if (channels > 1 && this.compared < COMPARE_SECONDS * this.format.rate) this.compare(view, frames);
    if (this.room.length < frames) this.room = new Float32Array(frames);
    const out = this.room.subarray(0, frames);
    const first = this.chosen ?? 0;
    const last = this.chosen ?? channels - 1;
    for (let i = 0; i < frames; i++) {
      let sum = 0;
      for (let channel = first; channel <= last; channel++) sum += this.read(view, i * this.step + channel * width);
      out[i] = this.checked(sum / (last - first + 1));
    }
    this.count += frames;
    return out;
  }

  private checked(value: number): number {
    if (!(Math.abs(value) < ABSURD)) {
      this.damaged++;
      return 0;
    }
    this.run = Math.abs(value) >= FULL_SCALE ? this.run + 1 : 0;
    if (this.run >= CLIPPED_RUN) this.clipped++;
    return value;
  }

  private compare(view: DataView, frames: number): void {
    const { channels } = this.format;
    const width = bytesOf(this.format.kind);
    let heard = 0;
    for (let i = 0; i < frames; i++) {
      let sum = 0;
      for (let channel = 0; channel < channels; channel++) {
        const value = this.read(view, i * this.step + channel * width);
        sum += value;
        this.power[channel] = (this.power[channel] as number) + value * value;
        heard += value * value;
      }
      this.meanPower += (sum / channels) ** 2;
    }
    if (heard > AUDIBLE * frames * channels) this.compared += frames;
    const loudest = this.power.indexOf(Math.max(...this.power));
    this.chosen = this.meanPower < CANCELS * (this.power[loudest] as number) ? loudest : undefined;
  }
}

/**
 * Pieces of one channel as they come in. How the stream is cut into chunks changes nothing.
 * @param chunks each may be overwritten by the next
 * @param raw the format of bare samples; undefined for a WAV file
 * @throws NotReadable
 */
export async function* monoPieces(
  chunks: AsyncIterable<Uint8Array>,
  raw?: SampleFormat,
): AsyncGenerator<{ readonly samples: Float32Array; readonly reader: MonoReader }> {
  let reader = raw && new MonoReader(raw);
  let left = Number.POSITIVE_INFINITY;
  let rest: Uint8Array = new Uint8Array();
  for await (const chunk of chunks) {
    rest = rest.length === 0 ? chunk : joined(rest, chunk);
    if (reader === undefined) {
      const header = readWavHeader(rest);
      if (header === undefined) {
        rest = new Uint8Array(rest);
        continue;
      }
      reader = new MonoReader(header);
      left = header.dataBytes;
      rest = rest.subarray(header.dataStart);
    }
    const whole = Math.floor(Math.min(rest.length, left) / reader.step) * reader.step;
    const most = MOST_AT_ONCE * reader.step;
    for (let at = 0; at < whole; at += most)
      yield { samples: reader.mono(rest.subarray(at, Math.min(whole, at + most))), reader };
    rest = new Uint8Array(rest.subarray(whole));
    left -= whole;
    if (left < reader.step) return;
  }
  if (reader === undefined) throw new NotReadable(t("ends before its first sample."));
}

function joined(a: Uint8Array, b: Uint8Array): Uint8Array {
  const both = new Uint8Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}
