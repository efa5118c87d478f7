/**
 * The language of all that is told: English as it stands in the source, `t` round each sentence; another one where its bundle is given,
 * by the English sentence. Bundles have VS Code's own form, so that client and server share them; the package `@vscode/l10n` does the
 * same, but comes without its licence's text, which whoever bundles it must show.
 */
import { markOf } from "./mark.js";

/** Sentences with `{0}`, `{1}` for what is put in, each by its English or the mark of it. Under "." the sign between units and tenths. */
export type Translation = Readonly<Record<string, string>>;

let spoken: Translation | undefined;

/** From now on, in this thread. Without one, English. */
export function speak(translation: Translation | undefined): void {
  spoken = translation;
}

/** For another thread of the same session. */
export function spokenTranslation(): Translation | undefined {
  return spoken;
}

/** What a client sent, if it is one. */
export function readTranslation(given: unknown): Translation | undefined {
  if (typeof given !== "object" || given === null || Array.isArray(given)) return undefined;
  const entries = Object.entries(given).filter(([, said]) => typeof said === "string");
  return entries.length === 0 ? undefined : Object.fromEntries(entries);
}

/** A sentence of a table, which is read before the language is known: whoever tells it puts it through `t`. */
export function told<T extends string>(english: T): T {
  return english;
}

/** A sentence in the language of the moment: t`Move ${hole} by ${mm} mm`, or t("Bore view"). */
export function t(english: TemplateStringsArray | string, ...put: readonly unknown[]): string {
  if (typeof english === "string") return saidFor(english) ?? english;
  const said = spoken && saidFor(english.reduce((before, after, i) => `${before}{${i - 1}}${after}`));
  if (said === undefined) return english.reduce((before, after, i) => before + String(put[i - 1]) + after);
  return said.replace(/\{(\d+)\}/g, (sign, index) => String(put[Number(index)] ?? sign));
}

function saidFor(english: string): string | undefined {
  return spoken && (spoken[english] ?? spoken[markOf(english)]);
}
