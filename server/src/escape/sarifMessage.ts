/** The text of a SARIF message (OASIS SARIF 2.1.0, §3.11). */
import { visible } from "./visible.js";

/** A plain text message: no placeholder (§3.11.5 doubles braces), no embedded link (§3.11.6 puts a backslash before brackets
 * and backslashes, where there is something like one). */
export function sarifMessage(text: string): string {
  const plain = visible(text).replace(/[{}]/g, "$&$&");
  return plain.includes("](") ? plain.replace(/[[\]\\]/g, "\\$&") : plain;
}
