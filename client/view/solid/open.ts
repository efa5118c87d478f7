/** The solid as an interactive view: turned by pointer and keys, measured under the pointer. */

import { t } from "../../../server/src/words/translation.js";
import { HOW_TO, measured } from "./measured.js";
import { type Camera, Painter } from "./paint.js";
import { type Hit, hitOf, type Scene, sceneOf } from "./scene.js";
import type { OpenSolid } from "./solid.js";
import { plus, type Turn, turned, type Vector } from "./vector.js";

/** The mouth to the left, the front up, seen a little from above. */
const FIRST: Turn = turned(
  [
    [0, 0, 1],
    [0, 1, 0],
    [-1, 0, 0],
  ],
  0.8,
  -0.35,
);
/** Radians per pixel of a drag, and per press of a key; how much nearer a step of the wheel or a key comes. */
const DRAGGED = 0.008;
const PRESSED = 0.12;
const NEARER = 1.15;
/** A press that moves less than this many pixels is a click. */
const CLICK = 3;
const CLOSEST = 60;
/** Of the picture's half that the solid fills at first. */
const FILLED = 0.46;

export const openSolid: OpenSolid = (canvas, say) => {
  const painter = new Painter(canvas);
  let scene: Scene | undefined;
  let [turn, zoom, isCut]: [Turn, number, boolean] = [FIRST, 1, false];
  let middle: Vector = [0, 0, 0];
  let clicked: Vector | undefined;
  let held: { x: number; y: number; moved: number; pans: boolean } | undefined;
  let due = 0;

  const camera = (): Camera => ({ turn, middle, zoom });
  const paint = () => {
    cancelAnimationFrame(due);
    due = requestAnimationFrame(() => scene && painter.paint(camera(), scene.radius, isCut));
  };
  const putBack = () => {
    if (scene === undefined) return;
    [turn, middle] = [FIRST, scene.middle];
    const { half } = scene;
    const reach = (row: Vector) => row.reduce((sum, share, k) => sum + Math.abs(share) * (half[k] ?? 0), 0);
    zoom = FILLED * Math.min(canvas.clientWidth / reach(turn[0]), canvas.clientHeight / reach(turn[1]));
  };
  const nearer = (by: number) => {
    zoom = Math.min(CLOSEST, Math.max(0.2, zoom * by));
    paint();
  };
  const under = ({ offsetX, offsetY }: MouseEvent): Hit | undefined => {
    if (scene === undefined) return undefined;
    const [x, y] = [(offsetX - canvas.clientWidth / 2) / zoom, (canvas.clientHeight / 2 - offsetY) / zoom];
    const [right, up, out] = turn;
    const from = plus(plus(plus(middle, right, x), up, y), out, 4 * scene.radius);
    return hitOf(scene, from, [-out[0], -out[1], -out[2]], isCut ? (at) => at[0] >= 0 : undefined);
  };
  const tell = (event: MouseEvent) => {
    const hit = under(event);
    say(scene === undefined || hit === undefined ? t(HOW_TO) : measured(scene, hit, clicked));
  };

  const leaving = new AbortController();
  const on = <K extends keyof HTMLElementEventMap>(name: K, hear: (event: HTMLElementEventMap[K]) => void) =>
    canvas.addEventListener(name, hear, { signal: leaving.signal, passive: false });
  on("pointerdown", (event) => {
    canvas.setPointerCapture(event.pointerId);
    held = { x: event.offsetX, y: event.offsetY, moved: 0, pans: event.shiftKey || event.button === 1 };
  });
  on("pointermove", (event) => {
    if (held === undefined) return tell(event);
    const [dx, dy] = [event.offsetX - held.x, event.offsetY - held.y];
    held = { ...held, x: event.offsetX, y: event.offsetY, moved: held.moved + Math.hypot(dx, dy) };
    if (held.pans) middle = plus(plus(middle, turn[0], -dx / zoom), turn[1], dy / zoom);
    else turn = turned(turn, dy * DRAGGED, dx * DRAGGED);
    paint();
  });
  on("pointerup", (event) => {
    const isClick = held !== undefined && held.moved < CLICK;
    held = undefined;
    if (!isClick) return;
    clicked = under(event)?.at;
    tell(event);
  });
  on("wheel", (event) => {
    event.preventDefault();
    nearer(event.deltaY < 0 ? NEARER : 1 / NEARER);
  });
  on("keydown", (event) => {
    const turns: Partial<Record<string, readonly [number, number]>> = {
      ArrowLeft: [0, -PRESSED],
      ArrowRight: [0, PRESSED],
      ArrowUp: [-PRESSED, 0],
      ArrowDown: [PRESSED, 0],
    };
    const way = turns[event.key];
    if (way !== undefined) turn = turned(turn, ...way);
    else if (event.key === "+" || event.key === "=") nearer(NEARER);
    else if (event.key === "-") nearer(1 / NEARER);
    else if (event.key === "Home") putBack();
    else return;
    event.preventDefault();
    event.stopPropagation();
    paint();
  });
  const observer = new ResizeObserver(paint);
  observer.observe(canvas);

  return {
    show(parts) {
      const isFirst = scene === undefined;
      scene = sceneOf(parts);
      clicked = undefined;
      painter.take(scene);
      if (isFirst) putBack();
      say(t(HOW_TO));
      paint();
    },
    cut(wanted) {
      isCut = wanted;
      paint();
    },
    dispose() {
      leaving.abort();
      observer.disconnect();
      cancelAnimationFrame(due);
      painter.dispose();
    },
  };
};
