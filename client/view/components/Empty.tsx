/** Nothing can be drawn yet: what is missing, and a whole instrument to begin with. */
import { t } from "../../../server/src/words/translation.js";
import { host } from "../host.js";
import { Prose } from "./Prose.js";

export function Empty({ trouble }: { readonly trouble: string | undefined }) {
  if (trouble === undefined) return <p class="empty">{t("Drawing…")}</p>;
  return (
    <main class="empty">
      <p>
        <Prose words={trouble} />
      </p>
      <div class="actions">
        <button type="button" class="primary" onClick={() => host.post({ type: "new" })}>
          {t("New instrument, in tune from the start…")}
        </button>
      </div>
    </main>
  );
}
