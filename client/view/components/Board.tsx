/** The sheet with everything around it, and what its hands do. */
import type { BoreViewData, ProposedChange } from "../../../server/src/protocol/boreView.js";
import { t } from "../../../server/src/words/translation.js";
import { picture } from "../exportPicture.js";
import { host } from "../host.js";
import { type Sound, VOLUME } from "../sound.js";
import { type Event, heldHandle, shownRows, type ViewState } from "../state.js";
import { Fixes } from "./Fixes.js";
import { Folds } from "./Folds.js";
import { PipesSheet } from "./PipesSheet.js";
import { Proposal } from "./Proposal.js";
import { playing } from "./playing.js";
import { Readout } from "./Readout.js";
import { TitleBlock } from "./TitleBlock.js";
import { Toolbar } from "./Toolbar.js";
import { TubeSheet } from "./TubeSheet.js";
import { useGrip } from "./useGrip.js";
import { useKept } from "./useKept.js";
import type { Trials } from "./useTrials.js";
import { VesselSheet } from "./VesselSheet.js";

interface Props {
  readonly view: BoreViewData;
  readonly state: ViewState;
  readonly send: (event: Event) => void;
  readonly sound: Sound;
  readonly trials: Trials;
  readonly width: number;
}

export function Board({ view, state, send, sound, trials, width }: Props) {
  const [voice, setVoice] = useKept("voice", "predicted");
  const [volume, setVolume] = useKept("volume", VOLUME);
  const rows = shownRows(state);

  const grip = useGrip(view, state, send, trials);
  const { play, stop } = playing(rows, voice, sound, send);
  const select = (row: number) => {
    send({ type: "select", row });
    host.keep({ selected: row });
    const line = rows[row]?.lines[0];
    if (line !== undefined) host.post({ type: "reveal", line });
  };
  const sheet = {
    view,
    state,
    rows,
    width,
    grip,
    onSelect: select,
    onPlay: (row: number) => play([row]),
    onHoverRow: (row: number | undefined) => send({ type: "hoverRow", row }),
  };
  const propose = (change: ProposedChange) => host.post({ type: "propose", change });
  const { body } = view.outline;
  const { proposal, fixes, file } = state;
  const chosen = rows[state.selected];
  return (
    <main class={state.trouble === undefined ? "" : "held"}>
      <Toolbar
        view={view}
        instead={state.drag !== undefined ? "trying" : proposal?.view !== undefined ? "preview" : undefined}
        row={chosen}
        busy={state.trouble !== undefined || proposal !== undefined || state.working !== undefined}
        voice={voice}
        volume={volume}
        playing={state.sounding !== undefined}
        droning={state.droning}
        onVoice={setVoice}
        onVolume={(wanted) => {
          setVolume(wanted);
          sound.volume = wanted;
        }}
        onPlay={() => play([state.selected])}
        onScale={() => play(rows.map((_, i) => i))}
        onStop={stop}
        onDrone={() => {
          if (view.keyHz !== undefined) sound.toggleDrone(view.keyHz);
          send({ type: "droning", on: sound.droning });
        }}
        onRetune={(freedom) => propose({ do: "retune", freedom })}
        onRekey={() => host.post({ type: "rekey" })}
        onFix={() => host.post({ type: "fixes", row: state.selected })}
        onSave={async (kind) =>
          host.post({ type: "save", name: view.outline.name ?? "instrument", kind, base64: await picture(kind) })
        }
      />
      {proposal !== undefined && file !== undefined && (
        <Proposal
          file={file}
          proposal={proposal}
          onApply={() => host.post({ type: "apply" })}
          onCompare={() => host.post({ type: "compare" })}
          onDiscard={() => host.post({ type: "discard" })}
        />
      )}
      {fixes !== undefined && (
        <Fixes
          note={rows[fixes.row]?.note ?? t("the note")}
          titles={fixes.titles}
          onChoose={(title) => propose({ do: "fix", row: fixes.row, title })}
          onClose={() => host.post({ type: "discard" })}
        />
      )}
      <Readout
        view={view}
        row={rows[state.hovered ?? state.selected]}
        held={heldHandle(state)}
        drag={state.drag}
        trouble={state.trouble}
        working={state.working}
      />
      {body.kind === "tube" && <TubeSheet {...sheet} tube={body} />}
      {body.kind === "pipes" && <PipesSheet {...sheet} pipes={body} />}
      {body.kind === "vessel" && <VesselSheet {...sheet} vessel={body} />}
      <Folds view={view} state={state} rows={rows} width={width} onSelect={select} />
      <TitleBlock view={view} />
    </main>
  );
}
