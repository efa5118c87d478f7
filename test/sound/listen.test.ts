/** Recordings in, notes out. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { centsAbove } from "../../server/src/music/cents.js";
import { listen } from "../../server/src/sound/listen.js";
import { bareSamples, chunks, type Kind, mulberry, type Play, type Room, synthesise, wav } from "./synthesis.js";

const heard = async (plays: readonly Play[], room: Room = {}, kind: Kind = "s16le") =>
  listen(chunks(wav(synthesise(plays, room), kind, room.rate ?? 48_000)));

const errors = (notes: readonly { cents: number }[], plays: readonly Play[]) =>
  notes.map(({ cents }, i) => cents - centsAbove(plays[i]?.hz ?? Number.NaN, 440));

const rms = (values: readonly number[]) => Math.hypot(...values) / Math.sqrt(values.length);

/** Thirteen notes of a whistle in D, seeded mistuning. */
const scale = (seed: number, more: Partial<Play> = {}): Play[] => {
  const random = mulberry(seed);
  return [0, 2, 4, 5, 7, 9, 11, 12, 14, 16, 17, 19, 21].map((semitones) => ({
    hz: 587.33 * 2 ** ((semitones + 0.6 * (random() - 0.5)) / 12),
    seconds: 0.6,
    ...more,
  }));
};

describe("pitch of steady notes", () => {
  it("is within 1 cent, root mean square, for half a second in noise", async () => {
    const plays = scale(1, { seconds: 0.5 });
    const { notes } = await heard(plays, { noise: 0.05 });
    expect(notes).toHaveLength(plays.length);
    expect(rms(errors(notes, plays))).toBeLessThan(1);
  });

  it("is within 3 cents with a vibrato of 20 cents", async () => {
    const plays = scale(2, { seconds: 0.8, vibrato: { extent: 20, rate: 5.3 } });
    const { notes } = await heard(plays, { noise: 0.02 });
    expect(notes).toHaveLength(plays.length);
    expect(rms(errors(notes, plays))).toBeLessThan(3);
    expect(notes.every(({ vibrato }) => vibrato !== undefined && Math.abs(vibrato.rate - 5.3) < 0.4)).toBe(true);
  });

  it("states an uncertainty that the error does not exceed twofold", async () => {
    const plays = [3, 4, 5].flatMap((seed) => scale(seed));
    const { notes } = await heard(plays, { noise: 0.1 });
    const kept = errors(notes, plays).filter((error, i) => Math.abs(error) < 2 * (notes[i]?.uncertainty ?? 0));
    expect(kept.length / plays.length).toBeGreaterThan(0.95);
  });

  it("reports a drift", async () => {
    const { notes } = await heard([{ hz: 700, seconds: 2, drift: 12 }]);
    expect(notes[0]?.drift).toBeCloseTo(12, 0);
  });

  it.each([8_000, 22_050, 44_100, 48_000, 96_000])("is the same at %d samples a second", async (rate) => {
    const plays: Play[] = [{ hz: 523.3 }, { hz: 1_046.1 }];
    const { notes } = await heard(plays, { rate });
    expect(errors(notes, plays).map((error) => Math.abs(error) < 0.2)).toEqual([true, true]);
  });
});

describe("the octave", () => {
  it.each([
    ["a weak fundamental", [0.03, 1, 0.5, 0.3]],
    ["a pure tone", [1]],
    ["odd harmonics, as of a stopped pipe", [1, 0, 0.3, 0, 0.1]],
    ["a strong second harmonic", [0.3, 1, 0.1]],
  ])("holds for %s", async (_, harmonics) => {
    const plays: Play[] = [440, 660, 880].map((hz) => ({ hz, harmonics }));
    const { notes } = await heard(plays, { noise: 0.003 });
    expect(errors(notes, plays).map((error) => Math.abs(error) < 0.5)).toEqual([true, true, true]);
  });

  it("is told apart when a note slurs into it", async () => {
    const plays: Play[] = [
      { hz: 600, rest: 0 },
      { hz: 1_200, rest: 0.3 },
    ];
    const { notes } = await heard(plays);
    expect(errors(notes, plays).map((error) => Math.abs(error) < 0.5)).toEqual([true, true]);
  });
});

describe("what is a note", () => {
  it("counts tongued repetitions of one pitch", async () => {
    const plays: Play[] = Array.from({ length: 4 }, () => ({ hz: 880, seconds: 0.5, rest: 0.04 }));
    expect((await heard(plays, { noise: 0.003 })).notes).toHaveLength(4);
  });

  it("reports where another note sounds, too, and where none does", async () => {
    const alone = [440, 523.25, 587.33].map((hz) => ({ hz, seconds: 0.8 }));
    const above = [554.37, 622.25, 830.6].map((hz) => ({ hz, seconds: 0.8, level: 0.15 }));
    const one = synthesise(alone, { noise: 0.02, hum: 0.003 });
    const other = synthesise(above);
    const both = one.map((value, i) => value + (other[i] ?? 0));
    const notesOf = async (samples: Float32Array) => (await listen(chunks(wav(samples, "s16le", 48_000)))).notes;
    expect((await notesOf(one)).map(({ accompanied }) => accompanied)).toEqual([false, false, false]);
    expect((await notesOf(both)).map(({ accompanied }) => accompanied)).toEqual([true, true, true]);
  });

  it("finds none in silence, in noise and in hum", async () => {
    for (const room of [{}, { noise: 0.1 }, { hum: 0.05, noise: 0.001 }]) {
      const samples = synthesise([], room);
      const long = new Float32Array(48_000 * 4).map((_, i) => samples[i % samples.length] as number);
      expect((await listen(chunks(wav(long)))).notes).toEqual([]);
    }
  });

  it("finds notes above hum, and ignores the hum", async () => {
    const plays = scale(6);
    const { notes } = await heard(plays, { hum: 0.01, noise: 0.002 });
    expect(notes).toHaveLength(plays.length);
    expect(rms(errors(notes, plays))).toBeLessThan(1);
  });
});

describe("the stream", () => {
  const plays: Play[] = [{ hz: 523.3 }, { hz: 659.2, seconds: 0.7 }];
  const samples = synthesise(plays, { noise: 0.01 });

  it("may be split anywhere, each piece overwritten by the next", async () => {
    const bytes = wav(samples);
    const whole = await listen(chunks(bytes));
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 18, max: 35_000 }), async (half) => {
        expect((await listen(inOneRoom(bytes, 2 * half + 1))).notes).toEqual(whole.notes);
      }),
      { numRuns: 6, examples: [[18]] },
    );
  });

  it.each<Kind>(["u8", "s16le", "s24le", "s32le", "f32le", "f64le"])(
    "may be of %s samples, in WAV or bare",
    async (kind) => {
      for (const recording of [
        await listen(chunks(wav(samples, kind, 48_000, 2))),
        await listen(chunks(bareSamples(samples, kind)), { raw: { kind, rate: 48_000, channels: 1 } }),
      ])
        expect(errors(recording.notes, plays).map((error) => Math.abs(error) < 0.5)).toEqual([true, true]);
    },
  );

  it("takes the louder channel where two cancel", async () => {
    const bytes = bareSamples(samples, "s16le", 2);
    for (let i = 2; i < bytes.length; i += 4) bytes.writeInt16LE(Math.round(-0.9 * bytes.readInt16LE(i)), i);
    const { notes } = await listen(chunks(bytes), { raw: { kind: "s16le", rate: 48_000, channels: 2 } });
    expect(notes).toHaveLength(2);
  });

  it("counts clipped samples", async () => {
    const loud = synthesise([{ hz: 500, level: 2 }]).map((value) => Math.max(-1, Math.min(1, value)));
    expect((await listen(chunks(wav(loud)))).clipped).toBeGreaterThan(1_000);
  });
});

/** Chunks of so many bytes, each in the room of the one before, as a file is read. */
async function* inOneRoom(bytes: Uint8Array, size: number): AsyncGenerator<Uint8Array> {
  const room = new Uint8Array(size);
  for (let at = 0; at < bytes.length; at += size) {
    const piece = bytes.subarray(at, at + size);
    room.set(piece);
    yield room.subarray(0, piece.length);
  }
}
