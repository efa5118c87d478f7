/** What docs/rules says about a rule, in the pieces that a review service shows. */
import { join } from "node:path";
import { FileTrouble } from "../../files/fileTrouble.js";
import { readText } from "../../files/readText.js";

export interface RulePage {
  /** The page's first paragraph, as plain text. */
  readonly summary: string;
  /** As much of the page as fits, as plain text. */
  readonly description: string;
  /** All of it but the heading, as Markdown. */
  readonly markdown: string;
}

/** GitHub takes 1024 characters of a description ("SARIF support for code scanning", docs.github.com). */
const MOST_SIGNS = 1024;
/** Our longest page is 4 kB. */
const MOST_BYTES = 100_000;

/** @param folder of the pages. A page that is not there leaves its rule with its code for a description. */
export function rulePage(folder: string, code: string): RulePage {
  const markdown = pageText(join(folder, `${code.replaceAll("/", "-")}.md`))
    .replace(/^#.*\n+/, "")
    .trim();
  const paragraphs = plainParagraphs(markdown);
  const summary = paragraphs[0] ?? code;
  let description = summary;
  for (const paragraph of paragraphs.slice(1)) {
    if (description.length + paragraph.length >= MOST_SIGNS) break;
    description += ` ${paragraph}`;
  }
  return { summary, description, markdown: markdown === "" ? code : markdown };
}

function pageText(file: string): string {
  try {
    return readText(file, MOST_BYTES).text;
  } catch (error) {
    if (error instanceof FileTrouble) return "";
    throw error;
  }
}

/** Without examples, tables and marks. */
function plainParagraphs(markdown: string): readonly string[] {
  return markdown
    .replace(/^```[\s\S]*?^```/gm, "")
    .split(/\n{2,}/)
    .filter((text) => text.trim() !== "" && !text.startsWith("|"))
    .map((text) =>
      text
        .replace(/\s+/g, " ")
        .replace(/\[([^\]]*)\]\([^)]*\)/g, "$1")
        .replace(/[*`]/g, "")
        .trim(),
    );
}
