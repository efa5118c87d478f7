/** The handle of a dimension: dragged by the pointer along one direction, or moved by keys as a slider. */
import type { BoreViewData, Handle } from "../../../server/src/protocol/boreView.js";
import { t } from "../../../server/src/words/translation.js";
import { handleLabel, length } from "../words.js";

export interface Grip {
  readonly onDrag: (handle: Handle, millimetres: number) => void;
  readonly onDrop: () => void;
  readonly onKey: (event: KeyboardEvent, handle: Handle) => void;
  readonly onHover: (handle: Handle | undefined) => void;
}

interface Props {
  readonly handle: Handle;
  readonly view: BoreViewData;
  readonly grip: Grip;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly class: "catch" | "width-grip" | "station-grip";
  /** Millimetres of the dimension for a way of the pointer, px. */
  readonly change: (dx: number, dy: number) => number;
  /** Whether the handle is released when the pointer leaves it: one that shows only while it is held must not be. */
  readonly stays?: boolean;
}

export function Hold({ handle, view, grip, change, stays, class: kind, ...box }: Props) {
  const per = view.unit.millimetres;
  const held = isHeld(handle);
  return (
    <rect
      {...box}
      class={`${kind}${held ? " fixed" : ""}${handle.kind === "stationWidth" || handle.kind === "width" ? " across" : ""}`}
      role="slider"
      tabIndex={0}
      aria-label={handleLabel(handle) + said(handle)}
      aria-valuenow={handle.value / per}
      aria-valuemin={handle.least / per}
      aria-valuemax={handle.greatest / per}
      aria-valuetext={length(handle.value, view)}
      aria-disabled={held}
      onKeyDown={(event) => grip.onKey(event, handle)}
      onFocus={() => grip.onHover(handle)}
      onPointerEnter={() => grip.onHover(handle)}
      onPointerLeave={() => stays || grip.onHover(undefined)}
      onPointerDown={(event) => startDrag(event, handle, grip, change)}
    />
  );
}

/** It cannot be moved here. */
export function isHeld({ fixed, refused }: Handle): boolean {
  return fixed || refused !== undefined;
}

function said({ formula, moves, fixed, refused }: Handle): string {
  if (fixed) return t(", fixed in the design");
  if (refused !== undefined) return `, ${refused}`;
  if (moves !== undefined) return t`, moves ${moves}`;
  return formula === undefined ? "" : t`, from the formula =${formula.trim()}`;
}

function startDrag(event: PointerEvent, handle: Handle, grip: Grip, change: Props["change"]): void {
  if (event.button !== 0 || isHeld(handle)) return;
  const target = event.currentTarget as SVGElement;
  const { clientX, clientY } = event;
  target.setPointerCapture(event.pointerId);
  const move = (moved: PointerEvent) =>
    grip.onDrag(handle, handle.value + change(moved.clientX - clientX, moved.clientY - clientY));
  const end = () => {
    target.removeEventListener("pointermove", move);
    grip.onDrop();
  };
  target.addEventListener("pointermove", move);
  target.addEventListener("pointerup", end, { once: true });
  target.addEventListener("pointercancel", end, { once: true });
}
