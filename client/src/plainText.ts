/** Text in places where VS Code interprets markup. */

/**
 * For notifications, status items and lists: `[words](command:…)` stays what it is rather than a link that runs something, and
 * `$(name)` is not an icon. Controls and marks that turn the direction of writing are shown by their number.
 */
export function plainText(text: string): string {
  return text
    .replace(/\s+/g, " ")
    .replace(/[\p{Cc}\p{Bidi_Control}]/gu, (sign) => `\\u{${sign.charCodeAt(0).toString(16)}}`)
    .replace(/\](?=\()|\$(?=\()/g, "$& ");
}
