/** What is said of a file, whatever it describes. */
import type { AboutRules } from "../instrument/aboutRule.js";

export const DOCUMENT_RULES = {
  "file/alias-cycle": { title: "A YAML alias is inside the value it repeats.", severity: "error" },
  "file/duplicate-key": { title: "A name is written twice in the same place.", severity: "error" },
  "file/more-findings": { title: "There are more findings than are shown.", severity: "information" },
  "file/syntax": { title: "The text cannot be read as YAML or JSON here.", severity: "error" },
  "file/too-deep": { title: "Values are nested too deep.", severity: "error" },
  "file/too-large": { title: "The file is too large to be a design.", severity: "error" },
  "file/too-many-aliases": { title: "The aliases of the file make too many values.", severity: "error" },
  "file/too-many-designs": { title: "The file holds too many designs.", severity: "error" },
  "file/unknown-anchor": { title: "A YAML alias names an anchor that does not exist.", severity: "error" },
  "file/unreadable": { title: "This file or folder cannot be read by `borewright check`.", severity: "error" },
} as const satisfies AboutRules;
