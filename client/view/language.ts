/** The language of the page: what the editor has put into it beside the place, if anything. */
import { readTranslation, speak } from "../../server/src/words/translation.js";

/** Before anything is said; each of the page's scripts has words of its own. */
export function speakAsTheEditor(): void {
  const words = document.getElementById("words")?.textContent;
  if (words) speak(readTranslation(JSON.parse(words)));
}
