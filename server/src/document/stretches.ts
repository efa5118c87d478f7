/** Reads a YAML file stretch by stretch. What did not change since it was read last is taken over. */
import type { Steps } from "../acoustics/steps.js";
import type { DesignDocument, DesignFile, Stretch } from "./designFile.js";
import { documentSteps } from "./readDocument.js";
import { shifted } from "./shifted.js";
import { readStretch } from "./yamlStretch.js";

/** The end of a stretch: `---` and the blank after it. */
const MARK = 4;

/** The stretch that begins at `start`. Yields between pieces of the work. */
export function* stretchAt(text: string, start: number, before: DesignFile | undefined): Steps<Stretch> {
  const known = before?.stretches.find((stretch) => isSame(before.text, stretch, text, start));
  if (known !== undefined) return takenOver(known, text, start);
  const { end, documents: parsed, standsAlone } = yield* readStretch(text, start);
  const documents: DesignDocument[] = [];
  for (const each of parsed) {
    documents.push(yield* documentSteps(each, text, "yaml"));
    yield;
  }
  return { span: { start, end }, documents, standsAlone };
}

/** Whether what stood in `old` stands at `start` of `text`, with the same mark behind it. */
function isSame(old: string, { span, standsAlone }: Stretch, text: string, start: number): boolean {
  if (!standsAlone || (span.start === 0) !== (start === 0)) return false;
  return (
    text.startsWith(old.slice(span.start, span.end), start) &&
    markAt(old, span.end) === markAt(text, start + span.end - span.start)
  );
}

function markAt(text: string, offset: number): string {
  return text.slice(offset, offset + MARK);
}

function takenOver({ span, documents }: Stretch, text: string, start: number): Stretch {
  const by = start - span.start;
  return {
    span: { start, end: span.end + by },
    documents: documents.map((document) => shifted(document, by, text)),
    standsAlone: true,
  };
}
