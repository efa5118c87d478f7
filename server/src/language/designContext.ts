/** Everything a feature may ask about one version of one design: text, trees, analyses, settings, capabilities of the client. */
import type { Range } from "vscode-languageserver";
import { TextDocument } from "vscode-languageserver-textdocument";
import type { Steps } from "../acoustics/steps.js";
import type { Analysis } from "../design/predict/analysis.js";
import type { DesignDocument, DesignFile, PlacedFinding } from "../document/designFile.js";
import type { Span } from "../document/span.js";
import type { ClientFeatures } from "./capabilities.js";
import type { Settings } from "./settings.js";

export interface DesignContext {
  /** As the client wrote it: an answer that names the file must echo it, letter for letter. */
  readonly uri: string;
  readonly version: number;
  /** A name that no other text has: version numbers restart where a file is opened again. */
  readonly textName: string;
  /** A name of this reading of it, which no other reading has: another after the settings have changed. */
  readonly reading: string;
  readonly file: DesignFile;
  /** A copy that does not change when the editor's text does. Positions in UTF-16, as the protocol counts. */
  readonly text: TextDocument;
  readonly settings: Settings;
  readonly client: ClientFeatures;
  /** Worked out once per version and kept. @throws Cancelled */
  analysis(document: DesignDocument, shouldStop?: () => boolean): Analysis;
  /** All findings of a document, the acoustic ones included. @throws Cancelled */
  findings(document: DesignDocument, shouldStop?: () => boolean): readonly PlacedFinding[];
  /** The same step by step: afterwards the answers above cost nothing. Several may wait for one. */
  analysisSteps(document: DesignDocument): Steps<Analysis>;
  findingSteps(document: DesignDocument): Steps<readonly PlacedFinding[]>;
}

export function rangeOf(context: Pick<DesignContext, "text">, span: Span): Range {
  return { start: context.text.positionAt(span.start), end: context.text.positionAt(span.end) };
}

/** The document in which an offset lies, where two meet the later; the last one that begins before it where it lies between. */
export function documentAt(file: DesignFile, offset: number): DesignDocument | undefined {
  const inside = file.documents.findLast(({ span }) => offset >= span.start && offset <= span.end);
  return inside ?? file.documents.findLast(({ span }) => span.start <= offset) ?? file.documents[0];
}

const DESIGN_NAME = /\.bore\.(ya?ml|json)$/i;

/** Whether a URI names an instrument description. Other files are ignored. */
export function isDesignUri(uri: string): boolean {
  return DESIGN_NAME.test(fileNameOf(uri));
}

/** After blank lines and comments. */
const BEGINS_AS_DESIGN = /^(?:[ \t]*(?:#.*)?\r?\n)*borewright[ \t]*:/;

/** The same, and an unsaved text without a name that begins as a design does. */
export function isDesignText({ uri, getText }: { readonly uri: string; getText(): string }): boolean {
  return isDesignUri(uri) || (uri.startsWith("untitled:") && BEGINS_AS_DESIGN.test(getText()));
}

/** The last part of a URI's path, decoded where it can be: `c%3A`-style escapes and queries do not matter to it. */
export function fileNameOf(uri: string): string {
  const path = uri.replace(/[?#].*$/, "");
  const name = path.slice(path.lastIndexOf("/") + 1).replace(/^untitled:/, "");
  try {
    return decodeURIComponent(name);
  } catch {
    return name; // a stray % is part of the name
  }
}

export function copyOf(uri: string, version: number, text: string): TextDocument {
  return TextDocument.create(uri, "", version, text);
}
