/** The sheet of a pan pipe: tubes hang at true shape from the line of mouths, each mark stands above its pipe. */
import type { PipesOutline, Row } from "../../../server/src/protocol/boreView.js";
import { t } from "../../../server/src/words/translation.js";
import { halfRange, place } from "../layout/plot.js";
import { waveShape } from "../layout/wavePath.js";
import { bare, number, reachText, rowLabel, signed } from "../words.js";
import { Hold } from "./Hold.js";
import { ScaleBar } from "./ScaleBar.js";
import { Sheet, type SheetProps } from "./Sheet.js";

const PLOT = 120;
const NAMES = 44;
const LEFT = 64;
/** Pixels of a millimetre at most: a low set of pipes scrolls. */
const LARGEST = 3.4;

export function PipesSheet({ pipes, ...sheet }: SheetProps & { pipes: PipesOutline }) {
  const { view, state, rows, width, grip, onSelect, onPlay, onHoverRow } = sheet;
  const first = pipes.pipes[0];
  const last = pipes.pipes.at(-1);
  if (first === undefined || last === undefined) return null;
  const from = first.x - first.diameter / 2 - pipes.wall;
  const to = last.x + last.diameter / 2 + pipes.wall;
  const scale = Math.min(LARGEST, (Math.min(width, 720) - LEFT - 90) / (to - from));
  const x = (mm: number) => LEFT + (mm - from) * scale;
  const mouths = PLOT + NAMES + 20;
  const y = (mm: number) => mouths + mm * scale;
  const height = y(Math.max(...pipes.pipes.map((pipe) => pipe.to))) + 16;
  const range = halfRange(rows, view.tolerance);
  const at = (cents: number) => place(-cents, range, 8, PLOT);
  const [left, right] = [x(from), x(to)];
  const shown = state.hovered ?? state.selected;
  return (
    <Sheet width={right + 90} height={height} label={t("Pipes and their notes")}>
      <rect
        x={left}
        width={right - left}
        y={at(view.tolerance)}
        height={at(-view.tolerance) - at(view.tolerance)}
        class="tolerance"
      />
      <line x1={left} x2={right} y1={at(0)} y2={at(0)} class="zero" />
      {[-view.tolerance, 0, view.tolerance].map((cents) => (
        <text key={cents} x={left - 8} y={at(cents) + 4} class="small end">
          {cents === 0 ? "0" : bare(cents)}
        </text>
      ))}
      <text x={left - 8} y={14} class="small end">
        {t("sharp")}
      </text>
      <text x={left - 8} y={PLOT + 4} class="small end">
        {t("flat")}
      </text>
      {view.together !== undefined && (
        <text x={right + 8} y={at(0) + 4} class="small">{t`together ${reachText(view.together)}`}</text>
      )}
      <line x1={left - 10} x2={right + 10} y1={y(0)} y2={y(0)} class="axis" />
      {/* Right below, where the pipes are short. */}
      <ScaleBar right={right} y={height - 12} scale={scale} />
      <g
        role="listbox"
        aria-label={t("Pipes")}
        tabIndex={0}
        onKeyDown={(event) => onKey(event, rows.length, state.selected, onSelect, onPlay)}
      >
        {pipes.pipes.map((pipe, i) => {
          const row = rows[i];
          const middle = x(pipe.x);
          const half = (pipe.diameter / 2) * scale;
          const wave =
            row?.wave && shown === i
              ? waveShape(row.wave, (share) => ({ x: y(share * pipe.length), half }), 0)
              : undefined;
          const cents = row?.cents;
          return (
            <g
              key={i}
              id={`row-${i}`}
              role="option"
              aria-selected={state.selected === i}
              aria-label={row && rowLabel(row, [], written(row, number(pipe.length, view.unit)))}
              class={`row pipe${state.selected === i ? " selected" : ""}`}
              onClick={() => onSelect(i)}
              onDblClick={() => onPlay(i)}
              onPointerEnter={() => onHoverRow(i)}
              onPointerLeave={() => onHoverRow(undefined)}
            >
              <rect x={middle - half - 1} y={0} width={2 * half + 2} height={mouths - 12} class="ground" />
              {wave && <path d={wave.path} class="air" transform={`matrix(0 1 1 0 ${middle} 0)`} />}
              {[-1, 1].map((side) => (
                <rect
                  key={side}
                  x={middle + (side < 0 ? -half - pipes.wall * scale : half)}
                  y={y(0)}
                  width={pipes.wall * scale}
                  height={y(pipe.to) - y(0)}
                  class="wood"
                />
              ))}
              <rect
                x={middle - half}
                y={y(pipe.length)}
                width={2 * half}
                height={Math.max(2, y(pipe.to) - y(pipe.length))}
                class="block"
              />
              {row && cents !== undefined && (
                <g>
                  {row.band !== undefined && (
                    <path
                      d={`M${middle - 4},${at(cents + row.band)}h8M${middle},${at(cents + row.band)}V${at(cents - row.band)}M${middle - 4},${at(cents - row.band)}h8`}
                      class="whisker"
                    />
                  )}
                  {row.inTune ? (
                    <circle cx={middle} cy={at(cents)} r={4.5} class="mark" />
                  ) : (
                    <path
                      d={
                        cents > 0
                          ? `M${middle - 6},${at(cents) + 5}h12l-6,-11Z`
                          : `M${middle - 6},${at(cents) - 5}h12l-6,11Z`
                      }
                      class="mark off"
                    />
                  )}
                </g>
              )}
              <text x={middle} y={PLOT + 24} class={state.selected === i ? "middle strong" : "middle"}>
                {row?.note}
              </text>{" "}
              <text x={middle} y={PLOT + 42} class="small middle">
                {cents === undefined ? "–" : signed(cents)}
              </text>{" "}
              <text
                x={middle}
                y={y(pipe.length) - 8}
                class="small"
                transform={`rotate(-90 ${middle} ${y(pipe.length) - 8})`}
                dy={4}
              >
                {number(pipe.length, view.unit)}
              </text>
            </g>
          );
        })}
      </g>
      {view.handles.map((handle) => {
        const pipe = pipes.pipes[handle.hole];
        if (pipe === undefined) return null;
        const half = (pipe.diameter / 2) * scale;
        return (
          <Hold
            key={handle.path.join()}
            x={x(pipe.x) - half}
            y={y(handle.value) - CATCH}
            width={2 * half}
            height={2 * CATCH}
            class="catch"
            handle={handle}
            view={view}
            grip={grip}
            change={(_, dy) => dy / scale}
          />
        );
      })}
    </Sheet>
  );
}

function written({ note, cents }: Row, long: string): readonly string[] {
  return [note, cents === undefined ? "–" : signed(cents), long];
}

/** Half the height in which a stopper can be grabbed, px. */
const CATCH = 10;

function onKey(
  event: KeyboardEvent,
  count: number,
  selected: number,
  onSelect: (row: number) => void,
  onPlay: (row: number) => void,
): void {
  const to: Partial<Record<string, number>> = {
    ArrowLeft: selected - 1,
    ArrowRight: selected + 1,
    Home: 0,
    End: count - 1,
  };
  const row = to[event.key];
  if (row !== undefined) onSelect(Math.max(0, Math.min(count - 1, row)));
  else if (event.key === "Enter" || event.key === " ") onPlay(selected);
  else return;
  event.preventDefault();
}
