/** Text inside Markdown (CommonMark 0.31, with the tables, strikes and bare links of GitHub's flavour). */
import { visible } from "./visible.js";

/** Text of a design: nothing in it turns into a link, an image, a heading, an entity or a line of its own. */
export function escapeMarkdown(text: string): string {
  return visible(oneSpace(text).slice(0, LONGEST_TEXT))
    .replace(/[\\`*_{}[\]()#+!|<>~&@$]/g, "\\$&")
    .replace(/^[-=]/, "\\$&")
    .replace(/:(?=\/\/)/g, "\\:")
    .replace(/(?<=www)\./gi, "\\.");
}

/** Text of a design as a code span. */
export function markdownCode(text: string): string {
  return `\`${visible(oneSpace(text).slice(0, LONGEST_TEXT)).replaceAll("`", "'")}\``;
}

/** The text that {@link escapeMarkdown} made into Markdown: CommonMark lets a backslash stand before any ASCII punctuation. */
export function unescapeMarkdown(markdown: string): string {
  return markdown.replace(/\\([!-/:-@[-`{-~])/g, "$1");
}

/** Longer names say nothing more in a hover. */
const LONGEST_TEXT = 200;

const oneSpace = (text: string) => text.replace(/\s+/g, " ");
