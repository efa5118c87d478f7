/** A change before it is made: its effect, what stands in the way of more, and what to do with it. */
import type { BoreViewData, ProposalAnswer } from "../../../server/src/protocol/boreView.js";
import { t } from "../../../server/src/words/translation.js";
import { countInWords, fingersInWords, worstInWords } from "../layout/comparison.js";
import { Prose } from "./Prose.js";

interface Props {
  readonly file: BoreViewData;
  readonly proposal: ProposalAnswer;
  readonly onApply: () => void;
  readonly onCompare: () => void;
  readonly onDiscard: () => void;
}

export function Proposal({ file, proposal, onApply, onCompare, onDiscard }: Props) {
  const { title, says, refused, view } = proposal;
  if (refused !== undefined || view === undefined)
    return (
      <section class="panel off" aria-label={t("What stands in its way")} role="alert">
        <p>
          <strong>{t`${title}: cannot be done.`}</strong>
        </p>
        <p>
          <Prose words={refused ?? ""} />
        </p>
        <div class="actions">
          <button type="button" onClick={onDiscard}>
            {t("Close")}
          </button>
        </div>
      </section>
    );
  const fingers = fingersInWords(file, view);
  return (
    <section class="panel" aria-label={t("Preview of a change")} aria-live="polite">
      <p>
        <strong>{t`Preview: ${title}`}</strong>
      </p>
      <p>{t`${worstInWords(file.rows, view.rows)} cents · ${countInWords(file.rows, view.rows)}`}</p>
      <p class="second">{fingers.length === 0 ? t("The fingers stay as far apart.") : fingers.join(" · ")}</p>
      {says.length > 0 && (
        <ul>
          {says.map((each) => (
            <li key={each}>
              <Prose words={each} />
            </li>
          ))}
        </ul>
      )}
      <div class="actions">
        <button type="button" class="primary" onClick={onApply}>
          {t("Apply to the text")}
        </button>
        <button type="button" onClick={onCompare}>
          {t("Compare texts")}
        </button>
        <button type="button" onClick={onDiscard}>
          {t("Discard")}
        </button>
      </div>
    </section>
  );
}
