/** Translations as they stand beside the program, for editors that say their language and bring no translation. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { readTranslation, type Translation } from "../../words/translation.js";

/** @param locale `de`, `de-AT`; undefined where the client does not say */
export function translationFor(folder: string, locale: string | undefined): Translation | undefined {
  const language = /^[a-z]{2,3}(?=$|[-_])/i.exec(locale ?? "")?.[0].toLowerCase();
  if (language === undefined || language === "en") return undefined;
  try {
    return readTranslation(JSON.parse(readFileSync(join(folder, `bundle.l10n.${language}.json`), "utf8")));
  } catch {
    return undefined; // there is none
  }
}
