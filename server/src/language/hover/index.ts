/** The hover: the numbers first, then what the place means. Works on half-typed files, with whatever can be worked out. */
import { type Hover, MarkupKind, type Position } from "vscode-languageserver";
import { drained, type Steps } from "../../acoustics/steps.js";
import type { DesignDocument } from "../../document/designFile.js";
import { pathAt, spanOf } from "../../document/locate.js";
import { nodeAt } from "../../document/tree.js";
import { containedSteps } from "../../instrument/contained.js";
import type { Path } from "../../instrument/finding.js";
import { type DesignContext, documentAt, rangeOf } from "../designContext.js";
import { air } from "./air.js";
import { effect } from "./effect.js";
import { fingering } from "./fingering.js";
import { hole } from "./hole.js";
import { toPlainText } from "./markdown.js";
import { measured } from "./measured.js";
import { mouth } from "./mouth.js";
import { number } from "./number.js";
import type { HoverPlace, HoverTopic } from "./place.js";
import { printScale } from "./printScale.js";
import { schemaText } from "./schemaText.js";
import { station } from "./station.js";
import { key, pitchStandard, temperament, wholeInstrument } from "./wholeInstrument.js";

/** Null where there is nothing to say. */
export function hover(context: DesignContext, position: Position): Hover | null {
  return drained(hoverSteps(context, position));
}

/** As `hover`, step by step. */
export function* hoverSteps(context: DesignContext, position: Position): Steps<Hover | null> {
  const offset = context.text.offsetAt(position);
  const document = documentAt(context.file, offset);
  const place = document && pathAt(document, offset);
  if (document === undefined || place === undefined || place.path.length === 0) return null;
  const { path, on } = place;
  if (on !== "key" && betweenEntries(context, document, path, offset)) return null;
  const analysis = yield* context.analysisSteps(document);
  const parts = { topic: topicOf(path), number, effect, schema: schemaText };
  const hovered = { context, document, analysis, path };
  const paragraphs: string[] = [];
  for (const [name, part] of Object.entries(parts))
    paragraphs.push(...(yield* containedSteps(`The ${name} of a hover`, () => toldBy(part, hovered), [])));
  const told = paragraphs.filter((paragraph) => paragraph !== "");
  if (told.length === 0) return null;
  const markdown = told.join("\n\n");
  const contents = context.client.markdownHover
    ? { kind: MarkupKind.Markdown, value: markdown }
    : { kind: MarkupKind.PlainText, value: toPlainText(markdown) };
  return { contents, range: rangeOf(context, spanOf(document, path, on)) };
}

function* toldBy(topic: HoverTopic | undefined, place: HoverPlace): Steps<readonly string[]> {
  const told = topic?.(place) ?? [];
  return "next" in told ? yield* told : told;
}

/** What to say about a place before its schema: by the name at the top of its path. */
function topicOf(path: Path): HoverTopic | undefined {
  const [first, second] = path;
  if (first === "print") return second === "scale" ? printScale : undefined;
  if (typeof second === "number" || path.length === 1) return TOPICS.get(`${first}${path.length > 1 ? "[]" : ""}`);
  return first === "mouth" || first === "air" ? TOPICS.get(first) : undefined;
}

const TOPICS = new Map<string, HoverTopic>([
  ["name", wholeInstrument],
  ["family", wholeInstrument],
  ["borewright", wholeInstrument],
  ["key", key],
  ["temperament", temperament],
  ["temperament[]", temperament],
  ["temperamentRoot", temperament],
  ["pitchStandard", pitchStandard],
  ["air", air],
  ["mouth", mouth],
  ["bore[]", station],
  ["holes[]", hole],
  ["fingerings[]", fingering],
  ["pipes[]", fingering],
  ["measured", measured],
  ["measured[]", measured],
]);

/** In a block map or list, the blank and the comments between entries belong to none of them. */
function betweenEntries(context: DesignContext, document: DesignDocument, path: Path, offset: number): boolean {
  const node = nodeAt(document.root, path);
  if (node === undefined || node.kind === "scalar" || node.flow) return false;
  return !/\S/.test(context.file.text.charAt(offset)) || lineBefore(context.file.text, offset).includes("#");
}

function lineBefore(text: string, offset: number): string {
  return text.slice(text.lastIndexOf("\n", offset - 1) + 1, offset + 1);
}
