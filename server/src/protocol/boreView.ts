/** What the bore view is told, and what it asks. Lengths in millimetres as drawn, pitches in cents and Hz. */
import type { Outline } from "../design/outline/outline.js";
import type { Path } from "../instrument/finding.js";

export type {
  HoleOutline,
  MouthOutline,
  PipesOutline,
  TubeOutline,
  VesselOutline,
} from "../design/outline/outline.js";
export type { Path } from "../instrument/finding.js";

/** Request: {@link BoreViewQuestion} to {@link BoreViewAnswer}. */
export const BORE_VIEW = "borewright/boreView";
/** Request: {@link TrialQuestion} to {@link TrialAnswer}. */
export const TRY_NUMBER = "borewright/tryNumber";
/** The client's command that opens the view; its argument is a {@link ViewPlace}. */
export const OPEN_BORE_VIEW = "borewright.openBoreView";

export interface ViewPlace {
  readonly uri: string;
  readonly documentIndex: number;
}

/** Which instrument: by its number, or the one at an offset of the text, UTF-16 units. */
export interface BoreViewQuestion {
  readonly uri: string;
  readonly documentIndex?: number;
  readonly offset?: number;
}

export interface BoreViewAnswer {
  /** Undefined where nothing can be drawn. */
  readonly view?: BoreViewData;
  /** What is missing or cannot be read, in words. */
  readonly trouble?: string;
}

/** A number as it would be, in the file's unit. */
export interface TrialQuestion extends ViewPlace {
  readonly version: number;
  readonly path: Path;
  readonly value: number;
}

export interface TrialAnswer {
  readonly view?: BoreViewData;
  /** Replacements in the text of that version, offsets in UTF-16 units. */
  readonly edits: readonly { readonly start: number; readonly end: number; readonly text: string }[];
  /** Why it cannot be so. */
  readonly refused?: string;
}

export interface BoreViewData {
  readonly uri: string;
  readonly version: number;
  readonly documentIndex: number;
  /** Lines of the text that the instrument stands on, from 0, both included. */
  readonly lines: readonly [first: number, last: number];
  readonly outline: Outline;
  /** Millimetres of one of the file's units, its name, and the step in which lengths are drawn, in that unit. */
  readonly unit: { readonly millimetres: number; readonly name: string; readonly step: number };
  readonly verdict: { readonly inTune: boolean; readonly words: string; readonly worst: string };
  /** How far all notes may be off alike, cents. */
  readonly together: number | undefined;
  readonly tolerance: number;
  readonly rows: readonly Row[];
  readonly key: string | undefined;
  /** Frequency of the key's own note, Hz. */
  readonly keyHz: number | undefined;
  readonly handles: readonly Handle[];
  /** What the numbers hang on: title and value. */
  readonly facts: readonly (readonly [title: string, value: string])[];
}

/** A fingering, or a pipe. */
export interface Row extends Placed {
  readonly note: string;
  readonly register: number;
  readonly targetHz: number | undefined;
  readonly predictedHz: number | undefined;
  readonly cents: number | undefined;
  /** Against the other notes, cents. */
  readonly band: number | undefined;
  readonly inTune: boolean;
  /** Share of each hole that is covered, in the outline's order; empty for a pipe. */
  readonly covers: readonly number[];
  /** Pressure at places evenly spread from mouth to foot, with its sign, the largest ±1; undefined where no wave is drawn. */
  readonly wave: readonly number[] | undefined;
}

/** Something that can be taken hold of: a hole's place, a hole's width, the foot. */
export interface Handle extends Placed {
  readonly kind: "place" | "width" | "foot";
  /** Index in the outline's holes; −1 for the foot. */
  readonly hole: number;
  readonly name: string;
  /** mm. */
  readonly value: number;
  /** The formula that the number comes from. */
  readonly formula: string | undefined;
  readonly fixed: boolean;
  /** Hard limits, mm. */
  readonly least: number;
  readonly greatest: number;
  /** Cents for one millimetre more, of each row. */
  readonly centsPerMillimetre: readonly (number | undefined)[];
}

interface Placed {
  readonly path: Path;
  /** Lines of the text that it stands on, from 0, both included. */
  readonly lines: readonly [first: number, last: number];
}
