/** All numbers of the sheet as tables: for those who read rather than look, and to copy from. */
import type { BoreViewData, Handle, HoleOutline, Row } from "../../../server/src/protocol/boreView.js";
import { decimal } from "../../../server/src/words/decimal.js";
import { t } from "../../../server/src/words/translation.js";
import { fingeringSigns, fingeringWords, number, signed } from "../words.js";

interface Props {
  readonly view: BoreViewData;
  readonly rows: readonly Row[];
  readonly onSelect: (row: number) => void;
  readonly onReveal: (line: number) => void;
}

export function Tables({ view, rows, onSelect, onReveal }: Props) {
  const { body } = view.outline;
  const names = body.kind === "pipes" ? [] : body.holes.map(({ name }) => name);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways must be reached by keys.
    <section class="scrolls" aria-label={t("Tables")} tabIndex={0}>
      <NotesTable view={view} rows={rows} names={names} onSelect={onSelect} />
      {body.kind === "tube" && body.holes.length > 0 && (
        <HolesTable view={view} holes={body.holes} onReveal={onReveal} />
      )}
      {view.bed !== undefined && <PartsTable bed={view.bed} />}
    </section>
  );
}

function NotesTable({ view, rows, names, onSelect }: Omit<Props, "onReveal"> & { names: readonly string[] }) {
  return (
    <table>
      <caption>{t`Notes, within ±${view.tolerance} cents in tune`}</caption>
      <thead>
        <tr>
          <th scope="col">{t("note")}</th>
          <th scope="col">{t("register")}</th>
          {names.length > 0 && (
            <th scope="col" title={names.join(" ")}>
              {t("fingering")}
            </th>
          )}
          <th scope="col" class="end">
            {t("target Hz")}
          </th>
          <th scope="col" class="end">
            {t("predicted Hz")}
          </th>
          <th scope="col" class="end">
            {t("cents")}
          </th>
          <th scope="col" class="end">
            {t("good to ±")}
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row, i) => (
          <tr key={row.path.join(".")}>
            <th scope="row">
              <button type="button" class="link" onClick={() => onSelect(i)}>
                {row.note}
              </button>
            </th>
            <td>{row.register}</td>
            {names.length > 0 && (
              <td class="signs" aria-label={fingeringWords(row.covers, names).join(", ")}>
                {fingeringSigns(row.covers)}
              </td>
            )}
            <td class="end">{row.targetHz === undefined ? "–" : decimal(row.targetHz.toFixed(1))}</td>
            <td class="end">{row.predictedHz === undefined ? t("none") : decimal(row.predictedHz.toFixed(1))}</td>
            <td class="end">
              {row.cents === undefined ? "–" : signed(row.cents)}
              {row.inTune || row.cents === undefined ? "" : row.cents > 0 ? ` ${t("sharp")}` : ` ${t("flat")}`}
            </td>
            <td class="end">{row.band?.toFixed(0) ?? "–"}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

interface HolesProps {
  readonly view: BoreViewData;
  readonly holes: readonly HoleOutline[];
  readonly onReveal: (line: number) => void;
}

function HolesTable({ view, holes, onReveal }: HolesProps) {
  const { unit, fingers } = view;
  const reach = (i: number) => fingers.find(({ to, thumb }) => to === i && !thumb);
  return (
    <table>
      <caption>{t`Holes as drawn, fingers as printed, ${unit.name}`}</caption>
      <thead>
        <tr>
          {[
            t("hole"),
            t("place"),
            t("across"),
            t("along"),
            t("through the wall"),
            t("angle"),
            t("from the finger before"),
          ].map((title, i) => (
            <th scope="col" key={title} class={i === 0 ? "" : "end"}>
              {title}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {holes.map((hole, i) => {
          const span = reach(i);
          return (
            <tr key={i}>
              <th scope="row">
                <button type="button" class="link" onClick={() => onReveal(lineOf(view.handles, i))}>
                  {hole.name}
                </button>
              </th>
              <td class="end">{number(hole.at, unit)}</td>
              <td class="end">{number(hole.width, unit)}</td>
              <td class="end">{number(hole.length, unit)}</td>
              <td class="end">{number(hole.chimney, unit)}</td>
              <td class="end">{hole.angle.toFixed(0)}°</td>
              <td class="end">
                {span === undefined
                  ? "–"
                  : `${decimal(number(span.apart, unit))}${span.far ? t` (reach ${number(span.most, unit)})` : ""}${span.near ? t` (needs ${number(span.least, unit)})` : ""}`}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

function lineOf(handles: readonly Handle[], hole: number): number {
  return handles.find((handle) => handle.hole === hole)?.lines[0] ?? 0;
}

/** Pixels of the longest thing in the picture of parts beside the bed. */
const BAR = 160;

function PartsTable({ bed: { sides, parts } }: { readonly bed: NonNullable<BoreViewData["bed"]> }) {
  const longest = Math.max(...sides, ...parts.map(({ length }) => length));
  const px = (mm: number) => (BAR * mm) / longest;
  const side = Math.max(...sides);
  return (
    <table>
      <caption>{t`Parts on a bed of ${sides.map((each) => each.toFixed(0)).join(" × ")} mm`}</caption>
      <thead>
        <tr>
          <th scope="col">{t("part")}</th>
          <th scope="col" class="end">
            {t("length, mm")}
          </th>
          <th scope="col">{t("on the bed")}</th>
          <th scope="col" aria-label={t("Length beside the bed's longest side")} />
        </tr>
      </thead>
      <tbody>
        {parts.map(({ name, length, words, fits }) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td class="end">{decimal(length.toFixed(1))}</td>
            <td>
              {fits ? "" : "△ "}
              {words}
            </td>
            <td>
              <svg width={BAR + 4} height="14" aria-hidden="true">
                <rect x="1" y="4" width={px(length)} height="6" class={fits ? "bar" : "bar off"} />
                <path d={`M${1 + px(side)},0V14`} class="thin" />
              </svg>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
