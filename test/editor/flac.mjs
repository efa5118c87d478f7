/** Notes as a FLAC file, samples as they are: a recording that is not WAV, made without any encoder (RFC 9639). */

const RATE = 22_050;
const BLOCK = 4096;
/** Seconds of a note, of the rest after it, of a note's beginning and end. */
const NOTE = 0.6;
const REST = 0.2;
const FADE = 0.03;
/** The fundamental strongest, as a flute's. */
const HARMONICS = [1, 0.4, 0.15];

/** @param {number[]} notes Hz */
export function flacOf(notes) {
  const samples = played(notes);
  const frames = [];
  for (let at = 0; at < samples.length; at += BLOCK) frames.push(frame(samples.subarray(at, at + BLOCK), at / BLOCK));
  const info = Buffer.alloc(34);
  info.writeUInt16BE(BLOCK, 0);
  info.writeUInt16BE(BLOCK, 2);
  // Rate (20 bits), one channel (3 bits: 0), 16 bits a sample (5 bits: 15), samples (36 bits); no checksum of them.
  info.writeBigUInt64BE((BigInt(RATE) << 44n) | (15n << 36n) | BigInt(samples.length), 10);
  return Buffer.concat([Buffer.from("fLaC"), Buffer.from([0x80, 0, 0, 34]), info, ...frames]);
}

function played(notes) {
  const each = Math.round((NOTE + REST) * RATE);
  const length = Math.ceil((RATE + notes.length * each) / BLOCK) * BLOCK;
  const samples = new Int16Array(length);
  for (const [n, hz] of notes.entries())
    for (let i = 0; i < NOTE * RATE; i++) {
      const time = i / RATE;
      const fade = Math.min(1, time / FADE, (NOTE - time) / FADE);
      const tone = HARMONICS.reduce((sum, level, k) => sum + level * Math.sin(2 * Math.PI * (k + 1) * hz * time), 0);
      samples[RATE / 2 + n * each + i] = Math.round(8000 * fade * tone);
    }
  return samples;
}

/** One channel, its samples verbatim. */
function frame(samples, number) {
  const count = number < 128 ? [number] : [0xc0 | (number >> 6), 0x80 | (number & 63)];
  // Fixed blocks of 4096; rate as in the beginning; mono, 16 bits.
  const head = Buffer.from([0xff, 0xf8, 0xc0, 0x08, ...count]);
  const body = Buffer.alloc(1 + 2 * samples.length);
  body[0] = 2;
  for (const [i, sample] of samples.entries()) body.writeInt16BE(sample, 1 + 2 * i);
  const whole = Buffer.concat([head, Buffer.from([checksum(head, 0x07, 8)]), body]);
  const check = checksum(whole, 0x8005, 16);
  return Buffer.concat([whole, Buffer.from([check >> 8, check & 255])]);
}

function checksum(bytes, polynomial, bits) {
  let sum = 0;
  for (const byte of bytes) {
    sum ^= byte << (bits - 8);
    for (let k = 0; k < 8; k++) sum = sum & (1 << (bits - 1)) ? (sum << 1) ^ polynomial : sum << 1;
  }
  return sum & ((1 << bits) - 1);
}
