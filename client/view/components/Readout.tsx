/**
 * Lines of constant height about the current item: the chosen note, the hole under the pointer, or what prevents drawing. Nothing below
 * them moves when their words change: a drawing that jumps under the pointer cannot be dragged.
 */
import type { BoreViewData, Handle, Row } from "../../../server/src/protocol/boreView.js";
import { t } from "../../../server/src/words/translation.js";
import type { Drag } from "../state.js";
import { length, rowDetails, rowHeadline } from "../words.js";
import { Prose } from "./Prose.js";

interface Props {
  readonly view: BoreViewData;
  readonly row: Row | undefined;
  readonly held: Handle | undefined;
  readonly drag: Drag | undefined;
  /** Why the text cannot be drawn at the moment. */
  readonly trouble: string | undefined;
  /** What is being worked out. */
  readonly working: string | undefined;
}

export function Readout({ view, row, held, drag, trouble, working }: Props) {
  if (trouble !== undefined)
    return (
      <div key="trouble" class="readout off" role="alert">
        <p>
          <Prose words={trouble} />
        </p>
        <p class="second">{t("Drawn from the earlier text.")}</p>
      </div>
    );
  if (working !== undefined)
    return (
      <div key="working" class="readout" role="status">
        <p>{working}</p>
        <progress aria-label={working} />
      </div>
    );
  const [headline, details] = drag ? dragged(view, drag) : held !== undefined ? ofHandle(view, held) : ofRow(view, row);
  return (
    <div key="told" class="readout" aria-live="polite">
      <p>{headline}</p>
      <p class="second">
        <Prose words={details} />
      </p>
    </div>
  );
}

function ofRow(view: BoreViewData, row: Row | undefined): readonly [string, string] {
  if (row === undefined) return [t("No fingering is listed yet."), ""];
  const [pitch = "", sure = ""] = rowDetails(row, view.together);
  return [pitch === "" ? rowHeadline(row) : `${rowHeadline(row)} · ${pitch}`, sure];
}

function ofHandle(view: BoreViewData, handle: Handle): readonly [string, string] {
  const headline = headlineOf(view, handle);
  if (handle.fixed) return [headline, t("It is fixed in the design, and stays.")];
  if (handle.refused !== undefined) return [headline, handle.refused];
  const keys = handle.kind === "stationWidth" || handle.kind === "width" ? "+ −" : t("← →, and + − for the width");
  return [
    headline,
    handle.moves === undefined ? t`Drag it, or use ${keys}.` : t`Drag it, or use ${keys}. It moves ${handle.moves}.`,
  ];
}

function headlineOf(view: BoreViewData, { kind, hole, name, value }: Handle): string {
  const { body } = view.outline;
  const size = length(value, view);
  if (kind === "foot") return t`The bore ends at ${size}.`;
  if (kind === "station") return t`The bore's ${name} lies at ${size}.`;
  if (kind === "stationWidth") return t`At its ${name} the bore is ${size} wide.`;
  if (kind === "stopper")
    return hole < 0 ? t`The air ends ${size} upstream of the mouth.` : t`${name} is ${size} long.`;
  const here = body.kind === "pipes" ? undefined : body.holes[hole];
  if (body.kind !== "tube" || here === undefined || !("at" in here)) return t`${name} is ${size} wide.`;
  const before = body.holes[hole - 1];
  const apart = before === undefined ? "" : t`, ${length(here.at - before.at, view)} from ${before.name}`;
  return t`${here.name} at ${length(here.at, view)}${apart}, ${length(here.width, view)} wide`;
}

function dragged(view: BoreViewData, { handle, value, refused, stopped }: Drag): readonly [string, string] {
  const by = value - handle.value;
  const isWidth = handle.kind === "width" || handle.kind === "stationWidth";
  const size = length(value, view);
  const what = isWidth ? t`${handle.name} ${size} wide` : t`${handle.name} at ${size}`;
  const change = `${by < 0 ? "−" : "+"}${length(Math.abs(by), view)}`;
  if (refused !== undefined) return [`${what} (${change})`, refused];
  return [
    `${what} (${change})`,
    stopped
      ? t("It stops here: a neighbour, an end or a limit of the design is in the way.")
      : handle.moves === undefined
        ? t("Release to write it into the text; Escape leaves it.")
        : t`Release to write it into the text; Escape leaves it. It moves ${handle.moves}.`,
  ];
}
