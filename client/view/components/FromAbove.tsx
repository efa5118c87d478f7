/** The tube from above in its true shape: here hole sizes and finger spread can be trusted, and dragged. */
import type { BoreViewData, HoleOutline, TubeOutline } from "../../../server/src/protocol/boreView.js";
import type { TubeLayout } from "../layout/tubeLayout.js";
import { type Grip, Hold } from "./Hold.js";
import { ScaleBar } from "./ScaleBar.js";
import { outsideAt } from "./Section.js";

interface Props {
  readonly view: BoreViewData;
  readonly tube: TubeOutline;
  readonly layout: TubeLayout;
  readonly axis: number;
  readonly covers: readonly number[];
  readonly hole: number | undefined;
  /** Holes where they are in the text, while something else is shown. */
  readonly ghosts: readonly HoleOutline[];
  /** Where the tube ends in the text. */
  readonly ghostEnd: number | undefined;
  readonly grip: Grip;
}

/** Half the least width in which a hole can be grabbed, px. */
const CATCH = 12;
const WIDTH_GRIP = 4;
/** Between the scale bar and the sheet's edge; narrower sheets have a shorter bar, so that it keeps clear of the title beside it, px. */
const MARGIN = 22;
const NARROW = 420;
const SHORT_BAR = 45;

export function FromAbove({ view, tube, layout, axis, covers, hole, ghosts, ghostEnd, grip }: Props) {
  const { x, scale } = layout;
  const upper = tube.outside.map(([z, r]) => `${x(z).toFixed(1)},${(axis - r * scale).toFixed(1)}`);
  const lower = tube.outside.map(([z, r]) => `${x(z).toFixed(1)},${(axis + r * scale).toFixed(1)}`).reverse();
  const right = layout.x(tube.to);
  const places = view.handles.filter(({ kind }) => kind === "place" || kind === "foot");
  return (
    <g>
      <path d={`M${upper.join("L")}L${lower.join("L")}Z`} class="body" />
      <line x1={x(tube.from) - 8} x2={right + 12} y1={axis} y2={axis} class="axis" />
      <MouthFromAbove tube={tube} layout={layout} axis={axis} />
      {tube.holes.map((each, i) => (
        <HoleFromAbove
          key={i}
          hole={each}
          tube={tube}
          scale={scale}
          x={x}
          axis={axis}
          cover={covers[i] ?? 0}
          inHand={hole === i}
        />
      ))}
      {ghosts.map((ghost) => (
        <ellipse
          key={ghost.path.join()}
          cx={x(ghost.at)}
          cy={axis}
          rx={(ghost.length / 2) * scale}
          ry={(ghost.width / 2) * scale}
          class="ghost"
        />
      ))}
      {ghostEnd !== undefined && (
        <line
          x1={x(ghostEnd)}
          x2={x(ghostEnd)}
          y1={axis - layout.aboveHalf - 6}
          y2={axis + layout.aboveHalf + 6}
          class="ghost"
        />
      )}
      {places.map((handle) => {
        const half = handle.kind === "foot" ? CATCH : holeCatch(tube, handle.hole, scale);
        return (
          <Hold
            key={handle.path.join()}
            x={x(handle.value) - half}
            y={axis - layout.aboveHalf - 4}
            width={2 * half}
            height={2 * layout.aboveHalf + 8}
            class="catch"
            handle={handle}
            view={view}
            grip={grip}
            change={(dx) => dx / scale}
          />
        );
      })}
      {view.handles
        .filter((handle) => handle.kind === "width" && handle.hole === hole)
        .map((handle) => {
          const own = tube.holes[handle.hole];
          if (own === undefined) return null;
          // Beside the hole: what lies on it moves it.
          const at = x(own.at + own.length / 2) + 2 * WIDTH_GRIP;
          return (
            <Hold
              key={handle.path.join()}
              x={at - WIDTH_GRIP}
              y={axis - WIDTH_GRIP}
              width={2 * WIDTH_GRIP}
              height={2 * WIDTH_GRIP}
              class="width-grip"
              handle={handle}
              view={view}
              grip={grip}
              change={(dx) => (2 * dx) / scale}
              stays
            />
          );
        })}
      <ScaleBar
        right={layout.width - MARGIN}
        y={axis - layout.aboveHalf - 14}
        scale={scale}
        least={layout.width < NARROW ? SHORT_BAR : undefined}
      />
    </g>
  );
}

function holeCatch({ holes }: TubeOutline, i: number, scale: number): number {
  const hole = holes[i];
  if (hole === undefined) return CATCH;
  // Where holes are closer than a finger can separate, the space between is shared.
  const beside = holes.filter((_, k) => k !== i).map(({ at }) => Math.abs(at - hole.at) / 2);
  return Math.max(
    4,
    Math.min(Math.max(CATCH, (hole.length / 2) * scale), Math.min(...beside, Number.POSITIVE_INFINITY) * scale),
  );
}

function HoleFromAbove({
  hole,
  tube,
  scale,
  x,
  axis,
  cover,
  inHand,
}: {
  hole: HoleOutline;
  tube: TubeOutline;
  scale: number;
  x: (mm: number) => number;
  axis: number;
  cover: number;
  inHand: boolean;
}) {
  const turn = (hole.angle * Math.PI) / 180;
  const front = Math.cos(turn) > 0;
  const y = axis + outsideAt(tube, hole.at) * Math.sin(turn) * scale;
  const [rx, ry] = [(hole.length / 2) * scale, Math.max(1.5, (hole.width / 2) * scale * Math.abs(Math.cos(turn)))];
  const state = cover === 1 ? "closed" : "open";
  return (
    <g>
      <ellipse cx={x(hole.at)} cy={y} rx={rx} ry={ry} class={front ? `opening ${state}` : "opening behind"} />
      {front && cover > 0 && cover < 1 && (
        <path d={`M${x(hole.at)},${y - ry}A${rx},${ry} 0 0 0 ${x(hole.at)},${y + ry}Z`} class="opening closed" />
      )}
      {inHand && <ellipse cx={x(hole.at)} cy={y} rx={rx + 4} ry={ry + 4} class="ring" />}
    </g>
  );
}

function MouthFromAbove({ tube: { mouth }, layout: { x, scale }, axis }: Pick<Props, "tube" | "layout" | "axis">) {
  if (mouth === undefined || mouth.kind === "rim") return null;
  if (mouth.kind === "embouchure")
    return (
      <ellipse
        cx={x(0)}
        cy={axis}
        rx={(mouth.length / 2) * scale}
        ry={(mouth.width / 2) * scale}
        class="opening open"
      />
    );
  const { from, to, width } = mouth.window;
  const block = mouth.kind === "two-chamber" ? mouth.block : undefined;
  return (
    <g>
      {block && (
        <rect
          x={x(mouth.windway.to - block.length)}
          y={axis - (block.width / 2) * scale}
          width={block.length * scale}
          height={block.width * scale}
          class="block"
        />
      )}
      <rect
        x={x(from)}
        y={axis - (width / 2) * scale}
        width={(to - from) * scale}
        height={width * scale}
        class="opening open"
      />
    </g>
  );
}
