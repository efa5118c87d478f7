/** Handles of the bore in its section: stations along and across, the foot's width, and the stopper. */
import type { BoreViewData, Handle, TubeOutline } from "../../../server/src/protocol/boreView.js";
import type { TubeLayout } from "../layout/tubeLayout.js";
import { type Grip, Hold } from "./Hold.js";

interface Props {
  readonly view: BoreViewData;
  readonly tube: TubeOutline;
  readonly layout: TubeLayout;
  readonly axis: number;
  readonly grip: Grip;
  readonly inHand: Handle | undefined;
}

/** Half the width in which a station can be grabbed, and half the side of the mark at the bore's wall, px. */
const CATCH = 8;
const MARK = 5;

export function BoreGrips({ view, tube, layout, axis, grip, inHand }: Props) {
  const { x, across, scale, sectionHalf } = layout;
  const strip = { y: axis - sectionHalf, height: 2 * sectionHalf, width: 2 * CATCH };
  const along = view.handles.filter(({ kind }) => kind === "station" || kind === "stopper");
  const widths = view.handles.filter(({ kind }) => kind === "stationWidth");
  return (
    <g>
      {along.map((handle) => {
        const isStopper = handle.kind === "stopper";
        const at = x(isStopper ? stopperAt(tube, handle) : handle.value);
        return (
          <g key={handle.path.join()}>
            {inHand?.path.join() === handle.path.join() && (
              <line x1={at} x2={at} y1={strip.y} y2={strip.y + strip.height} class="held-line" />
            )}
            <Hold
              {...strip}
              x={at - CATCH}
              class="catch"
              handle={handle}
              view={view}
              grip={grip}
              change={(dx) => ((isStopper ? -1 : 1) * dx) / scale}
            />
          </g>
        );
      })}
      {widths.map((handle) => {
        const at = tube.bore[handle.station]?.at ?? 0;
        // The last station's mark stays within the wood.
        const middle = x(at) + (handle.station === 0 ? MARK : handle.station === tube.bore.length - 1 ? -MARK : 0);
        return (
          <Hold
            key={handle.path.join()}
            x={middle - MARK}
            y={axis + (handle.value / 2) * across - MARK}
            width={2 * MARK}
            height={2 * MARK}
            class="station-grip"
            handle={handle}
            view={view}
            grip={grip}
            change={(_, dy) => (2 * dy) / across}
          />
        );
      })}
    </g>
  );
}

/** Where the air ends, on the axis. */
function stopperAt({ mouth }: TubeOutline, { value }: Handle): number {
  return mouth?.kind === "duct" || mouth?.kind === "two-chamber" ? mouth.window.from - value : -value;
}
