/** Which documents are instrument descriptions: by name, wherever they come from. */
import type { DocumentFilter, TextDocument } from "vscode";
import { languages } from "vscode";

/** Of what git has, as the old side of a diff. It is read only: it has hints and hovers, no findings and no changes. */
export const OLD_SCHEME = "git";

/** Local and remote files, unsaved ones, the virtual file systems of editors in the browser, and old texts. */
const SCHEMES = [OLD_SCHEME, "file", "untitled", "vscode-remote", "vscode-vfs", "vscode-userdata", "memfs"];

/** Names of designs. */
export const DESIGN_PATTERN = "**/*.bore.{yaml,yml,json}";

export const DESIGN_SELECTOR: (DocumentFilter & { scheme: string; pattern: string })[] = SCHEMES.map((scheme) => ({
  scheme,
  pattern: DESIGN_PATTERN,
}));

/** What the server is told of: designs by their names, and unsaved YAML, which is one once it begins with `borewright:`. */
export const SERVED_SELECTOR: typeof DESIGN_SELECTOR = [
  ...DESIGN_SELECTOR,
  { scheme: "untitled", language: "yaml", pattern: "**" },
];

/** After blank lines and comments. */
const BEGINS_AS_DESIGN = /^(?:[ \t]*(?:#.*)?\r?\n)*borewright[ \t]*:/;

export function isDesign(document: TextDocument): boolean {
  if (languages.match(DESIGN_SELECTOR, document) > 0) return true;
  return document.isUntitled && document.languageId === "yaml" && BEGINS_AS_DESIGN.test(document.getText());
}
