/** What a design means where it is silent. The schema says the same to the maker; a test holds the two together. */
import { ISO_16_HZ } from "../music/tuning.js";

export const DEFAULTS = {
  temperament: "equal",
  /** ISO 16:1975. */
  pitchStandard: ISO_16_HZ,
  units: "mm",
  foot: "open",
  side: "front",
  register: 1,
  /** %, relative; indoor air. Common practice, no source. */
  humidity: 50,
  /** % by volume, outdoor air: the 400 ppm at which Cramer (JASA 93, 1993) takes standard air, rounded. */
  carbonDioxide: 0.04,
  /** kPa, the standard atmosphere (ISO 2533:1975). */
  pressure: 101.325,
  losses: true,
  printScale: 100,
  shrinkage: 0,
  holeUndersize: 0,
  /** Step of changed dimensions in the file's unit: 0.1 mm, what a printer resolves; a thousandth of an inch. Common practice, no source. */
  rounding: { mm: 0.1, in: 0.001 },
  /** ±, on diameters: what practical guides to filament printing in PLA give (±0.2 mm; ±0.3 mm in PETG). */
  printToleranceMillimetres: 0.2,
  /**
   * What lips do and in which air, decided together (docs/mouth.md): these four are what makes the lengths that are published or that every
   * maker cuts come out unbiased in the air of a design that says nothing of it, 22 °C (`borewright.airTemperature`) and `humidity`.
   * Those lengths are of played instruments, so that the warmth of breath is in the covers; with `air: played` notes come out 9 cents
   * higher. A window's `labium` is not fitted to them but comes from finite elements, and makes the duct flutes among them come out
   * unbiased; what the jet adds is in the band.
   *
   * Share of the embouchure hole under the lip.
   */
  transverseCover: 0.28,
  /** Share of an end-blown tube's mouth under the lip, where no notch is drawn: a stand-in for one, which is what nearly all of them have. */
  rimCover: 0.88,
  /** mm from the lip to the blowing edge of a notch, and of the wall there, its bevel averaged. 4 to 6, and 1.5 to 2, are found. */
  lipToEdge: 5,
  notchEdge: 2,
  /**
   * Share of a window's depth that the labium leaves: a printed one's, 17° steep with an edge of half a millimetre, by finite elements of
   * a window alone (test/reference/fem/labium.json: 0.67 to 0.75; sharpened down to the bore 0.56 to 0.60; a plate's lip 1).
   */
  labium: 0.7,
  /** mm: a pan pipe's tube where the design does not say. Common practice, no source; a millimetre more is some 2 cents. */
  pipeWall: 1.5,
  /**
   * Share of a pan pipe's mouth under the lip: as much as makes the mouth add what a published table of pipe lengths implies (½-inch
   * tubes: 9.9 mm in its low octaves, 10.8 in all, on 15.2 mm of bore; it scatters by ±1.5 mm). This makes 10.2 mm.
   */
  pipeCover: 0.54,
  /**
   * Distance of the stopper from the embouchure hole's centre in bore diameters. Common practice; Boehm's flute has
   * 17 mm for a bore of 19 mm (from memory).
   */
  stopperInBores: 1,
  /** mm: the printer's nozzle, where only airtightness is asked. The usual one; common practice, no source. */
  nozzleMillimetres: 0.4,
  /** Lines side by side that close a wall airtight. Common practice of filament printing, no source. */
  airtightLines: 3,
  /** How wide slicers lay a line, in nozzles. Common practice, no source. */
  lineInNozzles: [1, 1.2],
  /** mm: least wall between two holes, or between a hole and an end; four lines of extrusion. Common practice, no source. */
  holeGapMillimetres: 1.6,
  /** mm from a hole's edge to a joint: half of a tenon as long as a narrow bore is wide. Common practice, no source. */
  jointClearanceMillimetres: 10,
  /** Cents, standard: one play of one note by an ordinary player. Common practice, no source. */
  measuredUncertainty: 6,
} as const;

/**
 * Dimensions of a solid that no prediction reads, where the design is silent: mm as printed, degrees. All common practice, no source.
 * They grow with the instrument no more than a printer's lines do.
 */
export const SOLID_DEFAULTS = {
  windwayLength: 25,
  windwayExit: 1.2,
  /** Height at the entry over the exit's. */
  windwayEntryShare: 4 / 3,
  /** Width at the entry over the exit's. */
  windwayFlare: 1.2,
  /** At the windway's exit, floor and roof, 45°. */
  windwayChamfer: 0.4,
  /** Degrees to the axis, the labium's upper side and its underside. */
  ramp: 17,
  relief: 35,
  /** Thickness of the labium's blunt edge, which prints as one line, and how far its underside lies above the windway's floor. */
  edge: 0.5,
  edgeLift: 0.25,
  /** Degrees of the beak's cut to the axis; 90 leaves the end square. What it leaves under the windway's floor. */
  beakAngle: 42,
  beakLip: 5,
  /** Radial gap of a tenon, of a stopper, of a glued block. */
  fit: 0.2,
  stopperFit: 0.15,
  blockFit: 0.08,
  /** Length of a tenon in bore diameters. */
  tenonInBores: 1,
  tenonFinish: "thread",
  /** Room before a tenon's tip and beneath its thread or cork. */
  tenonPlay: 0.3,
  threadWidth: 5,
  threadDepth: 0.5,
  corkDepth: 1,
  /** What remains of a tenon at either end of its cork. */
  corkShoulder: 2,
  /** Where a ring is not needed for its wall: what it stands out, and its length beside the joint. */
  ringHeight: 0.8,
  ringLength: 3,
  stopperLength: 16,
  pipeStopperLength: 10,
  /** Tube beyond a stopper. */
  stopperMargin: 3,
  /** Edges that lie on the bed or in the hand, 45°: against the first layer's swelling. */
  chamfer: 0.4,
  thumbRest: { length: 15, width: 12, height: 4 },
  /** Two-chamber head: floor over bore and slow chamber, end wall, mouth hole, exit hole, room beside the block, cord's groove. */
  nestFloor: 1.4,
  endWall: 4,
  mouthHole: 8,
  exitLength: 6,
  nestMargin: 1.5,
  cordGroove: 6,
  cordDepth: 2,
  /** Length of a slow air chamber in bore diameters. */
  chamberInBores: 4,
  channelLength: 22,
  channelHeight: 1.1,
  block: { length: 45, width: 20, height: 16 },
  /** Degrees of a notch's slope to the axis. */
  notchRamp: 45,
  /** Vessel: floor of the windway over the cavity's pole, cheek beside the windway, wood over and under it. */
  vesselFloor: 1.2,
  cheek: 2.4,
  vesselRoof: 1.6,
  /** How far the foot of the pad round its window reaches into the shell, and how far that slopes out; the lip between the halves. */
  padFoot: 2,
  padSlope: 6,
  lipLength: 3,
} as const;

/** The jet where the design cannot say it, mm: lips' gap and breadth, by mouth; how far an edge lies off the jet's middle. Common practice, no source. */
export const JET_DEFAULTS = {
  lipGap: 1,
  embouchureBreadth: 10,
  rimBreadth: 9,
  edgeOffset: 0.1,
} as const;

/**
 * The player's hands where the design is silent, mm, holes' centres. All common practice, no source, but where one is named. `reach` is the most
 * along a tube, fingers curved; `spacing` the least, adults' fingers touching; an adult's `fingertip` is inferred from finger breadths
 * (Ann. Anat. 192 (2010) 156, abstract), no study. A child of 7 to 9 reaches three quarters as far.
 */
export const HANDS = {
  adult: {
    reach: { indexMiddle: 42, middleRing: 38, ringLittle: 36 },
    spacing: { hand: 17, hands: 20 },
    thumb: 35,
    fingertip: 12,
  },
  child: {
    reach: { indexMiddle: 31.5, middleRing: 28.5, ringLittle: 27 },
    spacing: { hand: 15, hands: 18 },
    thumb: 26,
    fingertip: 8,
  },
} as const;

/**
 * What a refit prefers among dimensions that play alike, and how much: common practice of makers, no source, but where one is named. A hole's width over the
 * bore's at its place; fingers of one hand in units of the least spacing (22 to 30 mm of adults), a thumb above its finger, mm. What a deviation
 * costs beside cents, per whole bore's width and per millimetre: our own choice, so that a note gives up a cent or two for a hole that can be felt and covered, and no more.
 */
export const COMFORT = {
  holeOverBore: [0.38, 0.65],
  spacing: [22 / 17, 30 / 17],
  thumbAbove: [5, 20],
  centsForWidth: 50,
  centsForSpacing: 0.5,
} as const;

/** Holes side by side and nearer than this lie under one finger: two adults' fingers touch. mm; common practice, no source. */
export const ONE_FINGER_MILLIMETRES = 17;

/** A finger's hole this far round the tube from its neighbour's costs no reach along the tube. mm; common practice, no source. */
export const EASY_SIDEWAYS_MILLIMETRES = 8;

/** How many holes, counted from the mouth, belong to the upper hand where the names do not say. Common practice, no source. */
export const UPPER_HAND = 3;

/**
 * Air by one word. `played` is breath in a warm instrument, as the reference works of the trade recommend (25…27 °C, damp, 2.5 %
 * carbon dioxide in the tube); measured values along a played bore are scarce, so take it as uncertain by some 10 cents. `room`
 * is the laboratory's. Temperature in °C, the others in percent.
 */
export const AIR_PRESETS = {
  room: { temperature: 20, humidity: 50, carbonDioxide: 0.04 },
  played: { temperature: 27, humidity: 100, carbonDioxide: 2.5 },
} as const;

/**
 * How far a finger closes a half-closed hole. Players half-close for a semitone, which takes a cover of 0.86 to 0.94 on six-hole
 * whistles and side-blown flutes, two-chamber and notch flutes of usual sizes (docs/mouth.md); half the area sounds almost as if it
 * were open. A pinched thumb leaves 10 to 20 % free. Common practice, no source.
 */
export const HALF_COVER = 0.9;

/** Millimetres in an inch: exact by the international yard and pound agreement of 1959. */
export const MILLIMETRES_PER_INCH = 25.4;
