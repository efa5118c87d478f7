/** Two lines of constant height about what is in hand: the chosen note, or the hole under the pointer. */
import type { BoreViewData, Row } from "../../../server/src/protocol/boreView.js";
import type { Drag } from "../state.js";
import { length, rowDetails, rowHeadline } from "../words.js";

interface Props {
  readonly view: BoreViewData;
  readonly row: Row | undefined;
  readonly hole: number | undefined;
  readonly drag: Drag | undefined;
}

export function Readout({ view, row, hole, drag }: Props) {
  const [headline, details] = drag ? dragged(view, drag) : hole !== undefined ? ofHole(view, hole) : ofRow(view, row);
  return (
    <div class="readout" aria-live="polite">
      <p>{headline}</p>
      <p class="second">{details}</p>
    </div>
  );
}

function ofRow(view: BoreViewData, row: Row | undefined): readonly [string, string] {
  if (row === undefined) return ["No fingering is listed yet.", ""];
  const [pitch = "", sure = ""] = rowDetails(row, view.together);
  return [pitch === "" ? rowHeadline(row) : `${rowHeadline(row)} · ${pitch}`, sure];
}

function ofHole(view: BoreViewData, hole: number): readonly [string, string] {
  const { body } = view.outline;
  if (body.kind !== "tube") return ["", ""];
  const handle = view.handles.find((each) => each.hole === hole && each.kind !== "width");
  const here = body.holes[hole];
  if (here === undefined || handle === undefined)
    return [`The bore ends at ${length(body.bore.at(-1)?.at ?? 0, view)}.`, "Drag it, or use the arrow keys."];
  const before = body.holes[hole - 1];
  const apart = before === undefined ? "" : `, ${length(here.at - before.at, view)} from ${before.name}`;
  const headline = `${here.name} at ${length(here.at, view)}${apart}, ${length(here.width, view)} wide`;
  if (handle.fixed) return [headline, "It is fixed in the design, and stays."];
  const formula =
    handle.formula === undefined ? "" : ` It lies at =${handle.formula.trim()}: moving it adds to the formula.`;
  return [headline, `Drag it, or use ← → to move and + − to size it.${formula}`];
}

function dragged(view: BoreViewData, { handle, value, refused, stopped }: Drag): readonly [string, string] {
  const by = value - handle.value;
  const what =
    handle.kind === "width" ? `${handle.name} ${length(value, view)} wide` : `${handle.name} at ${length(value, view)}`;
  const change = `${by < 0 ? "−" : "+"}${length(Math.abs(by), view)}`;
  if (refused !== undefined) return [`${what} (${change})`, refused];
  return [
    `${what} (${change})`,
    stopped
      ? "Here it stops: a neighbour, an end or a limit of the design is in the way."
      : "Release to write it into the text; Escape leaves it.",
  ];
}
