/** Signs that steer a screen rather than stand on it, made to stand on it. */

/**
 * Controls (C0, DEL, C1), line and paragraph separators, and marks that turn the direction of writing (Unicode 16, PropList:
 * Cc, Zl, Zp, Bidi_Control). Letters of every script stay, and so do joiners, which some scripts are written with.
 */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const STEERING = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g;

/** One line of text, with `\u{1b}` for an escape sign and `\u{a}` for a line break. */
export function visible(text: string): string {
  return text.replace(STEERING, (sign) => `\\u{${sign.charCodeAt(0).toString(16)}}`);
}

/** Text of several lines: its line breaks and tabs stay. */
export function visibleLines(text: string): string {
  return text.replace(STEERING, (sign) => (/[\t\n\r]/.test(sign) ? sign : visible(sign)));
}
