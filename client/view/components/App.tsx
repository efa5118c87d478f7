/** The bore view: its state, and the messages it receives. */
import { useEffect, useMemo, useReducer, useState } from "preact/hooks";
import { host } from "../host.js";
import type { ToView } from "../messages.js";
import { Sound, VOLUME } from "../sound.js";
import { INITIAL, next, shownView } from "../state.js";
import { textKey } from "../textKeys.js";
import { Board } from "./Board.js";
import { Empty } from "./Empty.js";
import { useTrials } from "./useTrials.js";

export function App() {
  const [state, send] = useReducer(next, { ...INITIAL, selected: host.kept.selected ?? 0 });
  const sound = useMemo(() => new Sound(host.kept.volume ?? VOLUME), []);
  const width = useWidth();
  const trials = useTrials(send);

  useEffect(() => {
    const receive = ({ data }: MessageEvent<ToView>) => {
      if (data.type === "trial") trials.answered(data.id, data.answer);
      else if (data.type !== "solid") send(data);
    };
    const hide = () => {
      if (!document.hidden) return;
      sound.stopAll();
      send({ type: "silent" });
    };
    const pressed = (event: KeyboardEvent) => {
      if (event.key === "Escape") host.post({ type: "discard" });
      const key = textKey(event);
      if (key === undefined) return;
      event.preventDefault();
      host.post({ type: "text", key });
    };
    // After an undo the editor gives the page the focus back, but not to what had it.
    let last: EventTarget | null = null;
    const focused = ({ target }: FocusEvent) => {
      if (target !== document.body && target !== window) last = target;
    };
    const back = () => {
      const lost = document.activeElement === null || document.activeElement === document.body;
      if (lost && (last instanceof HTMLElement || last instanceof SVGElement) && last.isConnected)
        last.focus({ preventScroll: true });
    };
    window.addEventListener("message", receive);
    document.addEventListener("focusin", focused);
    window.addEventListener("focus", back);
    window.addEventListener("keydown", pressed);
    document.addEventListener("visibilitychange", hide);
    host.post({ type: "ready" });
    return () => {
      window.removeEventListener("message", receive);
      document.removeEventListener("focusin", focused);
      window.removeEventListener("focus", back);
      window.removeEventListener("keydown", pressed);
      document.removeEventListener("visibilitychange", hide);
    };
  }, []);

  const view = shownView(state);
  if (view === undefined) return <Empty trouble={state.trouble} />;
  return <Board view={view} state={state} send={send} sound={sound} trials={trials} width={width} />;
}

/** px: narrower, the page scrolls sideways. */
const NARROWEST = 320;

function useWidth(): number {
  const present = () => Math.max(NARROWEST, document.documentElement.clientWidth || 600);
  const [width, setWidth] = useState(present());
  useEffect(() => {
    const observer = new ResizeObserver(() => setWidth(present()));
    observer.observe(document.documentElement);
    return () => observer.disconnect();
  }, []);
  return width;
}
