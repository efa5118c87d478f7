/** The sheet with everything around it, and what its hands do. */
import { useRef } from "preact/hooks";
import type { BoreViewData, Handle, ProposedChange } from "../../../server/src/protocol/boreView.js";
import { t } from "../../../server/src/words/translation.js";
import { picture } from "../exportPicture.js";
import { host } from "../host.js";
import { type Sound, VOLUME } from "../sound.js";
import { type Event, heldHandle, shownRows, stepped, type ViewState } from "../state.js";
import { textKey } from "../textKeys.js";
import { Fixes } from "./Fixes.js";
import { Folds } from "./Folds.js";
import { type Grip, isHeld } from "./Hold.js";
import { PipesSheet } from "./PipesSheet.js";
import { Proposal } from "./Proposal.js";
import { Readout } from "./Readout.js";
import { TitleBlock } from "./TitleBlock.js";
import { Toolbar } from "./Toolbar.js";
import { TubeSheet } from "./TubeSheet.js";
import { useKept } from "./useKept.js";
import { useSettled } from "./useSettled.js";
import type { Trials } from "./useTrials.js";
import { VesselSheet } from "./VesselSheet.js";

/** Steps of the arrow keys, in steps of the drawing: alone, and with Shift. */
const FINE = 1;
const COARSE = 10;
/** A key's change is written when no other follows within so long, ms: one undo for one move. */
const SETTLE = 400;

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
  const latest = useRef(state);
  latest.current = state;
  const rows = shownRows(state);

  const drag = (handle: Handle, wanted: number) => {
    if (isHeld(handle) || state.trouble !== undefined || state.proposal !== undefined) return;
    const value = stepped(view, handle, wanted);
    send({ type: "drag", handle, value: wanted < handle.least || wanted > handle.greatest ? wanted : value });
    trials.ask(handle.path, value, view.unit.millimetres);
  };
  const drop = () => {
    const { drag: done } = latest.current;
    if (done === undefined) return;
    const changed = done.refused === undefined && Math.abs(done.value - done.handle.value) > 1e-9;
    if (changed) host.post({ type: "commit", path: done.handle.path, value: done.value / view.unit.millimetres });
    else send({ type: "endDrag" });
    trials.end();
  };
  const settle = useSettled(drop, SETTLE);
  const grip: Grip = {
    onDrag: drag,
    onDrop: drop,
    onHover: (handle) => {
      // What keys have moved is written before something else is taken in hand.
      const under = latest.current.drag?.handle;
      if (under !== undefined && handle !== undefined && pathOf(under) !== pathOf(handle)) settle.now();
      send({ type: "hold", handle });
    },
    onKey: (event, handle) => {
      const isMoving = latest.current.drag !== undefined;
      if (event.key === "Escape" || (isMoving && textKey(event) === "undo")) {
        if (isMoving) event.stopPropagation(); // nothing of it is in the text yet
        settle.cancel();
        trials.end();
        send({ type: "endDrag" });
        return;
      }
      const turned = turnedBy(event, handle, view.handles);
      if (turned === undefined) return;
      event.preventDefault();
      event.stopPropagation();
      const under = latest.current.drag;
      const goesOn = under !== undefined && pathOf(under.handle) === pathOf(turned.handle);
      const from = goesOn ? under : turned.handle;
      const step = (event.shiftKey ? COARSE : FINE) * view.unit.step * view.unit.millimetres;
      drag(goesOn ? under.handle : turned.handle, from.value + turned.way * step);
      settle.soon();
    },
  };
  const chordOf = (i: number) => {
    const { predictedHz, targetHz } = rows[i] ?? {};
    const wanted = voice === "predicted" ? [predictedHz] : voice === "target" ? [targetHz] : [predictedHz, targetHz];
    return wanted.filter((hz) => hz !== undefined);
  };
  const play = (list: readonly number[]) => {
    const known = list.filter((i) => chordOf(i).length > 0);
    if (known.length > 0)
      sound.play(known.map(chordOf), (at) => send({ type: "sounding", row: at === undefined ? undefined : known[at] }));
  };
  const stop = () => {
    sound.stop();
    send({ type: "sounding", row: undefined });
  };
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

/** What a key does to the dimension in hand: which of its numbers, and which way. */
function turnedBy({ key }: KeyboardEvent, handle: Handle, handles: readonly Handle[]) {
  const isWidth = handle.kind === "width" || handle.kind === "stationWidth";
  // A stopper's number grows upstream, to the left.
  const right = handle.kind === "stopper" && handle.hole < 0 ? -1 : 1;
  const sideways: Partial<Record<string, number>> = { ArrowLeft: -right, ArrowRight: right };
  const wider: Partial<Record<string, number>> = { "+": 1, "=": 1, "-": -1 };
  const upward: Partial<Record<string, number>> = { ArrowUp: 1, ArrowDown: -1 };
  const way = sideways[key] ?? (isWidth || handle.kind === "stopper" ? upward[key] : undefined);
  if (way !== undefined) return { handle, way };
  const width = isWidth
    ? handle
    : handles.find(
        (each) =>
          (each.kind === "width" && each.hole >= 0 && each.hole === handle.hole) ||
          (each.kind === "stationWidth" && each.station === handle.station),
      );
  const size = wider[key];
  return size === undefined || width === undefined ? undefined : { handle: width, way: size };
}

function pathOf({ path }: Handle): string {
  return path.join(".");
}
