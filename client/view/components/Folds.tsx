/** Below the sheet, folded away until asked for: the response of the chosen note, and everything as tables. */
import { useEffect } from "preact/hooks";
import type { BoreViewData, Row } from "../../../server/src/protocol/boreView.js";
import { t } from "../../../server/src/words/translation.js";
import { type Fold, host } from "../host.js";
import { SolidView } from "../solid/SolidView.js";
import type { ViewState } from "../state.js";
import { Response } from "./Response.js";
import { Tables } from "./Tables.js";
import { useKept } from "./useKept.js";

interface Props {
  readonly view: BoreViewData;
  readonly state: ViewState;
  readonly rows: readonly Row[];
  readonly width: number;
  readonly onSelect: (row: number) => void;
}

export function Folds({ view, state, rows, width, onSelect }: Props) {
  const [open, setOpen] = useKept("open", []);
  const toggle = (fold: Fold, isOpen: boolean) => {
    if (isOpen !== open.includes(fold)) setOpen(isOpen ? [...open, fold] : open.filter((each) => each !== fold));
  };
  const row = rows[state.selected];
  const asksResponse = open.includes("response") && row !== undefined && state.trial === undefined;
  // Worked out only while it is looked at.
  useEffect(() => {
    if (asksResponse && state.response?.row !== state.selected) host.post({ type: "respond", row: state.selected });
  }, [asksResponse, state.selected, state.response]);
  return (
    <>
      <details open={open.includes("response")} onToggle={(event) => toggle("response", event.currentTarget.open)}>
        <summary>{t`Response of ${row?.note ?? t("the note")}`}</summary>
        {open.includes("response") && row && (
          <Response
            view={view}
            row={row}
            response={state.response?.row === state.selected ? state.response : undefined}
            width={width}
          />
        )}
      </details>
      <details open={open.includes("solid")} onToggle={(event) => toggle("solid", event.currentTarget.open)}>
        <summary>{t("Solid, to be turned and measured")}</summary>
        {open.includes("solid") && <SolidView version={view.version} />}
      </details>
      <details open={open.includes("tables")} onToggle={(event) => toggle("tables", event.currentTarget.open)}>
        <summary>{t("Tables of notes, holes and parts")}</summary>
        {open.includes("tables") && (
          <Tables
            view={view}
            rows={rows}
            onSelect={onSelect}
            onReveal={(line) => host.post({ type: "reveal", line })}
          />
        )}
      </details>
    </>
  );
}
