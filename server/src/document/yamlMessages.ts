/** The YAML library's complaints in a maker's words. */
import type { YAMLError } from "yaml";
import { t } from "../words/translation.js";

type Code = YAMLError["code"];

const MESSAGES: Partial<Record<Code, string>> = {
  TAB_AS_INDENT: "A tab stands at the beginning of this line, where YAML allows only spaces. Replace it with spaces.",
  BAD_ALIAS: "An alias is written `*name`, with a name that an anchor `&name` before it has.",
  BAD_DIRECTIVE: "A line that begins with % is a YAML directive, and this one is not known. Remove it.",
  BAD_DQ_ESCAPE:
    "In double quotes a backslash begins a special character, and this one is not known. Write \\\\ for a backslash.",
  BAD_SCALAR_START: "Text that begins with this sign needs quotes around it.",
  BLOCK_AS_IMPLICIT_KEY: "There is a colon too many on this line, or the line after it is indented too far.",
  BLOCK_IN_FLOW:
    "Inside { } and [ ] everything is separated by commas; lines with - or indentation cannot be used there.",
  DUPLICATE_KEY: "This property is written twice. Remove one.",
  IMPOSSIBLE: "This part of the file cannot be read.",
  MULTIPLE_ANCHORS: "A value has one anchor at most. Remove one.",
  MULTIPLE_DOCS: "Another design begins here; put a line with --- before it.",
  MULTIPLE_TAGS: "A value has one tag at most. Remove one.",
  MULTILINE_IMPLICIT_KEY:
    "The name of a property must be on one line with its colon. Is a colon missing, or this line indented too far?",
  RESOURCE_EXHAUSTION: "Values are nested too deep to be read.",
  TAG_RESOLVE_FAILED: "A tag beginning with ! is not known here. Remove it.",
};

/** What is wrong and what to do about it. */
export function yamlMessage(error: YAMLError): string {
  const said = shorten(error.message.split("\n")[0] ?? "");
  if (error.code === "MISSING_CHAR") {
    if (/quote/.test(said)) return t("The closing quote is missing.");
    if (/map values|implicit/i.test(said)) return t("A colon and a value are missing: `name: value`.");
    if (/,/.test(said)) return t("A comma is missing between two entries.");
    return t`Something is missing here: ${lowerFirst(said)}.`;
  }
  if (error.code === "BAD_INDENT") {
    const bracket = /end with a ([\]}])/.exec(said)?.[1];
    if (bracket) return t`The closing ${bracket} is missing, or is too far to the left.`;
    return t("This line is indented differently from its neighbours. Entries of one group begin in the same column.");
  }
  if (error.code === "UNEXPECTED_TOKEN") return t`This cannot be here: ${lowerFirst(said)}.`;
  return error.code in MESSAGES ? t(MESSAGES[error.code] ?? "") : `${said}.`;
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

/** The library may quote all of the text that it could not read. */
function shorten(said: string): string {
  return said.length > 100 ? `${said.slice(0, 99)}…` : said;
}
