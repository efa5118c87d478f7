/** What is under the cursor, and everything a hover may say about it. */
import type { Steps } from "../../acoustics/steps.js";
import type { Analysis } from "../../design/predict/analysis.js";
import type { DesignDocument } from "../../document/designFile.js";
import type { Path } from "../../instrument/finding.js";
import type { DesignContext } from "../designContext.js";

export interface HoverPlace {
  readonly context: DesignContext;
  readonly document: DesignDocument;
  readonly analysis: Analysis;
  readonly path: Path;
}

/** One hovered thing: paragraphs of Markdown, the numbers first; empty where it has nothing to add. Step by step where it takes long. */
export type HoverTopic = (place: HoverPlace) => readonly string[] | Steps<readonly string[]>;
