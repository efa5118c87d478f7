/**
 * The checked instrument: what a design says once units, defaults, parameters and expressions are worked out. SI units.
 * Everything that could not be worked out is `undefined` and has a finding; the rest stays usable.
 */

import type { AirConditions } from "../acoustics/airState.js";
import type { Cover } from "../acoustics/column.js";
import type { Note } from "../music/note.js";
import type { Tuning } from "../music/tuning.js";
import type { Body } from "./body.js";
import type { Draft } from "./draft/draft.js";
import type { Family } from "./families/index.js";
import type { Finding, Path } from "./finding.js";
import type { ResolvedNumber } from "./formula/resolvedNumber.js";
import type { NameUse } from "./numbers.js";
import type { StatedBreath, StatedLips, StatedWindway } from "./printed/windway.js";
import type { RuleLevels } from "./ruleLevels.js";

export interface NamedHole {
  /** The maker's name of it, or `hole 3` where there is none. */
  readonly name: string;
  readonly path: Path;
}

export interface Fingering {
  readonly path: Path;
  /** As drawn, one sign a hole: ● closed, ○ open, ◐ half. Undefined when it cannot be read. */
  readonly pattern: string | undefined;
  /** One cover a hole, in the order of `holes`: 1 closed, 0 open, between half-closed; and a last one, 1, where the player stops the foot. */
  readonly covers: readonly Cover[] | undefined;
  /** The note it should sound. */
  readonly target: Note | undefined;
  /** Given as a degree of the key (moves with the key) or as an absolute note. */
  readonly targetKind: "degree" | "note";
  /** Which resonance of the column, counted from the bottom, 1 the lowest. */
  readonly register: number;
  /** Cents by which the player's breath bends the note above what it sounds at an even breath. */
  readonly breath: number;
}

/** A note played on a printed instrument of this design. */
export interface MeasuredNote {
  readonly path: Path;
  readonly note: Note;
  readonly hz: number;
  /** °C; undefined where it was the design's own. */
  readonly temperature: number | undefined;
  /** Breath in the mouth, Pa; undefined where it was not noted. */
  readonly pressure: number | undefined;
  /** Standard uncertainty, cents. */
  readonly uncertainty: number;
  /** Undefined: that of the fingering for the note. */
  readonly covers: readonly Cover[] | undefined;
}

export interface Instrument {
  readonly name: string | undefined;
  readonly family: Family | undefined;
  readonly key: Note | undefined;
  readonly tuning: Tuning;
  /** Name of the temperament as written, or `custom`. */
  readonly temperament: string;
  /** Cents beyond which a fingering is out of tune; undefined where the design does not say. */
  readonly tolerance: number | undefined;
  /**
   * Cents by which notes are drawn too flat, left for the bench: those with an open hole; those with none, and pipes. `room`: cents by which
   * every hole can still be opened before hand or bore sets a limit.
   */
  readonly drawnFlat: { readonly holes: number; readonly length: number; readonly room: number };
  /** Whether the bench leaves the mouth as it is. */
  readonly keepsMouth: boolean;
  /** Air temperature is undefined where the design does not say, so that a user's setting can stand in. */
  readonly air: Omit<AirConditions, "temperature"> & { readonly temperature: number | undefined };
  /** The word the design has instead of its own numbers for the air. */
  readonly airPreset: string | undefined;
  /** What sounds: print scale, shrinkage and undersize of holes applied. */
  readonly body: Body;
  /** Metres of the printed object for one unit of length in the file (unit × print scale × shrinkage). */
  readonly printedUnit: number;
  /** Millimetres in one unit of length of the file: 1, or 25.4 for `units: in`. */
  readonly unitMillimetres: number;
  /** How much smaller a printed hole comes out than drawn, m on the diameter, after scaling. */
  readonly holeUndersize: number;
  /** Step to which changed places and diameters are drawn, in the file's unit. */
  readonly rounding: number;
  /** 1 is the size as drawn. */
  readonly printScale: number;
  readonly holes: readonly NamedHole[];
  readonly fingerings: readonly Fingering[];
  readonly measured: readonly MeasuredNote[];
  /** Whether the mouth is a measured one: `correction`, or a model with the `extra` that measured notes demand. */
  readonly calibrated: boolean;
  /** How far a printed diameter may be from what it should be, m. */
  readonly printTolerance: number;
  /** What makes the jet, where the design says it. No prediction of pitch reads it. */
  readonly windway: StatedWindway;
  readonly lips: StatedLips;
  readonly breath: StatedBreath;
}

/** What the physics uses: the part of an instrument that a changed number changes. */
export interface Varied extends Pick<Instrument, "body"> {
  readonly air: Instrument["air"];
}

export interface Resolution {
  readonly instrument: Instrument;
  /** What the instrument was made from: the shape as drawn. */
  readonly draft: Draft;
  /**
   * The instrument with the number at `path` changed by `by`, in the file's own unit. With `follow`, what refers to it or stands
   * in for it changes too, as an edit would have it; without, only this one dimension of the printed object. Undefined where
   * nothing can be made of it.
   */
  readonly varied: (path: Path, by: number, follow: boolean) => Varied | undefined;
  readonly findings: readonly Finding[];
  /** How severe the design wants its findings to be. In `findings` they have their default severity. */
  readonly ruleLevels: RuleLevels;
  /** Every name that an expression of the design uses. Worked out when asked. */
  readonly nameUses: () => readonly NameUse[];
  /** Every number in the design, parameters included, in the order of the file. */
  readonly numbers: readonly ResolvedNumber[];
}
