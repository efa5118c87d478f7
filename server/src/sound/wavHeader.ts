/**
 * The header of a WAV file: RIFF/WAVE (IBM and Microsoft, Multimedia Programming Interface and Data Specifications 1.0, 1991),
 * WAVE_FORMAT_EXTENSIBLE, and RF64 for long files (EBU Tech 3306).
 */

import { t } from "../words/translation.js";
import { HIGHEST_RATE, LOWEST_RATE, MOST_CHANNELS, type SampleFormat, type SampleKind } from "./sampleFormat.js";

/** A recording that cannot be read. The message says what it is and what to do, as the end of a sentence about the file. */
export class NotReadable extends Error {}

export interface WavHeader extends SampleFormat {
  /** Where the samples begin, bytes from the file's start. */
  readonly dataStart: number;
  /** How many bytes of samples follow; infinity where a recorder wrote into a pipe and could not know. */
  readonly dataBytes: number;
}

/** Codes of the format chunk. */
const PCM = 1;
const FLOAT = 3;
const EXTENSIBLE = 0xfffe;
/** What a writer that cannot seek back leaves as the length. */
const UNKNOWN_LENGTH = 0xffff_ffff;
/** Everything that recorders put before the samples (pictures, cue lists) is far smaller. */
const LONGEST_HEADER = 1 << 20;

/** How other kinds of recordings begin: offset, bytes, name. */
const OTHER_KINDS: readonly (readonly [number, string, string])[] = [
  [0, "fLaC", "FLAC"],
  [0, "OggS", "Ogg"],
  [0, "ID3", "MP3"],
  [0, "caff", "CAF"],
  [0, "FORM", "AIFF"],
  [4, "ftyp", "M4A"],
  [0, "\u001aE\u00df\u00a3", "Matroska or WebM"],
];

/**
 * The header, or undefined where more bytes are needed.
 * @param bytes the file from its first byte on
 * @throws NotReadable where it is not a WAV file, is damaged, or has samples of a kind that cannot be read here
 */
export function readWavHeader(bytes: Uint8Array): WavHeader | undefined {
  if (bytes.length < 12) return undefined;
  const tag = ascii(bytes, 0, 4);
  if ((tag !== "RIFF" && tag !== "RF64") || ascii(bytes, 8, 4) !== "WAVE") throw new NotReadable(whatElse(bytes));
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let format: SampleFormat | undefined;
  let longData: number | undefined;
  for (let at = 12; at + 8 <= bytes.length; ) {
    const id = ascii(bytes, at, 4);
    const size = view.getUint32(at + 4, true);
    const body = at + 8;
    if (id === "data") {
      if (format === undefined) throw new NotReadable(t("has its samples before their format: it is damaged."));
      const known = size !== UNKNOWN_LENGTH && size !== 0;
      return { ...format, dataStart: body, dataBytes: known ? size : (longData ?? Number.POSITIVE_INFINITY) };
    }
    if (id === "ds64" || id === "fmt ") {
      // Chunks are padded to even lengths.
      if (body + Math.min(size, 40) > bytes.length) return undefined;
      if (id === "ds64" && size >= 16) longData = Number(view.getBigUint64(body + 8, true));
      if (id === "fmt ") format = readFormat(view, body, size);
    }
    at = body + size + (size % 2);
    if (at > LONGEST_HEADER) throw new NotReadable(t("has no samples in its first megabyte: it is damaged."));
  }
  return undefined;
}

/** @throws NotReadable */
function readFormat(view: DataView, at: number, size: number): SampleFormat {
  if (size < 16) throw new NotReadable(t("states no format of its samples: it is damaged."));
  const stated = view.getUint16(at, true);
  const code = stated === EXTENSIBLE && size >= 26 ? view.getUint16(at + 24, true) : stated;
  const bits = view.getUint16(at + 14, true);
  const kind = kindOf(code, bits);
  if (kind === undefined)
    throw new NotReadable(
      t`has samples of a kind that cannot be read here (format ${code}, ${bits} bits). Save it as plain 16-bit WAV.`,
    );
  return checkedFormat({ kind, channels: view.getUint16(at + 2, true), rate: view.getUint32(at + 4, true) });
}

/** @throws NotReadable where no recorder could have made such samples */
export function checkedFormat(format: SampleFormat): SampleFormat {
  if (!(format.channels >= 1 && format.channels <= MOST_CHANNELS))
    throw new NotReadable(t`states ${format.channels} channels; 1 to ${MOST_CHANNELS} are read.`);
  if (!(format.rate >= LOWEST_RATE && format.rate <= HIGHEST_RATE))
    throw new NotReadable(t`is sampled at ${format.rate} Hz; ${LOWEST_RATE} to ${HIGHEST_RATE} are read.`);
  return format;
}

function kindOf(code: number, bits: number): SampleKind | undefined {
  if (code === FLOAT) return bits === 32 ? "f32le" : bits === 64 ? "f64le" : undefined;
  if (code !== PCM) return undefined;
  const kinds: Record<number, SampleKind> = { 8: "u8", 16: "s16le", 24: "s24le", 32: "s32le" };
  return kinds[bits];
}

function whatElse(bytes: Uint8Array): string {
  const known = OTHER_KINDS.find(([at, magic]) => ascii(bytes, at, magic.length) === magic);
  // An MPEG audio frame without any tag before it begins with eleven bits set.
  const mpeg = bytes[0] === 0xff && ((bytes[1] ?? 0) & 0xe0) === 0xe0;
  const name = known?.[2] ?? (mpeg ? "MP3" : undefined);
  return name === undefined
    ? t("is not a WAV file. For bare samples state their kind: --raw s16le --rate 48000 --channels 1.")
    : t`is ${name}, which cannot be read here. Save it as WAV first.`;
}

function ascii(bytes: Uint8Array, at: number, length: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + length));
}
