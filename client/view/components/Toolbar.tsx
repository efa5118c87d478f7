/** The verdict, and what can be done: listen, retune, save the picture. */
import type { BoreViewData, Row } from "../../../server/src/protocol/boreView.js";
import { t, told } from "../../../server/src/words/translation.js";
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
  ["predicted", told("as predicted")],
  ["target", told("in tune")],
  ["both", told("both, with beats")],
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
          {instead === undefined ? "" : t(INSTEAD[instead])}
          {verdict.words}
        </strong>{" "}
        <span class="second">{verdict.worst}</span>
      </h1>
      <div class="actions" role="toolbar" aria-label={t("Listen")}>
        <button type="button" onClick={playing ? props.onStop : props.onPlay}>
          {playing ? t("■ Stop") : t("▷ Play note")}
        </button>
        <button type="button" onClick={props.onScale} disabled={playing}>
          {t("Scale")}
        </button>
        <button type="button" onClick={props.onDrone} aria-pressed={droning} disabled={view.keyHz === undefined}>
          {t("Drone")}
        </button>
        <select
          aria-label={t("What sounds")}
          value={voice}
          onChange={(event) => props.onVoice(event.currentTarget.value as Voice)}
        >
          {VOICES.map(([value, words]) => (
            <option key={value} value={value}>
              {t(words)}
            </option>
          ))}
        </select>
        <input
          type="range"
          min="0"
          max="1"
          step="0.05"
          value={volume}
          aria-label={t("Volume")}
          onInput={(event) => props.onVolume(Number(event.currentTarget.value))}
        />
      </div>
      <div class="actions" role="toolbar" aria-label={t("Change and save")}>
        <button
          type="button"
          onClick={() => props.onRetune("all")}
          disabled={busy}
          title={t("Every note in tune, shown before it is made")}
        >
          {t("Retune…")}
        </button>
        {mayKeep && (
          <button
            type="button"
            onClick={() => props.onRetune("holes")}
            disabled={busy}
            title={
              kind === "vessel"
                ? t("The holes alone; the chamber stays. Shown before it is made")
                : t("The holes alone; the bore stays. Shown before it is made")
            }
          >
            {t("Retune holes…")}
          </button>
        )}
        <button
          type="button"
          onClick={props.onRekey}
          disabled={busy || view.key === undefined}
          title={t("Another key: by print scale, redraw or refit. Shown before it is made")}
        >
          {t("Rekey…")}
        </button>
        {row !== undefined && !row.inTune && (
          <button type="button" onClick={props.onFix} disabled={busy}>{t`Fix ${row.note}…`}</button>
        )}
        <button type="button" onClick={() => props.onSave("svg")}>
          {t("Save SVG")}
        </button>
        <button type="button" onClick={() => props.onSave("png")}>
          {t("Save PNG")}
        </button>
      </div>
    </header>
  );
}
