/** What the bore view is told, and what it asks. Lengths in millimetres as drawn, pitches in cents and Hz. */
import type { Outline } from "../design/outline/outline.js";
import type { Path } from "../instrument/finding.js";
import type { Section } from "../make/drawing/section.js";

export type {
  HoleOutline,
  MouthOutline,
  PipesOutline,
  TubeOutline,
  VesselOutline,
} from "../design/outline/outline.js";
export type { Path } from "../instrument/finding.js";
export type { Section, SectionPoint } from "../make/drawing/section.js";

/** Request: {@link BoreViewQuestion} to {@link BoreViewAnswer}. */
export const BORE_VIEW = "borewright/boreView";
/** Request: {@link TrialQuestion} to {@link TrialAnswer}. */
export const TRY_NUMBER = "borewright/tryNumber";
/** Request: {@link ResponseQuestion} to {@link ResponseAnswer}. */
export const RESPONSE = "borewright/response";
/** Request: {@link ProposalQuestion} to {@link ProposalAnswer}. */
export const PROPOSAL = "borewright/proposal";
/** Request: {@link FixesQuestion} to {@link FixesAnswer}. */
export const FIXES = "borewright/fixes";
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
  /** Without bands and slopes, which take longer than all the rest: for a drawing at every key. */
  readonly brief?: boolean;
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

/** Which fingering's response is asked for, by its place among the rows. */
export interface ResponseQuestion extends ViewPlace {
  readonly version: number;
  readonly row: number;
}

/** How one fingering answers; nothing of it where nothing can be predicted, and of a vessel, which has one resonance. */
export interface ResponseAnswer {
  readonly row: number;
  /** Input impedance, at frequencies in equal ratio: Hz, and dB re 1 Pa s/m³. Notes lie at its minima. */
  readonly curve: readonly (readonly [hz: number, decibels: number])[];
  /** Depth of the note's own minimum under the bore's impedance, dB, and its quality factor. */
  readonly strength: number | undefined;
  readonly quality: number | undefined;
  /** Lowest cut-off of the open holes, Hz. */
  readonly cutOffHz: number | undefined;
  /** Cents by which the second register is wider than an octave (a twelfth, stopped). */
  readonly stretch: number | undefined;
  /** The breath it is estimated to want, in words. */
  readonly breath: string | undefined;
}

/** A change to be shown before it is made. */
export interface ProposalQuestion extends ViewPlace {
  readonly version: number;
  readonly change: ProposedChange;
}

export type ProposedChange =
  | { readonly do: "retune"; readonly freedom: "all" | "holes" }
  | { readonly do: "rekey"; readonly to: string; readonly by: "print-scale" | "redraw" | "refit" }
  /** A fix that {@link FIXES} has offered, by its title. */
  | { readonly do: "fix"; readonly row: number; readonly title: string };

export interface ProposalAnswer extends TrialAnswer {
  readonly title: string;
  /** What would be done, and what stands in the way of more; each a sentence or two. */
  readonly says: readonly string[];
}

/** Fixes of the finding at a fingering. */
export interface FixesQuestion extends ViewPlace {
  readonly version: number;
  readonly row: number;
}

export interface FixesAnswer {
  readonly titles: readonly string[];
}

/** How far below and above, cents, both counted from 0. */
export interface Reach {
  readonly below: number;
  readonly above: number;
}

export interface BoreViewData {
  readonly uri: string;
  readonly version: number;
  readonly documentIndex: number;
  /** Lines of the text that the instrument stands on, from 0, both included. */
  readonly lines: readonly [first: number, last: number];
  readonly outline: Outline;
  /** A tube cut through its axis, as the drawing to be printed has it; undefined for pipes and vessels. */
  readonly section: Section | undefined;
  /** Millimetres of one of the file's units, its name, and the step in which lengths are drawn, in that unit. */
  readonly unit: { readonly millimetres: number; readonly name: string; readonly step: number };
  readonly verdict: { readonly inTune: boolean; readonly words: string; readonly worst: string };
  /** How far all notes may be off alike. */
  readonly together: Reach | undefined;
  readonly tolerance: number;
  readonly rows: readonly Row[];
  readonly key: string | undefined;
  /** Frequency of the key's own note, Hz. */
  readonly keyHz: number | undefined;
  readonly handles: readonly Handle[];
  /** Holes of a tube under neighbouring fingers, and each thumb with the finger nearest to it. */
  readonly fingers: readonly FingerSpan[];
  /** The printer's reach and what has to fit it; undefined where the design states no bed. */
  readonly bed: BedFit | undefined;
  /** The conditions that the numbers depend on: title and value. */
  readonly facts: readonly (readonly [title: string, value: string])[];
}

/** Millimetres of the finished instrument. */
export interface FingerSpan {
  /** Indices of the holes, the one nearer to the mouth first. */
  readonly from: number;
  readonly to: number;
  readonly apart: number;
  /** The reach that is stated, or usual. */
  readonly most: number;
  /** What two fingers side by side need. */
  readonly least: number;
  /** Beyond the reach; nearer than fingers are wide. */
  readonly far: boolean;
  readonly near: boolean;
  readonly thumb: boolean;
}

export interface BedFit {
  /** mm: breadth, depth and height. */
  readonly sides: readonly [number, number, number];
  readonly parts: readonly {
    readonly name: string;
    /** mm as printed. */
    readonly length: number;
    readonly fits: boolean;
    readonly words: string;
  }[];
}

/** A fingering, or a pipe. */
export interface Row extends Placed {
  readonly note: string;
  readonly register: number;
  readonly targetHz: number | undefined;
  readonly predictedHz: number | undefined;
  readonly cents: number | undefined;
  /** Against the other notes, cents; undefined in a brief answer, too. */
  readonly band: number | undefined;
  readonly inTune: boolean;
  /** Share of each hole that is covered, in the outline's order; empty for a pipe. */
  readonly covers: readonly number[];
  /** Pressure at places evenly spread from mouth to foot, with its sign, the largest ±1; undefined where no wave is drawn. */
  readonly wave: readonly number[] | undefined;
}

/** Something that can be taken hold of: a hole's place or width, a place or the width of the bore, the foot, the stopper. */
export interface Handle extends Placed {
  readonly kind: "place" | "width" | "foot" | "station" | "stationWidth" | "stopper";
  /** Index in the outline's holes; −1 for what is no hole. */
  readonly hole: number;
  /** Index in the outline's bore; −1 for what is no station of it. */
  readonly station: number;
  readonly name: string;
  /** mm. */
  readonly value: number;
  /** The formula that the number comes from. */
  readonly formula: string | undefined;
  readonly fixed: boolean;
  /** Which parameter moves in its place, and what else with it, in words. */
  readonly moves?: string;
  /** Why it cannot be moved here, in words. */
  readonly refused?: string;
  /** Hard limits, mm. */
  readonly least: number;
  readonly greatest: number;
  /** Cents for one millimetre more, of each row; none in a brief answer. */
  readonly centsPerMillimetre: readonly (number | undefined)[];
}

interface Placed {
  readonly path: Path;
  /** Lines of the text that it stands on, from 0, both included. */
  readonly lines: readonly [first: number, last: number];
}
