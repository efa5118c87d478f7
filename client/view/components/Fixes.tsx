/** Fixes offered for the chosen note; each is shown before it is made. */
import { t } from "../../../server/src/words/translation.js";

interface Props {
  readonly note: string;
  readonly titles: readonly string[];
  readonly onChoose: (title: string) => void;
  readonly onClose: () => void;
}

export function Fixes({ note, titles, onChoose, onClose }: Props) {
  return (
    <section class="panel" aria-label={t`Fixes of ${note}`}>
      <p>
        {titles.length === 0
          ? t`No single change puts ${note} right without breaking a limit.`
          : t`To put ${note} right:`}
      </p>
      <div class="actions column">
        {titles.map((title) => (
          <button type="button" key={title} onClick={() => onChoose(title)}>
            {title}
          </button>
        ))}
        <button type="button" onClick={onClose}>
          {t("Close")}
        </button>
      </div>
    </section>
  );
}
