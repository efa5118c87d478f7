/** Frames to notes: a note is a run of frames near its own running median. */
import type { Frame, Run, ToneFrame } from "./frames.js";
import { medianOver } from "./median.js";
import { splitRun } from "./splitRun.js";

/** Cents from the running median beyond which a frame is of another note, and over how many frames that median runs. */
const APART = 60;
const MEDIAN_FRAMES = 15;
/** So many frames outside end a note: 64 ms. */
const PATIENCE = 4;
/** A frame heard this near to an octave off is folded back, since breath noise hides harmonics, unless this many follow each other. */
const OCTAVE_NEAR = 45;
const FOLDED_FRAMES = 12;
/** Level of the odd harmonics of a frame that was heard an octave above, dB: none. */
const NO_ODD = -40;
/** Seconds. */
const SHORTEST = 0.15;
const LONGEST = 30;

export class Segmenter {
  private run: ToneFrame[] = [];
  /** Frames that came after the run and do not belong to it, so far. */
  private outside: Frame[] = [];
  /** The run's last frames as they were heard, an octave off. */
  private folded: ToneFrame[] = [];

  /** @param hop seconds from frame to frame */
  constructor(
    private readonly hop: number,
    private readonly onRun: (run: Run) => void,
  ) {}

  /** Index of the oldest frame whose sound may still be asked for. */
  get oldest(): number | undefined {
    return (this.run[0] ?? this.outside[0])?.index;
  }

  push(frame: Frame): void {
    if (!hasTone(frame)) this.leave(frame);
    else if (this.run.length === 0) this.run.push(frame);
    else this.goOn(frame);
  }

  /** The recording has ended. */
  end(): void {
    this.close();
  }

  private goOn(frame: ToneFrame): void {
    const count = Math.min(MEDIAN_FRAMES, this.run.length);
    const first = this.run.length - count;
    const centre = medianOver(count, (i) => (this.run[first + i] as ToneFrame).tone.cents);
    const away = frame.tone.cents - centre;
    const octaves = Math.round(away / 1200);
    if (octaves !== 0 && Math.abs(away - 1200 * octaves) < OCTAVE_NEAR) this.fold(frame, octaves);
    else if (Math.abs(away) >= APART) this.leave(frame);
    else this.stay(frame);
  }

  private stay(frame: ToneFrame): void {
    this.folded = [];
    this.outside = [];
    this.run.push(frame);
    if (this.run.length * this.hop > LONGEST) this.close();
  }

  private leave(frame: Frame): void {
    if (this.run.length === 0) return;
    this.outside.push(frame);
    if (this.outside.length < PATIENCE) return;
    const next = lastThatAgree(this.outside.filter(hasTone));
    this.close();
    this.run = next;
  }

  private fold(frame: ToneFrame, octaves: number): void {
    this.folded.push(frame);
    this.outside = [];
    if (this.folded.length < FOLDED_FRAMES) {
      const { tone } = frame;
      const odd = octaves > 0 ? NO_ODD : tone.odd;
      this.run.push({ ...frame, tone: { ...tone, odd, cents: tone.cents - 1200 * octaves } });
      return;
    }
    // It stays there: another note, which began with the first of them.
    const next = this.folded;
    this.run.length -= next.length - 1;
    this.close();
    this.run = next;
  }

  private close(): void {
    const { run } = this;
    this.run = [];
    this.outside = [];
    this.folded = [];
    const fewest = SHORTEST / this.hop;
    if (run.length < fewest) return;
    for (const piece of splitRun(run, this.hop)) if (piece.frames.length >= fewest) this.onRun(piece);
  }
}

function hasTone(frame: Frame): frame is ToneFrame {
  return frame.tone !== undefined;
}

/** The last frames that lie near the very last one: the beginning of the next note. */
function lastThatAgree(frames: readonly ToneFrame[]): ToneFrame[] {
  const last = frames.at(-1);
  if (last === undefined) return [];
  const odd = frames.findLastIndex(({ tone }) => Math.abs(tone.cents - last.tone.cents) > APART);
  return frames.slice(odd + 1);
}
