/** How numbers on the sheet are changed by hand: dragged, or pushed by keys; each move is tried and then written. */
import { useRef } from "preact/hooks";
import type { BoreViewData, Handle } from "../../../server/src/protocol/boreView.js";
import { host } from "../host.js";
import { type Event, stepped, type ViewState } from "../state.js";
import { textKey } from "../textKeys.js";
import { type Grip, isHeld } from "./Hold.js";
import { useSettled } from "./useSettled.js";
import type { Trials } from "./useTrials.js";

/** Steps of the arrow keys, in steps of the drawing: alone, and with Shift. */
const FINE = 1;
const COARSE = 10;
/** A key's change is written when no other follows within this time, ms: one undo for one move. */
const SETTLE = 400;

export function useGrip(view: BoreViewData, state: ViewState, send: (event: Event) => void, trials: Trials): Grip {
  const latest = useRef(state);
  latest.current = state;
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
  return {
    onDrag: drag,
    onDrop: drop,
    onHover: (handle) => {
      // What keys have moved is written before something else is grabbed.
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
}

/** What a key does to the current dimension: which of its numbers, and which way. */
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
