/** Data for programs, which a terminal or the log of a build may still show. */

/**
 * Indented JSON (RFC 8259) without a sign that would steer a terminal: what `JSON.stringify` leaves raw is written as
 * `\u009b`, which reads back as the same text. `##[`, a command to the runner of a GitHub workflow, is written so as well.
 */
export function jsonText(value: unknown): string {
  return JSON.stringify(value, null, 2).replace(RAW, (sign) =>
    sign === "\n" ? sign : `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
}

const RAW = /[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}]|#(?=#\[)/gu;
