/** The sheet of a tube: section, view from above, dimensions and rows along one axis. */
import type { HoleOutline, TubeOutline } from "../../../server/src/protocol/boreView.js";
import { t } from "../../../server/src/words/translation.js";
import { tubeLayout } from "../layout/tubeLayout.js";
import { heldHandle } from "../state.js";
import { BoreGrips } from "./BoreGrips.js";
import { Dimensions } from "./Dimensions.js";
import { FromAbove } from "./FromAbove.js";
import { Hands } from "./Hands.js";
import { rowsHeight } from "./Rows.js";
import { Section } from "./Section.js";
import { Sheet, type SheetProps, SheetRows } from "./Sheet.js";

/** Heights between the parts, px. */
const ROW = 28;
const LABEL = 18;
const FINGERS = 16;
const BETWEEN = 26;
const DIMENSIONS = 46;
const HANDS = 26;

export function TubeSheet({ tube, ...sheet }: SheetProps & { tube: TubeOutline }) {
  const { view, state, rows, width, grip } = sheet;
  const inFile = state.file?.outline.body;
  const layout = tubeLayout(tube, width, view.section, inFile?.kind === "tube" ? inFile : undefined);
  const shown = rows[state.hovered ?? state.selected];
  const section = LABEL + Math.max(FINGERS + layout.sectionHalf, layout.sectionAbove + 2);
  const above = section + layout.sectionHalf + BETWEEN + layout.aboveHalf + FINGERS;
  const hands = above + layout.aboveHalf + HANDS;
  const dimensions = (view.fingers.length > 0 ? hands : above + layout.aboveHalf) + DIMENSIONS - 16;
  const top = dimensions + 22;
  const height = top + rowsHeight(rows, ROW) + 4;
  const { hole } = state;
  const old = state.trial !== undefined && inFile?.kind === "tube" ? inFile : undefined;
  const ghosts = (old?.holes ?? []).filter((was, i) => isMoved(was, tube.holes[i]));
  const [was, is] = [old?.bore.at(-1)?.at, tube.bore.at(-1)?.at];
  return (
    <Sheet
      width={layout.width}
      height={height}
      label={t`${view.outline.name ?? t("Instrument")}: section, view from above and fingerings`}
    >
      <text x={layout.x(tube.from)} y={12} class="small">
        {layout.enlarged === 1 ? t("Section, true shape") : t`Section, radius × ${layout.enlarged}`}
      </text>
      {shown?.wave && <text x={layout.width - 22} y={12} class="small end">{t`pressure in ${shown.note}`}</text>}
      <Section section={view.section} tube={tube} layout={layout} axis={section} row={shown} hole={hole} old={old} />
      <BoreGrips view={view} tube={tube} layout={layout} axis={section} grip={grip} inHand={heldHandle(state)} />
      <text x={layout.x(tube.from)} y={above - layout.aboveHalf - 9} class="small">
        {t("From above, true shape")}
      </text>
      <FromAbove
        view={view}
        tube={tube}
        layout={layout}
        axis={above}
        covers={shown?.covers ?? []}
        hole={hole}
        ghosts={ghosts}
        ghostEnd={was !== is ? was : undefined}
        grip={grip}
      />
      <Hands view={view} tube={tube} layout={layout} y={hands} hole={hole} />
      <Dimensions
        view={view}
        tube={tube}
        layout={layout}
        y={dimensions}
        hole={hole}
        from={above + layout.aboveHalf}
        to={top + 24}
      />
      <SheetRows
        sheet={sheet}
        layout={{
          top,
          height: ROW,
          left: 22,
          right: layout.width - 22,
          plot: layout.plot,
          hzAt: layout.hzAt,
          centsAt: layout.centsAt,
          holes: layout.columns.map((x) => ({ x, r: layout.circle })),
        }}
        names={tube.holes.map(({ name }) => name)}
        along
      />
    </Sheet>
  );
}

/** mm: nobody sees less. */
const SAME = 0.02;

function isMoved(was: HoleOutline, is: HoleOutline | undefined): boolean {
  if (is === undefined) return true;
  return [was.at - is.at, was.width - is.width, was.length - is.length].some((by) => Math.abs(by) > SAME);
}
