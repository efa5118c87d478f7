/** What a survey finds: plain numbers, mm and degrees, each with how surely it could be read. */

/** A length and its uncertainty. */
export interface Length {
  readonly mm: number;
  readonly plusMinus: number;
}

export interface Angle {
  readonly degrees: number;
  readonly plusMinus: number;
}

export interface SurveyedHole {
  /** From the mouth opening's middle; undefined on a vessel. */
  readonly at: Length | undefined;
  /** Round, or across an oval. */
  readonly diameter: Length;
  /** Along an oval; undefined of a round one. */
  readonly length: Length | undefined;
  /** Degrees from the front, clockwise as seen from the mouth. */
  readonly angle: Angle;
  readonly undercut: Length | undefined;
  /** What its chimney stands up above the body. */
  readonly raised: Length | undefined;
  /** Where it is neither the wall's nor raised. */
  readonly chimney: Length | undefined;
  /** What the format has no word for, or the maker should check. */
  readonly remark: string | undefined;
}

export interface SurveyedWindow {
  readonly width: Length;
  readonly cutUp: Length;
  /** Undefined where it is as deep as the wall. */
  readonly chimney: Length | undefined;
  /** From its upstream end to what closes the bore; undefined where nothing does. */
  readonly stopper: Length | undefined;
}

/** A hole across which one blows: along the axis and across it (of a vessel, across the plane of its holes and along it). */
export interface SurveyedMouthHole {
  readonly length: Length;
  readonly width: Length;
  /** Undefined where it is as deep as the wall. */
  readonly chimney: Length | undefined;
}

export type SurveyedMouth =
  | {
      readonly kind: "window";
      readonly window: SurveyedWindow;
      /** Whether the breath comes from a slow chamber upstream of a plug. */
      readonly isTwoChamber: boolean;
      readonly windway: { readonly length: Length; readonly height: Length } | undefined;
      /** The slow chamber of a two-chamber flute. */
      readonly chamber: { readonly length: Length; readonly diameter: Length } | undefined;
    }
  | (SurveyedMouthHole & {
      readonly kind: "hole";
      readonly undercut: Length | undefined;
      /** Undefined where nothing closes the end. */
      readonly stopper: Length | undefined;
    })
  | { readonly kind: "rim"; readonly notch: { readonly depth: Length; readonly width: Length } | undefined };

export interface SurveyedTube {
  readonly kind: "tube";
  readonly mouth: SurveyedMouth;
  readonly bore: readonly { readonly at: Length; readonly diameter: Length; readonly joint: boolean }[];
  readonly wall: Length;
  readonly foot: "open" | "stopped";
  readonly holes: readonly SurveyedHole[];
}

export interface SurveyedPipes {
  readonly kind: "pipes";
  readonly wall: Length;
  readonly pipes: readonly { readonly length: Length; readonly diameter: Length; readonly closed: boolean }[];
}

export interface SurveyedVessel {
  readonly kind: "vessel";
  /** Undefined where it has none. */
  readonly window: SurveyedWindow | undefined;
  /** Across which it is blown where it has no window. */
  readonly hole: SurveyedMouthHole | undefined;
  /** Inner axes, to the mouth first; undefined where the chamber is not an ellipsoid. */
  readonly axes: readonly [length: Length, width: Length, height: Length] | undefined;
  readonly volume: { readonly cm3: number; readonly plusMinus: number };
  readonly wall: Length;
  readonly holes: readonly SurveyedHole[];
}

export interface Survey {
  readonly body: SurveyedTube | SurveyedPipes | SurveyedVessel;
  /** Of the file's numbers, and whether the file says so. */
  readonly unit: { readonly name: "mm" | "in" | "cm" | "m"; readonly isStated: boolean };
  readonly triangles: number;
  /** What was found or repaired, and what only the maker can answer; whole sentences. */
  readonly notes: readonly string[];
  readonly questions: readonly string[];
}

/** Nothing is read more surely than this, mm. */
export const FINEST = 0.005;

export const length = (mm: number, plusMinus: number): Length => ({ mm, plusMinus: Math.max(FINEST, plusMinus) });
