/** Recordings made by arithmetic: what was put in is known exactly. */

export interface Play {
  readonly hz: number;
  readonly seconds?: number;
  /** Silence after it, seconds. */
  readonly rest?: number;
  /** Amplitudes of the harmonics, the fundamental first. */
  readonly harmonics?: readonly number[];
  /** Cents to either side, and Hz. */
  readonly vibrato?: { readonly extent: number; readonly rate: number };
  /** Cents a second. */
  readonly drift?: number;
  readonly level?: number;
}

export interface Room {
  readonly rate?: number;
  /** Amplitude of white noise. */
  readonly noise?: number;
  readonly hum?: number;
  readonly seed?: number;
}

/** Like a flute's: the fundamental strongest. */
export const FLUTE = [1, 0.4, 0.15, 0.08, 0.04];
const FADE = 0.03;

/** Samples of the plays one after another, half a second of the room before and after. */
export function synthesise(
  plays: readonly Play[],
  { rate = 48_000, noise = 0, hum = 0, seed = 1 }: Room = {},
): Float32Array {
  const total = plays.reduce((sum, { seconds = 1, rest = 0.3 }) => sum + seconds + rest, 1);
  const out = new Float32Array(Math.round(total * rate));
  const random = mulberry(seed);
  let at = Math.round(0.5 * rate);
  for (const { hz, seconds = 1, rest = 0.3, harmonics = FLUTE, vibrato, drift = 0, level = 0.3 } of plays) {
    const count = Math.round(seconds * rate);
    let phase = 0;
    for (let i = 0; i < count; i++) {
      const time = i / rate;
      const sway = vibrato === undefined ? 0 : vibrato.extent * Math.sin(2 * Math.PI * vibrato.rate * time);
      phase += (2 * Math.PI * hz * 2 ** ((sway + drift * (time - seconds / 2)) / 1200)) / rate;
      const fade = Math.min(1, time / FADE, (seconds - time) / FADE);
      let value = 0;
      for (let k = 0; k < harmonics.length; k++) value += (harmonics[k] as number) * Math.sin((k + 1) * phase);
      out[at + i] = level * fade * value;
    }
    at += count + Math.round(rest * rate);
  }
  for (let i = 0; i < out.length; i++) {
    const buzz = hum * (Math.sin((2 * Math.PI * 100 * i) / rate) + 0.5 * Math.sin((2 * Math.PI * 150 * i) / rate));
    out[i] = (out[i] as number) + noise * (2 * random() - 1) + buzz;
  }
  return out;
}

/** Uniform numbers from 0 to 1, the same for the same seed. */
export function mulberry(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

export type Kind = "u8" | "s16le" | "s24le" | "s32le" | "f32le" | "f64le";

/** Bare samples, the same on every channel. */
export function bareSamples(samples: Float32Array, kind: Kind, channels = 1): Buffer {
  const width = { u8: 1, s16le: 2, s24le: 3, s32le: 4, f32le: 4, f64le: 8 }[kind];
  const out = Buffer.alloc(samples.length * width * channels);
  const whole = (value: number, bits: number) => Math.round(Math.max(-1, Math.min(1, value)) * (2 ** (bits - 1) - 1));
  for (let i = 0; i < samples.length * channels; i++) {
    const value = samples[Math.floor(i / channels)] as number;
    if (kind === "u8") out.writeUInt8(whole(value, 8) + 128, i);
    else if (kind === "f32le") out.writeFloatLE(value, 4 * i);
    else if (kind === "f64le") out.writeDoubleLE(value, 8 * i);
    else out.writeIntLE(whole(value, 8 * width), width * i, width);
  }
  return out;
}

/** A WAV file of them. */
export function wav(samples: Float32Array, kind: Kind = "s16le", rate = 48_000, channels = 1): Buffer {
  const data = bareSamples(samples, kind, channels);
  const width = data.length / samples.length / channels;
  const header = Buffer.alloc(44);
  header.write("RIFF", 0, "latin1");
  header.writeUInt32LE(36 + data.length, 4);
  header.write("WAVEfmt ", 8, "latin1");
  header.writeUInt32LE(16, 16);
  header.writeUInt16LE(kind.startsWith("f") ? 3 : 1, 20);
  header.writeUInt16LE(channels, 22);
  header.writeUInt32LE(rate, 24);
  header.writeUInt32LE(rate * width * channels, 28);
  header.writeUInt16LE(width * channels, 32);
  header.writeUInt16LE(8 * width, 34);
  header.write("data", 36, "latin1");
  header.writeUInt32LE(data.length, 40);
  return Buffer.concat([header, data]);
}

/** Chunks of so many bytes. */
export async function* chunks(bytes: Uint8Array, size = 65_536): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
}
