/** The section through a tube, with the standing wave of the chosen note in its air. */
import type { HoleOutline, MouthOutline, Row, TubeOutline } from "../../../server/src/protocol/boreView.js";
import type { TubeLayout } from "../layout/tubeLayout.js";
import { waveShape } from "../layout/wavePath.js";

interface Props {
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

export function Section({ tube, layout, axis, row, hole, old }: Props) {
  const { x, across } = layout;
  const y = (radius: number, side: number) => axis + side * radius * across;
  const outline = (points: readonly (readonly [number, number])[], side: number) =>
    points.map(([z, r]) => `${x(z).toFixed(1)},${y(r, side).toFixed(1)}`);
  const bore = boreOf(tube);
  const wall = (side: number) => {
    const inner = outline(bore, side).reverse();
    return `M${outline(tube.outside, side).join("L")}L${inner.join("L")}Z`;
  };
  const wave = row?.wave && waveShape(row.wave, (share) => waveAt(tube, layout, share), axis);
  return (
    <g>
      {wave && <path d={wave.path} class="air" />}
      <path d={wall(-1)} class="wood" />
      <path d={wall(1)} class="wood" />
      {tube.foot === "stopped" && <StoppedFoot tube={tube} layout={layout} axis={axis} />}
      {tube.mouth && <Mouth mouth={tube.mouth} tube={tube} layout={layout} axis={axis} />}
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

function StoppedFoot({ tube, layout: { x, across }, axis }: Placed) {
  const last = tube.bore.at(-1);
  if (last === undefined) return null;
  const half = (last.diameter / 2) * across;
  const thick = Math.max(4, (tube.to - last.at) * across);
  return <rect x={x(last.at)} y={axis - half} width={thick} height={2 * half} class="block" />;
}

function Mouth({ mouth, tube, layout, axis }: Placed & { mouth: MouthOutline }) {
  const { x, across } = layout;
  const up = (radius: number) => axis - radius * across;
  const outer = outsideAt(tube, 0);
  if (mouth.kind === "embouchure") {
    const { length, boreRadius, stopper } = mouth;
    return (
      <g>
        <Gap from={x(-length / 2)} to={x(length / 2)} top={up(outer)} bottom={up(boreRadius)} />
        {stopper && <Block from={x(stopper.from)} to={x(stopper.to)} half={stopper.radius * across} axis={axis} />}
      </g>
    );
  }
  if (mouth.kind === "rim") {
    const { notch } = mouth;
    const from = x(tube.from);
    if (notch === undefined) return null;
    const edge = x(tube.from + notch.depth);
    return <path d={`M${from - 1},${up(outer) - 1}H${edge}L${from - 1},${up(radiusAt(tube, 0)) + 1}Z`} class="cut" />;
  }
  const { window, windway, labium } = mouth;
  const block = mouth.kind === "duct" ? mouth.block : mouth.plug;
  const ramp = (outer - labium.low) / Math.tan((labium.ramp * Math.PI) / 180);
  return (
    <g>
      <path
        d={`M${x(windway.from)},${up(windway.floor + windway.entryHeight)}L${x(windway.to)},${up(windway.floor + windway.exitHeight)}V${up(windway.floor)}H${x(windway.from)}Z`}
        class="cut"
      />
      <Gap from={x(window.from)} to={x(window.to)} top={up(outer)} bottom={up(radiusAt(tube, 0))} />
      <path
        d={`M${x(labium.at)},${up(labium.high)}L${x(labium.at + ramp)},${up(outer)}H${x(labium.at)}Z`}
        class="cut"
      />
      <Block from={x(block.from)} to={x(block.to)} half={block.radius * across} axis={axis} />
    </g>
  );
}

function Block({ from, to, half, axis }: { from: number; to: number; half: number; axis: number }) {
  return <rect x={from} y={axis - half} width={Math.max(1, to - from)} height={2 * half} class="block" />;
}

function Gap({ from, to, top, bottom }: { from: number; to: number; top: number; bottom: number }) {
  return (
    <g>
      <rect x={from} y={top - 1.5} width={to - from} height={bottom - top + 3} class="gap" />
      <line x1={from} x2={from} y1={top} y2={bottom} class="edge" />
      <line x1={to} x2={to} y1={top} y2={bottom} class="edge" />
    </g>
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
