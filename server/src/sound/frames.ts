/** Frames of a recording, and runs of them. */

/** One frame of the recording, with or without a tone. */
export interface Frame {
  readonly index: number;
  /** Seconds from the recording's start. */
  readonly time: number;
  readonly tone: FrameTone | undefined;
}

export interface FrameTone {
  /** Above 440 Hz, cents. */
  readonly cents: number;
  /** Decibels, as in `Tone`. */
  readonly level: number;
  readonly snr: number;
  readonly odd: number;
  /** Share of the peaks' amplitude that is not harmonic with it. */
  readonly beside: number;
}

export interface ToneFrame extends Frame {
  readonly tone: FrameTone;
}

/** A stretch of one pitch. */
export interface Run {
  readonly frames: readonly ToneFrame[];
  /** The tone dipped, or broke, right before: a note of its own even where the pitch is the same. */
  readonly tongued: boolean;
  /** The odd harmonics fell away right before: a slur to the octave. */
  readonly octaveAbove: boolean;
}
