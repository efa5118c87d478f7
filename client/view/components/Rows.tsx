/** One row a fingering: its note, how far it is off, and its circles below the holes that they close. */
import type { Handle, Reach, Row } from "../../../server/src/protocol/boreView.js";
import { decimal } from "../../../server/src/words/decimal.js";
import { t } from "../../../server/src/words/translation.js";
import { halfRange, place, scaleMarks } from "../layout/plot.js";
import { bare, reachText, rowLabel, signed } from "../words.js";
import { HoleSign } from "./HoleSign.js";

export interface RowsLayout {
  /** Top of the first row, and height of each, px. */
  readonly top: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly plot: { readonly from: number; readonly to: number };
  readonly hzAt: number | undefined;
  readonly centsAt: number;
  /** Middles of the holes' columns, and radii of their signs. */
  readonly holes: readonly { readonly x: number; readonly r: number }[];
}

interface Props {
  readonly rows: readonly Row[];
  /** As in the file, while something else is tried. */
  readonly before: readonly Row[] | undefined;
  readonly layout: RowsLayout;
  readonly selected: number;
  readonly sounding: number | undefined;
  readonly tolerance: number;
  readonly together: Reach | undefined;
  /** Whether the circles lie along the bore, so that the sounding length can be marked. */
  readonly along: boolean;
  readonly names: readonly string[];
  /** Written below the names. */
  readonly sizes?: readonly string[] | undefined;
  readonly handles: readonly Handle[];
  readonly hole: number | undefined;
  readonly onSelect: (row: number) => void;
  readonly onPlay: (row: number) => void;
  readonly onHover: (row: number | undefined) => void;
}

const HEAD = 46;
const GROUP_GAP = 10;

/** Height of head and rows, px. */
export function rowsHeight(rows: readonly Row[], height: number): number {
  return HEAD + rows.length * height + groups(rows).length * GROUP_GAP;
}

/** Rows before which another register begins. */
function groups(rows: readonly Row[]): readonly number[] {
  return rows.flatMap(({ register }, i) => (i > 0 && register !== rows[i - 1]?.register ? [i] : []));
}

export function Rows(props: Props) {
  const { rows, layout, tolerance, together, names, hole, handles } = props;
  const { top, height, plot, centsAt, hzAt, holes } = layout;
  const range = halfRange(props.before ?? rows, tolerance);
  const at = (cents: number) => place(cents, range, plot.from, plot.to);
  const breaks = groups(rows);
  const y = (i: number) => top + HEAD + (i + 0.5) * height + breaks.filter((each) => each <= i).length * GROUP_GAP;
  const bottom = y(rows.length - 1) + height / 2;
  const first = y(0) - height / 2;
  return (
    <g
      role="listbox"
      aria-label={t("Fingerings")}
      aria-activedescendant={`row-${props.selected}`}
      tabIndex={0}
      onKeyDown={(event) => onKey(event, props)}
    >
      <g class="head">
        {together !== undefined && <Together reach={together} at={at} y={top + 18} range={range} />}
        {scaleMarks(tolerance, at).map(({ cents, side }) => (
          <text key={cents} x={at(cents)} y={top + 38} class={`small ${side}`}>
            {cents === 0 ? "0" : bare(cents)}
          </text>
        ))}
        {hzAt && (
          <text x={hzAt} y={top + 38} class="small end">
            Hz
          </text>
        )}
        <text x={centsAt} y={top + 38} class="small end">
          {t("cents")}
        </text>
        {holes.map(({ x }, i) => (
          <text
            key={i}
            x={x}
            y={top + (props.sizes !== undefined || (i % 2 === 1 && crowded(holes, i)) ? 24 : 38)}
            class={hole === i ? "small middle strong" : "small middle"}
          >
            {names[i]}
            {handles.some((handle) => handle.hole === i && handle.kind === "place" && handle.formula !== undefined)
              ? " ="
              : ""}
          </text>
        ))}
        {props.sizes?.map((size, i) => (
          <text key={i} x={holes[i]?.x} y={top + 38} class="small middle">
            {size}
          </text>
        ))}
      </g>
      <rect
        x={at(-tolerance)}
        width={at(tolerance) - at(-tolerance)}
        y={first}
        height={bottom - first}
        class="tolerance"
      />
      <line x1={at(0)} x2={at(0)} y1={first} y2={bottom} class="zero" />
      {[-tolerance, tolerance].map((cents) => (
        <line key={cents} x1={at(cents)} x2={at(cents)} y1={first} y2={bottom} class="limit" />
      ))}
      {breaks.map((i) => (
        <line
          key={i}
          x1={layout.left}
          x2={layout.right}
          y1={y(i) - height / 2 - GROUP_GAP / 2}
          y2={y(i) - height / 2 - GROUP_GAP / 2}
          class="guide"
        />
      ))}
      {rows.map((row, i) => (
        <OneRow key={i} {...props} row={row} i={i} y={y(i)} at={at} old={props.before?.[i]} />
      ))}
    </g>
  );
}

function crowded(holes: RowsLayout["holes"], i: number): boolean {
  const here = holes[i]?.x ?? 0;
  return [holes[i - 1], holes[i + 1]].some((other) => other !== undefined && Math.abs(other.x - here) < 26);
}

/** How far all notes may lie off together, once, as a dimension over the axis. */
function Together({ reach, at, y, range }: { reach: Reach; at: (cents: number) => number; y: number; range: number }) {
  const [left, right] = [at(-Math.min(reach.below, range)), at(Math.min(reach.above, range))];
  return (
    <g>
      <title>{t("All notes together may lie this far off: mouth, air and print move them alike.")}</title>
      <path
        d={`M${left + 5},${y - 3}L${left},${y}L${left + 5},${y + 3}M${left},${y}H${right}M${right - 5},${y - 3}L${right},${y}L${right - 5},${y + 3}`}
        class="thin"
      />
      <text x={at(0)} y={y - 6} class="small middle">{t`all together ${reachText(reach)}`}</text>
    </g>
  );
}

interface RowProps extends Props {
  readonly row: Row;
  readonly old: Row | undefined;
  readonly i: number;
  readonly y: number;
  readonly at: (cents: number) => number;
}

function OneRow({ row, old, i, y, at, layout, selected, sounding, names, along, onSelect, onPlay, onHover }: RowProps) {
  const { left, right, height, hzAt, centsAt, holes } = layout;
  const firstOpen = row.covers.findIndex((cover) => cover < 1);
  const reach = holes[firstOpen < 0 ? holes.length - 1 : firstOpen]?.x;
  const start = (holes[0]?.x ?? 0) - 14;
  const none = row.cents === undefined ? [t("no such register")] : [];
  const hz = hzAt !== undefined && row.predictedHz !== undefined ? [decimal(row.predictedHz.toFixed(1))] : [];
  const cents = row.cents === undefined ? "–" : signed(row.cents);
  return (
    <g
      id={`row-${i}`}
      role="option"
      aria-selected={selected === i}
      aria-label={rowLabel(row, names, [row.note, ...none, ...hz, cents])}
      class={`row${selected === i ? " selected" : ""}${sounding === i ? " sounding" : ""}`}
      onClick={() => onSelect(i)}
      onDblClick={() => onPlay(i)}
      onPointerEnter={() => onHover(i)}
      onPointerLeave={() => onHover(undefined)}
    >
      <rect x={left - 16} y={y - height / 2} width={right - left + 32} height={height} rx={3} class="ground" />
      {selected === i && <path d={`M${left - 10},${y - 4}l6,4l-6,4Z`} class="pointer" />}
      <text x={left} y={y + 4.5} class="note">
        {row.note}
      </text>{" "}
      {row.cents === undefined ? (
        <text x={at(0)} y={y + 4} class="small middle">
          {t("no such register")}
        </text>
      ) : (
        <Deviation row={row} old={old} y={y} at={at} />
      )}
      {along && reach !== undefined && (
        <line x1={start} x2={firstOpen < 0 ? reach + 18 : reach} y1={y} y2={y} class="sounding-length" />
      )}
      {holes.map(({ x, r }, hole) => (
        <HoleSign key={hole} x={x} y={y} r={r} cover={row.covers[hole] ?? 0} first={along && hole === firstOpen} />
      ))}{" "}
      {hzAt && (
        <text x={hzAt} y={y + 4.5} class="value second end">
          {hz[0] ?? ""}
        </text>
      )}{" "}
      <text x={centsAt} y={y + 4.5} class={row.inTune ? "value end" : "value end strong"}>
        {cents}
      </text>
    </g>
  );
}

function Deviation({ row, old, y, at }: Pick<RowProps, "row" | "old" | "y" | "at">) {
  const cents = row.cents ?? 0;
  const x = at(cents);
  const { band } = row;
  const moved = old?.cents !== undefined && Math.abs(old.cents - cents) > 0.05;
  return (
    <g>
      {moved && old?.cents !== undefined && (
        <g>
          <line x1={at(old.cents)} x2={x} y1={y} y2={y} class="ghost" />
          <circle cx={at(old.cents)} cy={y} r={4} class="ghost" />
        </g>
      )}
      {band !== undefined && (
        <path
          d={`M${at(cents - band)},${y - 4}v8M${at(cents - band)},${y}H${at(cents + band)}M${at(cents + band)},${y - 4}v8`}
          class="whisker"
        />
      )}
      <Mark x={x} y={y} row={row} />
    </g>
  );
}

/** In tune a dot, in higher registers a diamond; out of tune a triangle that points flat or sharp. */
function Mark({ x, y, row }: { x: number; y: number; row: Row }) {
  if (!row.inTune) {
    const way = (row.cents ?? 0) > 0 ? 1 : -1;
    return <path d={`M${x - 5 * way},${y - 6}L${x + 6 * way},${y}L${x - 5 * way},${y + 6}Z`} class="mark off" />;
  }
  if (row.register === 1) return <circle cx={x} cy={y} r={4.5} class="mark" />;
  return <path d={`M${x},${y - 5.5}L${x + 5.5},${y}L${x},${y + 5.5}L${x - 5.5},${y}Z`} class="mark" />;
}

function onKey(event: KeyboardEvent, { rows, selected, onSelect, onPlay }: Props): void {
  const last = rows.length - 1;
  const to: Partial<Record<string, number>> = { ArrowUp: selected - 1, ArrowDown: selected + 1, Home: 0, End: last };
  const row = to[event.key];
  if (row !== undefined) onSelect(Math.max(0, Math.min(last, row)));
  else if (event.key === "Enter" || event.key === " ") onPlay(selected);
  else return;
  event.preventDefault();
  event.stopPropagation();
}
