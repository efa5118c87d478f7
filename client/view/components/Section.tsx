/** The section through a tube, with the standing wave of the chosen note in its air. */
import type {
  Section as Cut,
  HoleOutline,
  Row,
  SectionPoint,
  TubeOutline,
} from "../../../server/src/protocol/boreView.js";
import { t } from "../../../server/src/words/translation.js";
import type { TubeLayout } from "../layout/tubeLayout.js";
import { waveShape } from "../layout/wavePath.js";

interface Props {
  /** What the cut shows, as the drawing has it. */
  readonly section: Cut | undefined;
  readonly tube: TubeOutline;
  readonly layout: TubeLayout;
  /** y of the axis. */
  readonly axis: number;
  readonly row: Row | undefined;
  readonly hole: number | undefined;
  /** The tube as in the text, while something else is shown. */
  readonly old: TubeOutline | undefined;
}

/** Height of a fingertip on a hole, px. */
const FINGER = 7;

export function Section({ section, tube, layout, axis, row, hole, old }: Props) {
  const { x, across } = layout;
  const y = (radius: number, side: number) => axis + side * radius * across;
  const outline = (points: readonly (readonly [number, number])[], side: number) =>
    points.map(([z, r]) => `${x(z).toFixed(1)},${y(r, side).toFixed(1)}`);
  const area = (points: readonly SectionPoint[]) =>
    `M${points.map(([z, up]) => `${x(z).toFixed(1)},${y(up, -1).toFixed(1)}`).join("L")}Z`;
  const wave = row?.wave && waveShape(row.wave, (share) => waveAt(tube, layout, share), axis);
  return (
    <g>
      {wave && <path d={wave.path} class="air" />}
      <path d={section?.cut.map(area).join("") ?? ""} class="wood" />
      {section?.others.map((points, i) => (
        <path key={i} d={area(points)} class="block" />
      ))}
      <SlowChamber tube={tube} layout={layout} axis={axis} />
      {tube.holes.map((each, i) => (
        <HoleGap
          key={i}
          hole={each}
          tube={tube}
          layout={layout}
          axis={axis}
          cover={row?.covers[i]}
          inHand={hole === i}
        />
      ))}
      {tube.joints.map(({ at, outerRadius }) => (
        <line key={at} x1={x(at)} x2={x(at)} y1={y(outerRadius, -1)} y2={y(outerRadius, 1)} class="joint" />
      ))}
      {old && isOtherBore(old, tube) && (
        <path d={[-1, 1].map((side) => `M${outline(boreOf(old), side).join("L")}`).join("")} class="ghost" />
      )}
      <line x1={x(tube.from) - 8} x2={x(tube.to) + 12} y1={axis} y2={axis} class="axis" />
      {wave?.nodes.map((share) => (
        <circle key={share} cx={waveAt(tube, layout, share).x} cy={axis} r={3.5} class="node" />
      ))}
    </g>
  );
}

function isOtherBore(a: TubeOutline, b: TubeOutline): boolean {
  return JSON.stringify(boreOf(a)) !== JSON.stringify(boreOf(b));
}

/** Bore as radii, from where the wood begins to where it ends. */
function boreOf({ bore, from, to }: TubeOutline): readonly (readonly [number, number])[] {
  const points = bore.map(({ at, diameter }) => [at, diameter / 2] as const);
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return [];
  return [[Math.min(from, first[0]), first[1]], ...points, [Math.max(to, last[0]), last[1]]];
}

export function radiusAt({ bore }: TubeOutline, at: number): number {
  return along(
    bore.map(({ at: z, diameter }) => [z, diameter / 2] as const),
    at,
  );
}

/** Outer radius at a place of the axis. */
export function outsideAt({ outside }: TubeOutline, at: number): number {
  return along(outside, at);
}

/** Radius between points of a profile; beyond its ends that of the end. */
function along(profile: readonly (readonly [number, number])[], at: number): number {
  const after = profile.findIndex(([z]) => z > at);
  const [a, b] = [profile[after - 1], profile[after]];
  if (a === undefined || b === undefined) return (after === 0 ? profile[0] : profile.at(-1))?.[1] ?? 0;
  return a[1] + ((at - a[0]) / (b[0] - a[0] || 1)) * (b[1] - a[1]);
}

function waveAt(tube: TubeOutline, { x, across }: TubeLayout, share: number) {
  const foot = tube.bore.at(-1)?.at ?? 0;
  const at = share * foot;
  return { x: x(at), half: 0.96 * radiusAt(tube, at) * across };
}

type Placed = Pick<Props, "tube" | "layout" | "axis">;

/** px that its name needs. */
const CHAMBER_NAME = 100;

/** The air before the plug of a two-chamber flute has no wave: it is labelled. */
function SlowChamber({ tube: { mouth }, layout: { x }, axis }: Placed) {
  if (mouth?.kind !== "two-chamber") return null;
  const [from, to] = [x(mouth.chamber.from), x(mouth.chamber.to)];
  if (to - from < CHAMBER_NAME) return null;
  return (
    <text x={(from + to) / 2} y={axis + 16} class="small middle">
      {t("slow air chamber")}
    </text>
  );
}

function HoleGap({
  hole,
  tube,
  layout,
  axis,
  cover,
  inHand,
}: Placed & { hole: HoleOutline; cover: number | undefined; inHand: boolean }) {
  const { x, across } = layout;
  const turn = ((hole.angle % 360) + 360) % 360;
  const side = turn > 90 && turn < 270 ? 1 : -1;
  const outer = outsideAt(tube, hole.at) + hole.raised;
  const [outside, inside] = [axis + side * outer * across, axis + side * radiusAt(tube, hole.at) * across];
  const [from, to] = [x(hole.at - hole.length / 2), x(hole.at + hole.length / 2)];
  const under = (hole.undercut / 2) * layout.scale;
  const finger = `M${from - 3},${outside}Q${(from + to) / 2},${outside + side * 2 * FINGER} ${to + 3},${outside}Z`;
  return (
    <g class={inHand ? "hole in-hand" : "hole"}>
      <path
        d={`M${from},${outside + side * 1.5}H${to}V${outside}L${to + under},${inside}V${inside - side * 1.5}H${from - under}V${inside}L${from},${outside}Z`}
        class="gap"
      />
      <path d={`M${from},${outside}L${from - under},${inside}M${to},${outside}L${to + under},${inside}`} class="edge" />
      {cover !== undefined && cover > 0 && <path d={finger} class={cover === 1 ? "finger" : "finger half"} />}
    </g>
  );
}
