/** How the samples of a recording are stored, and how one is read. */

export const SAMPLE_KINDS = ["u8", "s16le", "s24le", "s32le", "f32le", "f64le"] as const;
export type SampleKind = (typeof SAMPLE_KINDS)[number];

export interface SampleFormat {
  readonly kind: SampleKind;
  readonly channels: number;
  /** Samples a second of each channel, Hz. */
  readonly rate: number;
}

/** Below 8 kHz an instrument's harmonics are gone; no recorder samples faster than 384 kHz. */
export const LOWEST_RATE = 8_000;
export const HIGHEST_RATE = 384_000;
export const MOST_CHANNELS = 32;

const BYTES: Readonly<Record<SampleKind, number>> = { u8: 1, s16le: 2, s24le: 3, s32le: 4, f32le: 4, f64le: 8 };

export function bytesOf(kind: SampleKind): number {
  return BYTES[kind];
}

/** Reads one sample at a byte offset, full scale at ±1. */
export function sampleReader(kind: SampleKind): (bytes: DataView, offset: number) => number {
  switch (kind) {
    case "u8":
      return (bytes, offset) => (bytes.getUint8(offset) - 128) / 128;
    case "s16le":
      return (bytes, offset) => bytes.getInt16(offset, true) / 32_768;
    case "s24le":
      return (bytes, offset) => (bytes.getUint8(offset) + bytes.getInt16(offset + 1, true) * 256) / 8_388_608;
    case "s32le":
      return (bytes, offset) => bytes.getInt32(offset, true) / 2_147_483_648;
    case "f32le":
      return (bytes, offset) => bytes.getFloat32(offset, true);
    case "f64le":
      return (bytes, offset) => bytes.getFloat64(offset, true);
  }
}
