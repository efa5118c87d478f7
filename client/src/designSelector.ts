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

export function isDesign(document: TextDocument): boolean {
  return languages.match(DESIGN_SELECTOR, document) > 0;
}
