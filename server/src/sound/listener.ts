/** Pieces of a recording in, sustained notes out as each ends. What is kept is the sound of the note under way. */
import { centsAbove } from "../music/cents.js";
import { Decimator } from "./decimator.js";
import type { FrameTone, Run, ToneFrame } from "./frames.js";
import { Mains } from "./mains.js";
import { median } from "./median.js";
import { type OctaveVerdict, octaveOf } from "./octave.js";
import { PitchOfFrame, type Range, type Tone } from "./pitchOfFrame.js";
import { type NotePitch, pitchOfNote } from "./pitchOfNote.js";
import { Segmenter } from "./segmenter.js";
import { Spectrum } from "./spectrum.js";

export interface HeardNote extends Omit<NotePitch, "steady"> {
  /** Seconds from the recording's start. */
  readonly start: number;
  readonly end: number;
  readonly octave: Omit<OctaveVerdict, "shift">;
  /** The odd harmonics changed while it sounded: it and its octave may sound in one. */
  readonly changed: boolean;
  /** Another note sounded with it for most of its time. */
  readonly accompanied: boolean;
  /** Played again: not the previous note continuing. */
  readonly tongued: boolean;
}

/** Seconds of steady sound below which no note is reported. */
const SHORTEST = 0.12;
/** Decibels by which the odd harmonics' level changes where a note slurs into its octave. */
const ODD_CHANGE = 8;
/** Share of the peaks' amplitude from which another note sounds, too: a second one of half the strength has 0.16 and more, one tone in noise of a fifth of it 0.01 (by trial). */
const ANOTHER = 0.12;
const ROOM = 1 << 15;

export class Listener {
  readonly mains: Mains;
  private readonly decimator: Decimator;
  private readonly spectrum: Spectrum;
  private readonly pitch: PitchOfFrame;
  private readonly segmenter: Segmenter;
  private line = new Float32Array(ROOM);
  private filled = 0;
  /** Index of the line's first sample in the decimated recording; index of the next frame. */
  private start = 0;
  private frame = 0;

  /** @param rate samples a second, Hz; `range` the lowest and highest pitch looked for, Hz */
  constructor(
    rate: number,
    range: Range | undefined,
    private readonly onNote: (note: HeardNote) => void,
  ) {
    this.decimator = new Decimator(rate);
    this.mains = new Mains(this.decimator.rate);
    this.spectrum = new Spectrum(this.decimator.rate);
    this.pitch = new PitchOfFrame(this.spectrum, range);
    this.segmenter = new Segmenter(this.hopSeconds, (run) => this.tell(run));
  }

  /** @param samples of one channel */
  push(samples: Float32Array): void {
    const fewer = this.decimator.push(samples);
    this.mains.push(fewer);
    if (this.filled + fewer.length > this.line.length) this.makeRoom(fewer.length);
    this.line.set(fewer, this.filled);
    this.filled += fewer.length;
    const { hop, length, rate } = this.spectrum;
    for (;;) {
      const at = this.frame * hop - this.start;
      if (at + length > this.filled) return;
      const heard = this.pitch.tone(this.line, at);
      const tone = heard && frameTone(heard);
      // The phases' advance since the frame before holds half a hop before this frame's middle.
      const time = (this.frame * hop + length / 2 - hop / 2) / rate;
      this.segmenter.push({ index: this.frame, time, tone });
      this.frame++;
    }
  }

  /** The recording has ended: the note under way, too. */
  end(): void {
    this.segmenter.end();
  }

  private get hopSeconds(): number {
    return this.spectrum.hop / this.decimator.rate;
  }

  private makeRoom(more: number): void {
    const oldest = Math.min(this.segmenter.oldest ?? this.frame, this.frame);
    const dropped = Math.max(0, oldest * this.spectrum.hop - this.start);
    const kept = this.line.subarray(dropped, this.filled);
    const size = Math.max(ROOM, 2 ** Math.ceil(Math.log2(kept.length + more)));
    const next = new Float32Array(size);
    next.set(kept);
    this.line = next;
    this.filled = kept.length;
    this.start += dropped;
  }

  private tell({ frames, tongued, octaveAbove }: Run): void {
    const { steady, ...pitch } = pitchOfNote(frames, this.hopSeconds);
    if (pitch.seconds < SHORTEST) return;
    const { hop, length, window, rate } = this.spectrum;
    const sound = { line: this.line.subarray(0, this.filled), start: this.start, rate, hop, length, window };
    const heard = octaveOf({ steady, cents: pitch.cents }, sound, this.mains.hz);
    const verdict = octaveAbove && heard.shift === 0 ? { shift: 1200, margin: 1 } : heard;
    const changed = verdict.shift === 0 && oddChange(frames) > ODD_CHANGE;
    this.onNote({
      ...pitch,
      start: (frames[0] as ToneFrame).time - this.hopSeconds,
      end: (frames.at(-1) as ToneFrame).time + this.hopSeconds,
      cents: pitch.cents + verdict.shift,
      octave: { margin: changed ? 0 : verdict.margin },
      changed,
      accompanied: median(steady.map(({ tone }) => tone.beside)) > ANOTHER,
      tongued,
    });
  }
}

/** What is kept of a frame while its note sounds. */
function frameTone({ hz, level, snr, odd, beside }: Tone): FrameTone {
  return { cents: centsAbove(hz, 440), level, snr, odd, beside };
}

/** How much the odd harmonics' level differs between a note's first and last third, dB. */
function oddChange(frames: readonly ToneFrame[]): number {
  const third = Math.max(4, Math.floor(frames.length / 3));
  const level = (part: readonly ToneFrame[]) => median(part.map(({ tone }) => tone.odd));
  return Math.abs(level(frames.slice(2, third + 2)) - level(frames.slice(-third - 2, -2)));
}
