/** Characters that control a screen, made visible. */

/**
 * Controls (C0, DEL, C1), line and paragraph separators, and marks that turn the direction of writing (Unicode:
 * general categories Cc, Zl and Zp, property Bidi_Control). Letters of every script stay, and so do joiners, which some scripts are written with.
 */
const STEERING = /[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}]/gu;

/** One line of text, with `\u{1b}` for an escape sign and `\u{a}` for a line break. */
export function visible(text: string): string {
  return text.replace(STEERING, (sign) => `\\u{${sign.charCodeAt(0).toString(16)}}`);
}

/** Text of several lines: its line breaks and tabs stay. */
export function visibleLines(text: string): string {
  return text.replace(STEERING, (sign) => (/[\t\n\r]/.test(sign) ? sign : visible(sign)));
}
