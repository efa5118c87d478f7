/** Text inside XML (W3C XML 1.0, 5th edition), between tags or in a quoted attribute. */
import { visible } from "./visible.js";

/** Controls show by number: most may not stand in XML at all (§2.2), and neither may what is not a character. */
export function xmlText(text: string): string {
  return visible(text)
    .replace(/[\ud800-\udfff\ufffe\uffff]/gu, (sign) => `\\u{${sign.charCodeAt(0).toString(16)}}`)
    .replace(/[&<>"']/g, (sign) => ENTITIES[sign] ?? sign);
}

/** Those that XML knows by itself (§4.6). */
const ENTITIES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&apos;",
};
