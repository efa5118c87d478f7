/** The sheet of a vessel: section and holes at true shape, and circles as large as their holes, for only sizes sound. */
import type { VesselOutline } from "../../../server/src/protocol/boreView.js";
import { t } from "../../../server/src/words/translation.js";
import { length, number } from "../words.js";
import { Hold } from "./Hold.js";
import { rowsHeight } from "./Rows.js";
import { ScaleBar } from "./ScaleBar.js";
import { Sheet, type SheetProps, SheetRows } from "./Sheet.js";

const ROW = 30;
const DRAWING = 260;
/** Above the vessel: title, sizes, and the mouth's name, px. */
const TITLE = 58;
/** Below it: the scale bar. */
const BAR = 34;
const LARGEST = 4;
/** Radii of the holes' signs, px. */
const LEAST_SIGN = 3;
const MOST_SIGN = 10;
const COLUMN = 32;
/** Narrower columns have no room for the holes' widths, px. */
const SIZES_FROM = 30;
/** Half the least width in which a hole can be grabbed. */
const CATCH = 8;

export function VesselSheet({ vessel, ...sheet }: SheetProps & { vessel: VesselOutline }) {
  const { view, state, rows, width, grip } = sheet;
  const [rx, ry, rz] = vessel.semiAxes;
  const beside = width >= 760;
  const scale = Math.min(LARGEST, (DRAWING - 30) / (2 * (rx + vessel.wall)), (DRAWING - 60) / (2 * (rz + vessel.wall)));
  const middle = { x: 22 + DRAWING / 2, y: TITLE + (rz + vessel.wall) * scale };
  const drawn = middle.y + (rz + vessel.wall) * scale + BAR;
  const left = beside ? DRAWING + 60 : 22;
  const right = Math.min(width, 1160) - 22;
  const largest = Math.max(...vessel.holes.map(({ width: w, length: l }) => Math.sqrt(w * l)), 1);
  const columns = Math.min(COLUMN, (right - left - 230) / Math.max(1, vessel.holes.length));
  const circlesFrom = right - 70 - columns * vessel.holes.length;
  const top = beside ? 8 : drawn;
  const height = Math.max(drawn, top + rowsHeight(rows, ROW)) + 4;
  const shown = rows[state.hovered ?? state.selected];
  return (
    <Sheet width={right + 22} height={height} label={t`${view.outline.name ?? t("Vessel")}: section and fingerings`}>
      <text x={22} y={14} class="small">
        {t("Section through the holes, true shape")}
      </text>
      <text x={22} y={31} class="small">
        {t`Chamber ${[rz, rx, ry].map((half) => number(2 * half, view.unit)).join(" × ")}, wall ${length(vessel.wall, view)}`}
      </text>
      <ScaleBar right={22 + DRAWING} y={drawn - 18} scale={scale} />
      <ellipse
        cx={middle.x}
        cy={middle.y}
        rx={(rx + vessel.wall) * scale}
        ry={(rz + vessel.wall) * scale}
        class="wood"
      />
      <ellipse cx={middle.x} cy={middle.y} rx={rx * scale} ry={rz * scale} class="paper" />
      <ellipse cx={middle.x} cy={middle.y} rx={rx * scale} ry={rz * scale} class="air even" />
      <line
        x1={middle.x - (rx + vessel.wall) * scale - 8}
        x2={middle.x + (rx + vessel.wall) * scale + 8}
        y1={middle.y}
        y2={middle.y}
        class="axis"
      />
      {vessel.holes.map((hole, i) => {
        const cover = shown?.covers[i] ?? 0;
        const at = { x: middle.x + hole.point[0] * scale, y: middle.y - hole.point[1] * scale };
        const degrees = (Math.atan2(-hole.normal[1], hole.normal[0]) * 180) / Math.PI;
        const turn = (degrees * Math.PI) / 180;
        const half = (hole.width / 2) * scale;
        return (
          <g key={i} transform={`translate(${at.x} ${at.y}) rotate(${degrees})`}>
            <rect x={-1} y={-half} width={vessel.wall * scale + 2} height={2 * half} class="gap" />
            <path d={`M0,${-half}H${vessel.wall * scale}M0,${half}H${vessel.wall * scale}`} class="edge" />
            {cover > 0 && (
              <path
                d={`M${vessel.wall * scale},${-half - 2}Q${vessel.wall * scale + 12},0 ${vessel.wall * scale},${half + 2}Z`}
                class={cover === 1 ? "finger" : "finger half"}
              />
            )}
            {view.handles
              .filter((handle) => handle.hole === i)
              .map((handle) => (
                <Hold
                  key={handle.path.join()}
                  x={-2}
                  y={-Math.max(half, CATCH)}
                  width={vessel.wall * scale + 14}
                  height={2 * Math.max(half, CATCH)}
                  class="catch"
                  handle={handle}
                  view={view}
                  grip={grip}
                  change={(dx, dy) => (2 * (-dx * Math.sin(turn) + dy * Math.cos(turn))) / scale}
                />
              ))}
            <text
              transform={`translate(${vessel.wall * scale + 18} 0) rotate(${-degrees})`}
              class="small middle"
              dy={4}
            >
              {hole.name}
            </text>
          </g>
        );
      })}
      <path d={`M${middle.x - 8},${middle.y - (rz + vessel.wall / 2) * scale}h16`} class="mouth-mark" />
      <text x={middle.x} y={middle.y - (rz + vessel.wall) * scale - 4} class="small middle">
        {t("mouth")}
      </text>
      <SheetRows
        sheet={sheet}
        layout={{
          top,
          height: ROW,
          left,
          right,
          plot: { from: left + 48, to: circlesFrom - 24 },
          hzAt: undefined,
          centsAt: right,
          holes: vessel.holes.map((hole, i) => ({
            x: circlesFrom + (i + 0.5) * columns,
            r: Math.max(LEAST_SIGN, (MOST_SIGN * Math.sqrt(hole.width * hole.length)) / largest),
          })),
        }}
        names={vessel.holes.map(({ name }) => name)}
        sizes={columns >= SIZES_FROM ? vessel.holes.map((hole) => number(hole.width, view.unit)) : undefined}
        along={false}
      />
    </Sheet>
  );
}
