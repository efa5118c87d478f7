/** One line in the window of an editor: a notification, a hint, a lens, a title, a name in a list. */
import { visible } from "./visible.js";

/**
 * Plain text that no editor interprets: notifications and status items of VS Code show `[words](command:…)` as a link
 * that runs something, and lists, lenses and status items show `$(name)` as an icon. A blank keeps both from it.
 */
export function label(text: string): string {
  return visible(text.replace(/\s+/g, " ")).replace(/\](?=\()|\$(?=\()/g, "$& ");
}
