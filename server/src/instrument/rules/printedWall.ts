/** print/wall-too-thin, print/wall-lines, print/scale-leaves-lines: the wall as the printer lays it, in lines. */

import { t } from "../../words/translation.js";
import { DEFAULTS } from "../defaults.js";
import type { Finding, RuleCode } from "../finding.js";
import { atLeastText, DRAWN, drawnAtLeast, drawnAtMost } from "../lengthWords.js";
import { leastWallOf, lineWidthOf, nozzleOf } from "../making/makerLimits.js";
import { MADE_SLACK, type Making, type MakingRule, made, madeBeside, madeText } from "../making/making.js";

const TOO_THIN: RuleCode = "print/wall-too-thin";
const LINES: RuleCode = "print/wall-lines";
const SCALE: RuleCode = "print/scale-leaves-lines";

/** Share of a line by which a wall may miss whole ones: slicers stretch a line that far. Common practice, no source. */
const SHARE_OF_LINE = 0.1;
/** Thicker walls are filled between their outlines, and what is left over is spread. Common practice, no source. */
const MOST_LINES = 10;

/** The wall in file units, and its mm on the bed; undefined where the design states none. */
function wallOf({ draft, laidUnit }: Making): { readonly drawn: number; readonly laid: number } | undefined {
  return draft.wall === undefined ? undefined : { drawn: draft.wall, laid: draft.wall * laidUnit };
}

/** mm, and the words for it; undefined where it is not known. */
function leastWall(making: Making): { readonly mm: number; readonly why: string } | undefined {
  const least = leastWallOf(making.draft);
  if (least === undefined) return undefined;
  const lines = t`${DEFAULTS.airtightLines} lines of ${madeText(least.line, making, DRAWN)}`;
  return { mm: least.mm, why: least.stated ? "`print.leastWall`" : lines };
}

/** The wall is thick enough to be airtight. */
export const wallTooThin: MakingRule = {
  code: TOO_THIN,
  check: (making) => {
    const wall = wallOf(making);
    const least = leastWall(making);
    if (!making.isPrinted || wall === undefined || least === undefined) return [];
    if (wall.laid >= least.mm - MADE_SLACK) return [];
    const drawn = atLeastText(least.mm / making.laidUnit, making.draft);
    const [is, wanted] = madeBeside([made(wall.laid, making, DRAWN), made(least.mm, making, DRAWN)], making);
    const message = t`The wall prints ${is} thick; to be airtight it needs ${wanted} (${least.why}). A leak makes notes weak or silent. Draw it ${drawn} or thicker, or state what your printer can close: \`print.leastWall\`.`;
    const related = scaled(making)
      ? [{ path: ["print", "scale"], message: t("Walls shrink with the print scale") }]
      : [];
    return [{ code: TOO_THIN, severity: "warning", message, path: ["wall"], related }];
  },
};

interface Lines {
  /** Least and greatest width of a line, mm. */
  readonly least: number;
  readonly most: number;
  readonly words: string;
}

/** Undefined where the design states neither nozzle nor line. */
function linesOf(making: Making): Lines | undefined {
  const width = lineWidthOf(making.draft);
  if (width !== undefined) return { least: width, most: width, words: madeText(width, making, DRAWN) };
  const tip = nozzleOf(making.draft);
  if (tip === undefined || !tip.stated) return undefined;
  const [least, most] = DEFAULTS.lineInNozzles.map((share) => share * tip.mm) as [number, number];
  return { least, most, words: t`${madeText(least, making, DRAWN)} to ${madeText(most, making, DRAWN)}` };
}

/** Whole lines that make the wall; undefined where none do. */
function wholeLines(wall: number, { least, most }: Lines): number | undefined {
  const slack = SHARE_OF_LINE * least;
  const count = Math.max(1, Math.round(wall / ((least + most) / 2)));
  return [count, count - 1, count + 1].find((n) => n > 0 && wall >= n * least - slack && wall <= n * most + slack);
}

/** Nothing to report: whole lines, a thick wall, or one that is too thin anyway. */
function oddWall(making: Making): { readonly lines: Lines; readonly laid: number } | undefined {
  const wall = wallOf(making);
  const lines = linesOf(making);
  const least = leastWall(making);
  if (wall === undefined || lines === undefined || wholeLines(wall.laid, lines) !== undefined) return undefined;
  if (least !== undefined && wall.laid < least.mm - MADE_SLACK) return undefined;
  return wall.laid > MOST_LINES * lines.most ? undefined : { lines, laid: wall.laid };
}

/** As drawn the wall is whole lines, as printed it is not. */
function spoiltByScale(making: Making, lines: Lines): number | undefined {
  const drawn = making.draft.wall;
  return drawn === undefined || !scaled(making)
    ? undefined
    : wholeLines((drawn * making.laidUnit) / making.printScale, lines);
}

/** The wall is a whole number of printed lines. */
export const wallLines: MakingRule = {
  code: LINES,
  check: (making) => {
    const odd = oddWall(making);
    if (odd === undefined || spoiltByScale(making, odd.lines) !== undefined) return [];
    const message = t`The wall prints ${madeText(odd.laid, making, DRAWN)} thick, which is not a whole number of lines of ${odd.lines.words}: a gap stays inside it, or stray lines fill it. ${remedy(making, odd)}.`;
    return [{ code: LINES, severity: "information", message, path: ["wall"] }];
  },
};

/** Whole lines stay whole in the size printed. */
export const scaleLeavesLines: MakingRule = {
  code: SCALE,
  check: (making): readonly Finding[] => {
    const odd = oddWall(making);
    const whole = odd && spoiltByScale(making, odd.lines);
    if (odd === undefined || whole === undefined) return [];
    const percent = Number((making.printScale * 100).toPrecision(5));
    const message = t`At ${percent} % the wall prints ${madeText(odd.laid, making, DRAWN)} thick, not a whole number of lines of ${odd.lines.words}, where as drawn it is ${whole}. ${remedy(making, odd)}; or rekey by refit, which keeps the wall.`;
    return [
      {
        code: SCALE,
        severity: "information",
        message,
        path: ["print", "scale"],
        related: [{ path: ["wall"], message: t("The wall") }],
      },
    ];
  },
};

/** The nearest walls of whole lines, as they are to be drawn; the thinner one only where it is still airtight. */
function remedy(making: Making, { lines, laid }: { readonly lines: Lines; readonly laid: number }): string {
  const below = Math.floor(laid / lines.least);
  const { unit } = making.draft;
  const words = (drawn: number, n: number) =>
    n === 1 ? t`${drawn} ${unit} (1 line)` : t`${drawn} ${unit} (${n} lines)`;
  const thinner = drawnAtMost((below * lines.most) / making.laidUnit, making.draft);
  const thicker = words(drawnAtLeast(((below + 1) * lines.least) / making.laidUnit, making.draft), below + 1);
  const airtight = thinner * making.laidUnit >= (leastWall(making)?.mm ?? 0) - MADE_SLACK;
  return below > 0 && airtight ? t`Draw it ${words(thinner, below)} or ${thicker}` : t`Draw it ${thicker}`;
}

function scaled({ printScale }: Making): boolean {
  return Math.abs(printScale - 1) > 1e-9;
}
