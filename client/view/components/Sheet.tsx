/** What the sheets of all bodies share: the frame, the rows and hatchings. */
import type { ComponentChildren, ComponentProps } from "preact";
import type { BoreViewData, Row } from "../../../server/src/protocol/boreView.js";
import type { ViewState } from "../state.js";
import type { Grip } from "./Hold.js";
import { Rows } from "./Rows.js";

export interface SheetProps {
  readonly view: BoreViewData;
  readonly state: ViewState;
  readonly rows: readonly Row[];
  readonly width: number;
  readonly grip: Grip;
  readonly onSelect: (row: number) => void;
  readonly onPlay: (row: number) => void;
  readonly onHoverRow: (row: number | undefined) => void;
}

export function Sheet({
  width,
  height,
  label,
  children,
}: {
  width: number;
  height: number;
  label: string;
  children: ComponentChildren;
}) {
  return (
    <svg class="sheet" width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-label={label}>
      <Hatchings />
      {children}
    </svg>
  );
}

/** The fingerings below the drawing, with those of the file behind them while a change is tried. */
export function SheetRows({
  sheet: { view, state, rows, onSelect, onPlay, onHoverRow },
  ...drawn
}: { sheet: SheetProps } & Pick<ComponentProps<typeof Rows>, "layout" | "names" | "sizes" | "along">) {
  return (
    <Rows
      {...drawn}
      rows={rows}
      before={state.trial || state.drag ? state.file?.rows : undefined}
      selected={state.selected}
      sounding={state.sounding}
      tolerance={view.tolerance}
      together={view.together}
      handles={view.handles}
      hole={state.hole}
      onSelect={onSelect}
      onPlay={onPlay}
      onHover={onHoverRow}
    />
  );
}

function Hatchings() {
  return (
    <defs>
      <pattern id="wood" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
        <line x1="0" y1="0" x2="0" y2="5" class="hatch" />
      </pattern>
      <pattern id="block" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
        <line x1="0" y1="0" x2="0" y2="5" class="hatch" />
      </pattern>
    </defs>
  );
}
