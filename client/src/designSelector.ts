/** Which documents are instrument descriptions: by name, wherever they come from, but not as the old side of a diff. */
import type { DocumentFilter, TextDocument } from "vscode";
import { languages } from "vscode";

/** Local and remote files, unsaved ones, and the virtual file systems of editors in the browser. */
const SCHEMES = ["file", "untitled", "vscode-remote", "vscode-vfs", "vscode-userdata", "memfs"];

/** Names of designs. */
export const DESIGN_PATTERN = "**/*.bore.{yaml,yml,json}";

export const DESIGN_SELECTOR: (DocumentFilter & { scheme: string; pattern: string })[] = SCHEMES.map((scheme) => ({
  scheme,
  pattern: DESIGN_PATTERN,
}));

export function isDesign(document: TextDocument): boolean {
  return languages.match(DESIGN_SELECTOR, document) > 0;
}
