/** The verdict, and what can be done: listen, retune, save the picture. */
import type { BoreViewData } from "../../../server/src/protocol/boreView.js";
import type { Voice } from "../sound.js";

interface Props {
  readonly view: BoreViewData;
  readonly trying: boolean;
  readonly voice: Voice;
  readonly volume: number;
  readonly playing: boolean;
  readonly droning: boolean;
  readonly onVoice: (voice: Voice) => void;
  readonly onVolume: (volume: number) => void;
  readonly onPlay: () => void;
  readonly onScale: () => void;
  readonly onStop: () => void;
  readonly onDrone: () => void;
  readonly onRetune: () => void;
  readonly onRekey: () => void;
  readonly onSave: (kind: "svg" | "png") => void;
}

const VOICES: readonly (readonly [Voice, string])[] = [
  ["predicted", "as predicted"],
  ["target", "in tune"],
  ["both", "both, with beats"],
];

export function Toolbar(props: Props) {
  const { view, trying, voice, volume, playing, droning } = props;
  const { verdict } = view;
  return (
    <header class="toolbar">
      <p class="verdict" role="status">
        <span aria-hidden="true">{verdict.inTune ? "✓" : "△"}</span>{" "}
        <strong>
          {trying ? "Trying: " : ""}
          {verdict.words}
        </strong>{" "}
        <span class="second">{verdict.worst}</span>
      </p>
      <div class="actions" role="toolbar" aria-label="Listen and save">
        <button type="button" onClick={playing ? props.onStop : props.onPlay}>
          {playing ? "■ Stop" : "▷ Play note"}
        </button>
        <button type="button" onClick={props.onScale} disabled={playing}>
          Scale
        </button>
        <button type="button" onClick={props.onDrone} aria-pressed={droning} disabled={view.keyHz === undefined}>
          Drone
        </button>
        <select
          aria-label="What sounds"
          value={voice}
          onChange={(event) => props.onVoice(event.currentTarget.value as Voice)}
        >
          {VOICES.map(([value, words]) => (
            <option key={value} value={value}>
              {words}
            </option>
          ))}
        </select>
        <input
          type="range"
          min="0"
          max="1"
          step="0.05"
          value={volume}
          aria-label="Volume"
          onInput={(event) => props.onVolume(Number(event.currentTarget.value))}
        />
        <button
          type="button"
          onClick={props.onRetune}
          title="Every note in tune by moving and resizing holes, previewed first"
        >
          Retune…
        </button>
        <button type="button" onClick={props.onRekey} title="Another key: by print scale, redraw or refit">
          Rekey…
        </button>
        <button type="button" onClick={() => props.onSave("svg")}>
          Save SVG
        </button>
        <button type="button" onClick={() => props.onSave("png")}>
          Save PNG
        </button>
      </div>
    </header>
  );
}
