/** A plain tone, since only the pitch is predicted. Nothing sounds unless requested. */

/** Volume at which it starts, of 1. */
export const VOLUME = 0.5;
/** Loudness at that volume, as a share of full scale. */
const GAIN = 0.18;
/** Seconds of one note, and of fading in and out, so that nothing clicks. */
const NOTE = 1.1;
const FADE = 0.03;
/** Overtones of the plain tone: soft, falling by half each. */
const PARTIALS = [1, 0.3, 0.1];

export type Voice = "predicted" | "target" | "both";

export class Sound {
  private context: AudioContext | undefined;
  private master: GainNode | undefined;
  private playing: OscillatorNode[] = [];
  private drone: OscillatorNode[] = [];
  private loudness: number;

  /** @param volume 0 to 1 */
  constructor(volume: number) {
    this.loudness = (GAIN * volume) / VOLUME;
  }

  /** @param volume 0 to 1 */
  set volume(volume: number) {
    this.loudness = (GAIN * volume) / VOLUME;
    if (this.master) this.master.gain.value = this.loudness;
  }

  get running(): boolean {
    return this.context?.state === "running" && (this.playing.length > 0 || this.drone.length > 0);
  }

  get droning(): boolean {
    return this.drone.length > 0;
  }

  /** One after another, each of one or two pitches at once, Hz. Called from a click or a key, as browsers demand. */
  play(chords: readonly (readonly number[])[], told: (index: number | undefined) => void): void {
    this.stop();
    const context = this.ready();
    const start = context.currentTime + FADE;
    chords.forEach((chord, i) => {
      for (const hz of chord) this.playing.push(...this.tone(context, hz, start + i * NOTE, NOTE, chord.length));
      const first = this.playing.at(-1);
      if (i === chords.length - 1 && first) first.onended = () => told(undefined);
      window.setTimeout(() => this.playing.length > 0 && told(i), (start - context.currentTime + i * NOTE) * 1000);
    });
  }

  /** A lasting tone to play against; the same again ends it. */
  toggleDrone(hz: number): void {
    if (this.drone.length > 0) {
      for (const each of this.drone) each.stop();
      this.drone = [];
      return;
    }
    const context = this.ready();
    this.drone = this.tone(context, hz, context.currentTime, Number.POSITIVE_INFINITY, 2);
  }

  stop(): void {
    for (const each of this.playing) {
      each.onended = null;
      each.stop();
    }
    this.playing = [];
  }

  stopAll(): void {
    this.stop();
    for (const each of this.drone) each.stop();
    this.drone = [];
  }

  private ready(): AudioContext {
    this.context ??= new AudioContext();
    if (this.master === undefined) {
      this.master = this.context.createGain();
      this.master.gain.value = this.loudness;
      this.master.connect(this.context.destination);
    }
    void this.context.resume();
    return this.context;
  }

  private tone(context: AudioContext, hz: number, start: number, seconds: number, together: number): OscillatorNode[] {
    const envelope = context.createGain();
    envelope.gain.setValueAtTime(0, start);
    envelope.gain.linearRampToValueAtTime(1 / together, start + FADE);
    if (Number.isFinite(seconds)) {
      envelope.gain.setValueAtTime(1 / together, start + seconds - 2 * FADE);
      envelope.gain.linearRampToValueAtTime(0, start + seconds - FADE);
    }
    envelope.connect(this.master as GainNode);
    return PARTIALS.map((level, i) => {
      const oscillator = context.createOscillator();
      const gain = context.createGain();
      gain.gain.value = level;
      oscillator.frequency.value = hz * (i + 1);
      oscillator.connect(gain).connect(envelope);
      oscillator.start(start);
      if (Number.isFinite(seconds)) oscillator.stop(start + seconds);
      return oscillator;
    });
  }
}
