/** The sheet with everything around it, and what its hands do. */
import { useRef, useState } from "preact/hooks";
import type { BoreViewData, Handle } from "../../../server/src/protocol/boreView.js";
import { picture } from "../exportPicture.js";
import { host } from "../host.js";
import type { Sound, Voice } from "../sound.js";
import { type Event, shownRows, stepped, type ViewState } from "../state.js";
import type { Grip } from "./FromAbove.js";
import { PipesSheet } from "./PipesSheet.js";
import { Readout } from "./Readout.js";
import { TitleBlock } from "./TitleBlock.js";
import { Toolbar } from "./Toolbar.js";
import { TubeSheet } from "./TubeSheet.js";
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
  const [voice, setVoice] = useState<Voice>("predicted");
  const [volume, setVolume] = useState(0.5);
  const [droning, setDroning] = useState(false);
  const latest = useRef(state);
  latest.current = state;
  const rows = shownRows(state);

  const drag = (handle: Handle, wanted: number) => {
    if (handle.fixed || state.trouble !== undefined) return;
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
    onHover: (hole) => send({ type: "hoverHole", hole }),
    onKey: (event, handle) => {
      if (event.key === "Escape") {
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
  const { body } = view.outline;
  return (
    <main class={state.trouble === undefined ? "" : "held"}>
      <Toolbar
        view={view}
        trying={state.drag !== undefined}
        voice={voice}
        volume={volume}
        playing={state.sounding !== undefined}
        droning={droning}
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
          setDroning(sound.droning);
        }}
        onRetune={() => host.post({ type: "retune" })}
        onRekey={() => host.post({ type: "rekey" })}
        onSave={async (kind) =>
          host.post({ type: "save", name: view.outline.name ?? "instrument", kind, base64: await picture(kind) })
        }
      />
      {state.trouble !== undefined && (
        <p class="trouble" role="alert">
          {state.trouble} Drawn from the text as it was before.
        </p>
      )}
      <Readout view={view} row={rows[state.hovered ?? state.selected]} hole={state.hole} drag={state.drag} />
      {body.kind === "tube" && <TubeSheet {...sheet} tube={body} />}
      {body.kind === "pipes" && <PipesSheet {...sheet} pipes={body} />}
      {body.kind === "vessel" && <VesselSheet {...sheet} vessel={body} />}
      <TitleBlock view={view} />
    </main>
  );
}

/** What a key does to the hole in hand: which of its numbers, and which way. */
function turnedBy({ key }: KeyboardEvent, handle: Handle, handles: readonly Handle[]) {
  const sideways: Partial<Record<string, number>> = { ArrowLeft: -1, ArrowRight: 1 };
  const wider: Partial<Record<string, number>> = { "+": 1, "=": 1, "-": -1 };
  const way = sideways[key];
  if (way !== undefined) return { handle, way };
  const width = handles.find(({ kind, hole }) => kind === "width" && hole === handle.hole);
  const size = wider[key];
  return size === undefined || width === undefined ? undefined : { handle: width, way: size };
}

function pathOf({ path }: Handle): string {
  return path.join(".");
}
