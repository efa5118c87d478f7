/** Which instrument of a file a command means. */
import { l10n, window } from "vscode";
import { plainText } from "./plainText.js";
import type { InstrumentSummary } from "./requests.js";

/** The one of that index, the only one, or the one the maker picks; undefined where none is picked. @param title of the command */
export async function chooseInstrument(
  instruments: readonly InstrumentSummary[],
  title: string,
  index?: number,
): Promise<InstrumentSummary | undefined> {
  const known = instruments.find(({ documentIndex }) => documentIndex === index);
  if (known !== undefined) return known;
  const [only, ...others] = instruments;
  if (only === undefined) throw new Error("there is no instrument in this file yet");
  if (others.length === 0) return only;
  const items = instruments.map((instrument) => ({
    label: plainText(instrument.name),
    description: plainText(instrument.summary),
    instrument,
  }));
  const chosen = await window.showQuickPick(items, { title, placeHolder: l10n.t("Which instrument?") });
  return chosen?.instrument;
}
