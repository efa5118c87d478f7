/** The open designs: read once a version, analysed once an instrument, forgotten when their file is closed. */
import { createHash } from "node:crypto";
import { Cancelled } from "../acoustics/cancelled.js";
import type { Steps } from "../acoustics/steps.js";
import { findingSteps } from "../design/check.js";
import { analysisSteps } from "../design/predict/analyse.js";
import type { Analysis } from "../design/predict/analysis.js";
import { KnownSoundings } from "../design/predict/knownSoundings.js";
import type { DesignDocument, PlacedFinding } from "../document/designFile.js";
import { readDesign, syntaxOf } from "../document/read.js";
import type { ClientFeatures } from "./capabilities.js";
import { copyOf, type DesignContext, fileNameOf, isDesignUri } from "./designContext.js";
import type { Settings } from "./settings.js";
import { SharedSteps } from "./sharedSteps.js";

/** What of an open text the designs need; `TextDocument` has it. */
export interface OpenText {
  readonly uri: string;
  readonly version: number;
  getText(): string;
}

/** Analyses kept of one file: the instruments of a file of several, and the state before an undo. */
const KEPT_ANALYSES = 8;

interface Kept {
  readonly context: DesignContext;
  /** By everything the prediction depends on, so that an edit of a comment costs no analysis. Oldest first. */
  readonly analyses: Map<string, Analysis>;
  /** By column, air and fingering, so that an edit of one fingering costs no other. */
  readonly known: KnownSoundings;
}

export class Designs {
  private readonly kept = new Map<string, Kept>();

  constructor(
    private readonly settings: () => Settings,
    private readonly client: () => ClientFeatures,
  ) {}

  /** The design in its present version; undefined where the file is no instrument description. */
  open(text: OpenText | undefined): DesignContext | undefined {
    if (text === undefined || !isDesignUri(text.uri)) return undefined;
    const kept = this.kept.get(text.uri);
    const settings = this.settings();
    const isSame = kept?.context.version === text.version && kept.context.file.text === text.getText();
    if (isSame && kept.context.settings === settings) return kept.context;
    const analyses = kept?.analyses ?? new Map<string, Analysis>();
    const known = kept?.known ?? new KnownSoundings();
    const context = designContext(text, settings, this.client(), analyses, known);
    this.kept.set(text.uri, { context, analyses, known });
    return context;
  }

  close(uri: string): void {
    this.kept.delete(uri);
  }

  /** For tests and the log: how many files are remembered. */
  get size(): number {
    return this.kept.size;
  }
}

/** Reads a text and answers for it, reusing the analyses of earlier versions. */
export function designContext(
  open: OpenText,
  settings: Settings,
  client: ClientFeatures,
  analyses: Map<string, Analysis> = new Map(),
  known: KnownSoundings = new KnownSoundings(),
): DesignContext {
  const { uri, version } = open;
  const text = open.getText();
  const file = readDesign(text, syntaxOf(fileNameOf(uri)));
  const ownAnalyses = new SharedSteps<DesignDocument, Analysis>();
  const ownFindings = new SharedSteps<DesignDocument, readonly PlacedFinding[]>();
  const analysisOf = function* (document: DesignDocument): Steps<Analysis> {
    const { instrument } = document.resolution;
    const key = JSON.stringify([instrument, settings.analysis]);
    const analysis = analyses.get(key) ?? (yield* analysisSteps(instrument, settings.analysis, { known }));
    return remember(analyses, key, () => analysis, KEPT_ANALYSES);
  };
  const analysing = (document: DesignDocument) => ownAnalyses.of(document, () => analysisOf(document));
  const findingsIn = function* (document: DesignDocument): Steps<readonly PlacedFinding[]> {
    return yield* findingSteps(document, yield* analysing(document), settings.rules);
  };
  const finding = (document: DesignDocument) => ownFindings.of(document, () => findingsIn(document));
  return {
    uri,
    version,
    textName: createHash("sha256").update(text).digest("base64"),
    reading: String(++readings),
    file,
    text: copyOf(uri, version, text),
    settings,
    client,
    analysis: (document, shouldStop) => heeding(analysing(document), shouldStop),
    findings: (document, shouldStop) => heeding(finding(document), shouldStop),
    analysisSteps: analysing,
    findingSteps: finding,
  };
}

/** All steps at once. @throws Cancelled as soon as `shouldStop` says so; the work may be taken up again */
function heeding<T>(steps: Steps<T>, shouldStop?: () => boolean): T {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
    if (shouldStop?.()) throw new Cancelled();
  }
}

let readings = 0;

/** The value under `key`, made if need be; with a limit, the value unused for longest is dropped. */
function remember<K, V>(map: Map<K, V>, key: K, make: () => V, limit = Number.POSITIVE_INFINITY): V {
  const present = map.get(key);
  const value = present ?? make();
  map.delete(key);
  map.set(key, value);
  for (const oldest of map.keys()) {
    if (map.size <= limit) break;
    map.delete(oldest);
  }
  return value;
}
