/** A dimensioned section of an instrument on one sheet, and, of a tube, the drilling template. */
import { boreRadiusAt } from "../../design/outline/bore.js";
import type { Outline, PipesOutline, TubeOutline, VesselOutline } from "../../design/outline/outline.js";
import { cautions, hasSmallParts } from "../solid/cautions.js";
import { drawJoint, drawMouthDetail, jointInWords } from "./detail.js";
import { drawRunning } from "./dimensions.js";
import { type Framed, framed, scaleFor, wrapped } from "./frame.js";
import { drawHoleTable, TABLE_WIDTH } from "./holeTable.js";
import { drawPipes } from "./pipesSheet.js";
import { tubeSection } from "./section.js";
import { type DrawOptions, lengthIn, type PaperName, type Point, type Sheet } from "./sheet.js";
import { templateSheets } from "./template.js";
import { drawVessel, vesselExtent } from "./vesselSheet.js";

/** The section first, then the sheets of the template. */
export function drawSheets(outline: Outline, options: DrawOptions): readonly Sheet[] {
  const { body } = outline;
  const name = outline.name ?? "Instrument";
  const templates = body.kind === "tube" && body.holes.length > 0 ? templateSheets(body, name, options) : [];
  const count = 1 + templates.length;
  return [sectionSheet(outline, name, options, `sheet 1 of ${count}`), ...templates];
}

/** Room on the sheet for the view, above its dimensions and the table, mm. */
const VIEW = { top: 12, height: 62, tallHeight: 110, margin: 12, dimensions: 12 } as const;

function sectionSheet(outline: Outline, name: string, options: DrawOptions, sheet: string): Sheet {
  const draw = SECTIONS[outline.body.kind] as (body: Outline["body"], ...rest: SectionRest) => Sheet;
  return draw(outline.body, outline, name, options, sheet);
}

type SectionRest = [outline: Outline, name: string, options: DrawOptions, sheet: string];
type Bodies = { readonly [K in Outline["body"]["kind"]]: Extract<Outline["body"], { kind: K }> };

const SECTIONS: { readonly [K in keyof Bodies]: (body: Bodies[K], ...rest: SectionRest) => Sheet } = {
  tube: (body, ...rest) =>
    longSheet(
      tubeExtent(body),
      VIEW.height,
      (view, frame, below, options) => tubeView(body, view, frame, below, options),
      ...rest,
    ),
  pipes: (body, ...rest) =>
    longSheet(
      pipesExtent(body),
      VIEW.tallHeight,
      (view, frame, below, options) => drawPipes(body, view.at, frame, below, options),
      ...rest,
    ),
  vessel: vesselSheet,
};

/** @param height room for the view, mm. @param drawn with the place below the view from which dimensions go on */
function longSheet(
  size: Extent,
  height: number,
  drawn: (view: View, frame: Framed, below: number, options: DrawOptions) => void,
  ...[outline, name, options, sheet]: SectionRest
): Sheet {
  const [width] = framedRoom(options.paper);
  const room = [width - 2 * VIEW.margin, height] as const;
  const { factor, name: scale } = scaleFor([size.to - size.from, size.up + size.down], room, Number.POSITIVE_INFINITY);
  const frame = framed(options.paper, { name, scale, what: "Section", unit: options.unitName, sheet });
  const x0 = frame.from[0] + (width - factor * (size.to - size.from)) / 2;
  const y0 = frame.from[1] + VIEW.top + size.up * factor;
  const view: View = { at: (z, y) => [x0 + (z - size.from) * factor, y0 - y * factor], factor };
  drawn(view, frame, y0 + size.down * factor, options);
  notes(frame, outline);
  return frame.finished();
}

function vesselSheet(body: VesselOutline, outline: Outline, name: string, options: DrawOptions, sheet: string): Sheet {
  const { size, paper } = vesselExtent(body);
  const [width] = framedRoom(options.paper);
  const room = [width - paper[0] - 2 * VIEW.margin, VIEW.tallHeight - paper[1]] as const;
  const { factor, name: scale } = scaleFor(size, room, Number.POSITIVE_INFINITY);
  const frame = framed(options.paper, { name, scale, what: "Section", unit: options.unitName, sheet });
  drawVessel(body, factor, frame, options);
  notes(frame, outline);
  return frame.finished();
}

function framedRoom(paper: PaperName): readonly [number, number] {
  const { from, to } = framed(paper, { name: "", scale: undefined, what: "", unit: "", sheet: "" });
  return [to[0] - from[0], to[1] - from[1]];
}

/** mm: room round the larger view of the mouth beside the table, and its height. */
const DETAIL = { left: 14, right: 8, height: 36 } as const;

interface View {
  readonly at: (z: number, y: number) => Point;
  readonly factor: number;
}

interface Extent {
  readonly from: number;
  readonly to: number;
  readonly up: number;
  readonly down: number;
}

function tubeExtent({ from, to, outside, mouth }: TubeOutline): Extent {
  const widest = Math.max(...outside.map(([, radius]) => radius));
  const block = mouth?.kind === "two-chamber" ? mouth.nest.height + mouth.block.height : 0;
  return { from, to, up: Math.max(widest, block), down: widest };
}

function pipesExtent({ pipes, wall }: PipesOutline): Extent {
  const [first, last] = [pipes[0], pipes.at(-1)];
  return {
    from: 0,
    to: Math.max(...pipes.map(({ to }) => to)),
    up: wall + (first?.diameter ?? 0) / 2,
    down: (last?.x ?? 0) + (last?.diameter ?? 0) / 2 + wall,
  };
}

function tubeView(
  tube: TubeOutline,
  view: View,
  { pen, from, to }: Framed,
  below: number,
  { unit, paper }: DrawOptions,
): void {
  const { cut, others } = tubeSection(tube);
  const placed = (points: readonly (readonly [number, number])[]) => points.map(([z, y]) => view.at(z, y));
  for (const area of others) pen.area(placed(area), "other-cut", "thin");
  for (const area of cut) pen.area(placed(area), "cut");
  const [a, b] = [view.at(tube.from - 4, 0), view.at(tube.to + 4, 0)];
  pen.line([a, b], "axis");
  for (const hole of tube.holes) {
    const reach = hole.boreRadius + hole.chimney + 2;
    const turn = Math.cos((hole.angle * Math.PI) / 180);
    pen.line([view.at(hole.at, turn * (hole.boreRadius - 2)), view.at(hole.at, turn * reach)], "axis");
  }
  for (const joint of tube.joints)
    drawJoint(pen, joint, boreRadiusAt(tube.bore, joint.at - joint.length), ([z, y]) => view.at(z, y));
  const length = lengthIn(unit);
  const edge = below + 1;
  const stations = tube.bore.map(({ at, diameter }) => ({ at, text: `${length(at)}  ⌀${length(diameter)}` }));
  const places = [
    { at: 0, text: "0" },
    ...(tube.from < -1e-9 ? [{ at: tube.from, text: length(tube.from) }] : []),
    ...stations.filter(({ at }) => Math.abs(at) > 1e-9),
    ...(Math.abs(tube.bore[0]?.at ?? 1) < 1e-9 ? [{ at: 0, text: `⌀${length(tube.bore[0]?.diameter ?? 0)}` }] : []),
    ...tube.holes.map(({ at, name }) => ({ at, text: `${name} ${length(at)}` })),
  ];
  drawRunning(
    pen,
    places.map(({ at, text }) => ({ x: view.at(at, 0)[0], from: edge, text })),
    below + VIEW.dimensions + 4,
  );
  // A line about joints stands below the values, too, which read upward.
  const lines = tube.joints.length > 0 ? 38 : 32;
  const table: Point = [from[0] + 8, below + VIEW.dimensions + lines];
  const room = paper === "A4" ? 10 : paper === "A3" ? 28 : 50;
  if (tube.holes.length > 0) drawHoleTable(pen, table, tube.holes, unit, room);
  const [x, y] = [from[0] + 8 + TABLE_WIDTH + DETAIL.left, table[1] - 4];
  drawMouthDetail(pen, tube, [x, y], [to[0] - x - DETAIL.right, DETAIL.height], length);
  const joints = tube.joints.map((joint) => jointInWords(joint, length)).join(" ");
  if (joints !== "") pen.text([from[0] + 8, table[1] - 12.5], joints, { size: 2.8 });
  pen.text([from[0] + 8, table[1] - 8], `Wall ${length(tube.wall)}. ${mouthInWords(tube, length)}`, { size: 2.8 });
}

function mouthInWords({ mouth }: TubeOutline, length: (mm: number) => string): string {
  switch (mouth?.kind) {
    case "duct":
    case "two-chamber": {
      const { window, windway } = mouth;
      const opening = `Window ${length(window.width)} wide, cut-up ${length(window.length)}`;
      if (windway.exitHeight <= 0) return `${opening}; the wall is too thin for a windway: it needs a head of its own.`;
      return `${opening}; windway ${length(windway.to - windway.from)} long, ${length(windway.exitHeight)} high at its exit.`;
    }
    case "embouchure":
      return `Embouchure hole ${length(mouth.length)} along, ${length(mouth.width)} across, chimney ${length(mouth.chimney)}${mouth.undercut > 0 ? `, at the bore ${length(mouth.undercut)} wider` : ""}; stopper's face at ${length(mouth.closedAt)}.`;
    case "rim":
      return mouth.notch === undefined
        ? "Plain rim."
        : `Notch ${length(mouth.notch.width)} wide, ${length(mouth.notch.depth)} deep.`;
    default:
      return "";
  }
}

/** Beside the table, above the title block. */
function notes({ pen, to, from }: Framed, outline: Outline): void {
  const lines = [
    ...outline.assumed.map((line) => `Assumed, as is usual: ${line.charAt(0).toLowerCase()}${line.slice(1)}.`),
    "The drawing is the instrument's size before the print scale.",
    ...cautions({ hasSmallParts: hasSmallParts(outline) }),
  ].flatMap((line) => wrapped(line, NOTE_SIGNS));
  const x = Math.max(from[0] + TABLE_WIDTH + 20, to[0] - NOTE_WIDTH);
  const y = to[1] - 3 - (lines.length - 1) * NOTE_STEP;
  for (const [i, line] of lines.entries()) pen.text([x, y + i * NOTE_STEP], line, { size: 2 });
}

const NOTE_SIGNS = 104;
const NOTE_WIDTH = 112;
const NOTE_STEP = 2.6;
