/** What is too small to read in the whole: the mouth once more at a larger scale, and the joints. */
import type { DuctOutline, JointOutline, MouthOutline, TubeOutline } from "../../design/outline/outline.js";
import { scaleFor, wrapped } from "./frame.js";
import { type SectionPoint, tubeSection } from "./section.js";
import type { Pen, Point } from "./sheet.js";

/** mm of the tube beside the mouth that are shown, and at most so much of a long windway. */
const BESIDE = 6;
const MOST_WINDWAY = 14;
/** Signs in a line of its words. */
const LINE = 62;

/** Sizes in the file's unit. */
type Length = (mm: number) => string;

/** In a box of the sheet whose upper left corner is `at`. Nothing where the mouth has no sizes to show. */
export function drawMouthDetail(
  pen: Pen,
  tube: TubeOutline,
  [x0, y0]: Point,
  [width, height]: readonly [number, number],
  length: Length,
): void {
  const range = rangeOf(tube);
  if (range === undefined) return;
  const [from, to] = range;
  const { cut, others } = tubeSection(tube);
  const clip = (areas: readonly (readonly SectionPoint[])[]) =>
    areas.map((area) => above(beyond(area, from, to))).filter((area) => area.length > 2);
  const [walls, bodies] = [clip(cut), clip(others)];
  const top = Math.max(...[...walls, ...bodies].flat().map(([, y]) => y));
  const { factor, name } = scaleFor([to - from, top], [width, height], MOST_FACTOR);
  const at = ([z, y]: SectionPoint): Point => [x0 + (z - from) * factor, y0 + (top - y) * factor];
  for (const area of bodies) pen.area(area.map(at), "other-cut", "thin");
  for (const area of walls) pen.area(area.map(at), "cut");
  pen.line([at([from, 0]), at([to, 0])], "axis");
  for (const [i, line] of [`Mouth, front half, scale ${name}`, ...words(tube.mouth, length)].entries())
    pen.text([x0, y0 + top * factor + 6 + 4 * i], line, { size: 2.6 });
}

const MOST_FACTOR = 5;

function rangeOf({ mouth, from, to }: TubeOutline): readonly [number, number] | undefined {
  switch (mouth?.kind) {
    case "duct":
    case "two-chamber": {
      const { window, windway, labium } = mouth;
      const ramp = (windway.exitHeight + BESIDE) / Math.tan((labium.ramp * Math.PI) / 180);
      return [Math.max(from, windway.from, window.from - MOST_WINDWAY), Math.min(to, window.to + ramp)];
    }
    case "embouchure":
      return [Math.max(from, mouth.closedAt - BESIDE), Math.min(to, mouth.length / 2 + BESIDE)];
    case "rim":
      return mouth.notch === undefined ? undefined : [from, Math.min(to, from + 3 * mouth.notch.depth)];
    default:
      return undefined;
  }
}

function words(mouth: MouthOutline | undefined, length: Length): readonly string[] {
  switch (mouth?.kind) {
    case "duct":
    case "two-chamber":
      return ductWords(mouth, length);
    case "rim":
      return mouth.notch === undefined
        ? []
        : wrapped(
            `Notch ${length(mouth.notch.width)} wide, ${length(mouth.notch.depth)} deep, its slope ${mouth.notch.ramp}° to the axis, its edge ${length(mouth.notch.edge)} thick.`,
            LINE,
          );
    default:
      return [];
  }
}

export function ductWords(
  { window, windway, labium }: Pick<DuctOutline, "window" | "windway" | "labium">,
  length: Length,
): readonly string[] {
  const channel =
    windway.exitHeight > 0
      ? [
          `Windway ${length(windway.width)} wide, ${length(windway.exitHeight)} high at its exit, ${length(windway.entryHeight)} at its entry.`,
        ]
      : [];
  const edge = `Edge ${length(labium.high - labium.low)} thick, ${length(labium.low - windway.floor)} above the windway's floor; ramp ${labium.ramp}°, underside ${labium.relief}°.`;
  return [`Cut-up ${length(window.length)}, window ${length(window.width)} wide.`, ...channel, edge].flatMap((line) =>
    wrapped(line, LINE),
  );
}

/** Socket, shoulder and tenon's tip, thin, in front and behind. */
export function drawJoint(
  pen: Pen,
  { at, length, socketRadius, outerRadius }: JointOutline,
  bore: number,
  place: (point: SectionPoint) => Point,
): void {
  for (const side of [1, -1])
    pen.line(
      [
        [at, side * outerRadius],
        [at, side * socketRadius],
        [at - length, side * socketRadius],
        [at - length, side * bore],
      ].map(([z = 0, y = 0]) => place([z, y])),
    );
}

export function jointInWords(
  { at, length, radius, socketRadius, finish, groove }: JointOutline,
  inUnit: Length,
): string {
  const seal =
    groove === undefined
      ? ""
      : `, groove for ${finish} ${inUnit(groove.to - groove.from)} long and ${inUnit(groove.depth)} deep`;
  return `Joint at ${inUnit(at)}: tenon ${inUnit(length)} long, ⌀${inUnit(2 * radius)} in ⌀${inUnit(2 * socketRadius)}${seal}.`;
}

/** What of an area lies between two places along the axis. */
function beyond(area: readonly SectionPoint[], from: number, to: number): readonly SectionPoint[] {
  return half(
    half(area, ([z]) => z - from),
    ([z]) => to - z,
  );
}

/** What lies in front of the axis. */
function above(area: readonly SectionPoint[]): readonly SectionPoint[] {
  return half(area, ([, y]) => y);
}

/** What lies where `inside` is not negative (I. Sutherland, G. Hodgman, 1974, from memory). */
function half(area: readonly SectionPoint[], inside: (point: SectionPoint) => number): readonly SectionPoint[] {
  return area.flatMap((point, i) => {
    const before = area.at(i - 1) ?? point;
    const [a, b] = [inside(before), inside(point)];
    const share = a / (a - b);
    const crossing: SectionPoint[] =
      a < 0 === b < 0 ? [] : [[before[0] + share * (point[0] - before[0]), before[1] + share * (point[1] - before[1])]];
    return b < 0 ? crossing : [...crossing, point];
  });
}
