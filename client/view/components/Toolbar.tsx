/** The verdict, and what can be done: listen, retune, save the picture. */
import type { BoreViewData, Row } from "../../../server/src/protocol/boreView.js";
import type { Voice } from "../sound.js";

interface Props {
  readonly view: BoreViewData;
  /** What is shown is not what the text says: something is dragged, or a change is shown before it is made. */
  readonly instead: "trying" | "preview" | undefined;
  /** The chosen note. */
  readonly row: Row | undefined;
  /** Something is being worked out or shown already. */
  readonly busy: boolean;
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
  readonly onRetune: (freedom: "all" | "holes") => void;
  readonly onRekey: () => void;
  readonly onFix: () => void;
  readonly onSave: (kind: "svg" | "png") => void;
}

const VOICES: readonly (readonly [Voice, string])[] = [
  ["predicted", "as predicted"],
  ["target", "in tune"],
  ["both", "both, with beats"],
];

const INSTEAD = { trying: "Trying: ", preview: "Preview: " } as const;

export function Toolbar(props: Props) {
  const { view, instead, voice, volume, playing, droning, row, busy } = props;
  const { verdict } = view;
  const { kind } = view.outline.body;
  const mayKeep = kind !== "pipes" && view.rows.length > 0;
  return (
    <header class="toolbar">
      <h1 class="verdict">
        <span aria-hidden="true">{verdict.inTune ? "✓" : "△"}</span>{" "}
        <strong>
          {instead === undefined ? "" : INSTEAD[instead]}
          {verdict.words}
        </strong>{" "}
        <span class="second">{verdict.worst}</span>
      </h1>
      <div class="actions" role="toolbar" aria-label="Listen">
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
      </div>
      <div class="actions" role="toolbar" aria-label="Change and save">
        <button
          type="button"
          onClick={() => props.onRetune("all")}
          disabled={busy}
          title="Every note in tune, shown before it is made"
        >
          Retune…
        </button>
        {mayKeep && (
          <button
            type="button"
            onClick={() => props.onRetune("holes")}
            disabled={busy}
            title={`The holes alone; the ${kind === "vessel" ? "chamber" : "bore"} stays. Shown before it is made`}
          >
            Retune holes…
          </button>
        )}
        <button
          type="button"
          onClick={props.onRekey}
          disabled={busy || view.key === undefined}
          title="Another key: by print scale, redraw or refit. Shown before it is made"
        >
          Rekey…
        </button>
        {row !== undefined && !row.inTune && (
          <button type="button" onClick={props.onFix} disabled={busy}>
            Fix {row.note}…
          </button>
        )}
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
