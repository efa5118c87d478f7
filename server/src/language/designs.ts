/** The open designs: read once per version, analysed once per instrument, forgotten when their file is closed. */
import { Cancelled } from "../acoustics/cancelled.js";
import type { Steps } from "../acoustics/steps.js";
import { findingSteps } from "../design/check.js";
import { allowanceFor } from "../design/predict/allowance.js";
import { analysisSteps } from "../design/predict/analyse.js";
import type { Analysis } from "../design/predict/analysis.js";
import { KnownSoundings } from "../design/predict/knownSoundings.js";
import type { DesignDocument, DesignFile, PlacedFinding } from "../document/designFile.js";
import { readDesign, readingOf, syntaxOf } from "../document/read.js";
import { shiftedFinding } from "../document/shifted.js";
import type { Resolution } from "../instrument/model.js";
import type { ClientFeatures } from "./capabilities.js";
import { copyOf, type DesignContext, fileNameOf, isDesignText } from "./designContext.js";
import type { Settings } from "./settings.js";
import { SharedSteps } from "./sharedSteps.js";
import { textName } from "./textName.js";

/** The parts of an open text that the designs need; `TextDocument` has them. */
export interface OpenText {
  readonly uri: string;
  readonly version: number;
  getText(): string;
}

/** Analyses kept of one file beside those of its instruments: the state before an undo. */
const KEPT_ANALYSES = 8;
/** Files whose analyses are kept: those asked about last. All of a thousand open ones would be half a gigabyte. */
const MOST_REMEMBERED = 50;

/** What is remembered of one file. */
class Kept {
  reading: { readonly text: string; readonly steps: SharedSteps<string, DesignFile> } | undefined;
  /** As last read: what does not change is taken over from it. */
  file: DesignFile | undefined;
  context: DesignContext | undefined;
  memory = new Memory();
}

/** What outlives a version of a text. */
class Memory {
  /** By everything the prediction depends on, so that an edit of a comment costs no analysis. Oldest first. */
  readonly analyses = new Map<string, Analysis>();
  /** By column, air and fingering, so that an edit of one fingering costs no other. */
  readonly known = new KnownSoundings();
  /** Of documents that were taken over as they are. */
  readonly findings = new WeakMap<Resolution, Found>();
}

interface Found {
  readonly analysis: Analysis;
  readonly rules: Settings["rules"];
  /** Where the document began. */
  readonly start: number;
  readonly findings: readonly PlacedFinding[];
}

export class Designs {
  private readonly kept = new Map<string, Kept>();
  /** URIs of the files whose memory is kept, unused for longest first. */
  private readonly remembered = new Set<string>();

  constructor(
    private readonly settings: (uri: string) => Settings,
    private readonly client: () => ClientFeatures,
  ) {}

  /**
   * The design in its present version; undefined where the file is not an instrument description. Each caller continues the
   * reading. @throws Cancelled where the text changes or is closed meanwhile
   */
  *open(text: OpenText | undefined): Steps<DesignContext | undefined> {
    if (text === undefined || !isDesignText({ uri: text.uri, getText: () => text.getText() })) return undefined;
    const { uri, version } = text; // which change with the text itself
    const whole = text.getText();
    const kept = this.kept.get(uri) ?? new Kept();
    this.kept.set(uri, kept);
    this.remember(uri);
    if (kept.reading?.text !== whole) kept.reading = { text: whole, steps: new SharedSteps() };
    const { reading } = kept;
    const file = yield* reading.steps.of(whole, () => readingOf(whole, syntaxOf(fileNameOf(uri)), kept.file));
    if (kept.reading !== reading || this.kept.get(uri) !== kept) throw new Cancelled();
    kept.file = file;
    const settings = this.settings(uri);
    const isSame = kept.context?.version === version && kept.context.file === file;
    if (isSame && kept.context?.settings === settings) return kept.context;
    const open = { uri, version, getText: () => whole };
    kept.context = designContext(open, settings, this.client(), file, kept.memory);
    return kept.context;
  }

  close(uri: string): void {
    this.kept.delete(uri);
    this.remembered.delete(uri);
  }

  private remember(uri: string): void {
    this.remembered.delete(uri);
    this.remembered.add(uri);
    const [oldest] = this.remembered;
    if (this.remembered.size <= MOST_REMEMBERED || oldest === undefined) return;
    this.remembered.delete(oldest);
    const kept = this.kept.get(oldest);
    // The earlier reading stays valid for whoever is working on it.
    if (kept !== undefined) Object.assign(kept, { memory: new Memory(), context: undefined });
  }

  /** For tests and the log: how many files are remembered. */
  get size(): number {
    return this.kept.size;
  }
}

/** Answers for a text as it was read, reusing what is remembered of earlier versions. */
export function designContext(
  open: OpenText,
  settings: Settings,
  client: ClientFeatures,
  file: DesignFile = readDesign(open.getText(), syntaxOf(fileNameOf(open.uri))),
  { analyses, known, findings: found }: Memory = new Memory(),
): DesignContext {
  const { uri, version } = open;
  const text = open.getText();
  const allowance = allowanceFor(file.documents.length);
  const ownAnalyses = new SharedSteps<DesignDocument, Analysis>();
  const ownFindings = new SharedSteps<DesignDocument, readonly PlacedFinding[]>();
  const analysisOf = function* (document: DesignDocument): Steps<Analysis> {
    const { instrument } = document.resolution;
    const key = nameOf(document.resolution) + JSON.stringify([settings.analysis, allowance]);
    const analysis = analyses.get(key) ?? (yield* analysisSteps(instrument, settings.analysis, { known, allowance }));
    return remember(analyses, key, () => analysis, KEPT_ANALYSES + file.documents.length);
  };
  const analysing = (document: DesignDocument) => ownAnalyses.of(document, () => analysisOf(document));
  const findingsIn = function* (document: DesignDocument): Steps<readonly PlacedFinding[]> {
    const analysis = yield* analysing(document);
    const { rules } = settings;
    const { start } = document.span;
    const before = found.get(document.resolution);
    if (before?.analysis === analysis && before.rules === rules)
      return before.findings.map((finding) => shiftedFinding(finding, start - before.start));
    const findings = yield* findingSteps(document, analysis, rules);
    found.set(document.resolution, { analysis, rules, start, findings });
    return findings;
  };
  const finding = (document: DesignDocument) => ownFindings.of(document, () => findingsIn(document));
  return {
    uri,
    version,
    textName: textName(text),
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

/** By instrument, all of it that a prediction depends on. */
const names = new WeakMap<Resolution, string>();

function nameOf(resolution: Resolution): string {
  const name = names.get(resolution) ?? JSON.stringify(resolution.instrument);
  names.set(resolution, name);
  return name;
}

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
