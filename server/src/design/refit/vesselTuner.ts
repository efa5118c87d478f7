/** The notes of a vessel whose size and holes are being solved, and what the solution must keep to. */

import type { Sounding } from "../../acoustics/resonance.js";
import { vesselSensitivities } from "../../acoustics/vesselSensitivity.js";
import type { Vessel } from "../../acoustics/vesselShape.js";
import type { DesignDocument } from "../../document/designFile.js";
import { numberAt } from "../../document/designNumbers.js";
import { type Body, roundShape, sharedColumn } from "../../instrument/body.js";
import { centsAbove } from "../../music/cents.js";
import { type Constraints, constraintsOf } from "../constraints/constraints.js";
import { type Ground, vesselHoleLimits } from "../constraints/vesselLimits.js";
import { vesselShapeLimits } from "../constraints/vesselShapeLimits.js";
import type { NewNumber } from "../edit/numberWriter.js";
import { grownTube } from "../fix/grownTube.js";
import { holeName } from "../fix/remedy.js";
import type { AnalyseOptions } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import { type IndexedQuery, mapBody, soundingsOf } from "../predict/body.js";
import { orNone } from "../predict/orNone.js";
import { tunableNotesOf } from "../predict/tunableNotes.js";
import type { DrawingStep } from "./drawingStep.js";
import { STIFFNESS } from "./fit.js";
import type { Inequality } from "./quadraticProgram.js";
import { drawingSteps, drawn } from "./writeSolution.js";

/** Steps for slopes: of the size, relative; of a radius, mm. Notes are found to 0.001 cent. */
const SIZE_STEP = 1e-3;
const RADIUS_STEP = 0.01;
/** What a doubling of the size costs relative to cents; our own choice. A radius costs what it does in a tube. */
const SIZE_STIFFNESS = 0.05;
const HOLE = { kind: "hole-radius" } as const;

export interface VesselLimit extends Inequality {
  readonly message: string;
  readonly advice: string;
  /** mm of what the words speak of, and what that is at a point. */
  readonly limit: number;
  value(x: readonly number[]): number;
}

interface Notes {
  readonly x: readonly number[];
  readonly cents: readonly number[];
  readonly soundings: readonly (Sounding | undefined)[];
}

export interface VesselTunerOptions {
  /** How wide holes may become for the chamber. Default: what the prediction was checked for. */
  readonly ground?: Ground;
  /** The vessel as it was given, where the document is on the way from it. */
  readonly given?: Vessel | undefined;
}

/** Points are the size (1 is as drawn), then the radius of each hole that may change, printed millimetres. */
export class VesselTuner {
  /** Index of each fingering that counts. */
  readonly tunable: readonly number[];
  /** Indices of the holes that may change. */
  private readonly movable: readonly number[];
  private readonly queries: readonly IndexedQuery[];
  private readonly wanted: readonly number[];
  private readonly body: Body;
  readonly limits: readonly VesselLimit[];
  readonly ground: Ground;
  private readonly given: Vessel | undefined;

  constructor(
    private readonly document: DesignDocument,
    private readonly analysis: Analysis,
    private readonly targets: readonly (number | undefined)[],
    private readonly options: AnalyseOptions,
    { ground = "checked", given }: VesselTunerOptions = {},
  ) {
    this.ground = ground;
    this.given = given;
    const { instrument } = analysis;
    this.body = instrument.body;
    const constraints = constraintsOf(document);
    this.movable = instrument.holes.flatMap(({ path }, i) => (constraints.isFixed(path) ? [] : [i]));
    const tunable = tunableNotesOf(analysis, targets);
    this.tunable = tunable.map(({ query }) => query.index);
    this.queries = tunable.map(({ query }) => query);
    this.wanted = tunable.map(({ target }) => target);
    const widths = this.movable.flatMap((hole, i) => this.widthLimits(constraints, hole, i + 1));
    this.limits = [...widths, ...this.shapeLimits(constraints)];
  }

  /** The same with wider holes allowed than the prediction was checked for; undefined of a tube, which knows no such limit. */
  get beyond(): VesselTuner | undefined {
    if (roundShape(this.body) === undefined) return undefined;
    return new VesselTuner(this.document, this.analysis, this.targets, this.options, {
      ground: "beyond",
      given: this.given,
    });
  }

  /** The same vessel asked for other notes, or with something else of it changed that no unknown is. */
  asked(change: { readonly targets?: readonly (number | undefined)[]; readonly body?: Body }): VesselTuner {
    const { targets = this.targets, body = this.body } = change;
    const analysis = { ...this.analysis, instrument: { ...this.analysis.instrument, body } };
    const { ground, given } = this;
    return new VesselTuner(this.document, analysis, targets, this.options, { ground, given });
  }

  /** As drawn. */
  get radii(): readonly number[] {
    return this.movable.map((hole) => 1e3 * (this.radiusOf(hole) ?? Number.NaN));
  }

  /** Undefined where a fingering sounds nothing or the dimensions make no vessel. @throws Cancelled */
  at(x: readonly number[]): Notes | undefined {
    const found = orNone(() => soundingsOf(this.bodyAt(x), this.analysis.air, this.queries, this.options));
    if (found === undefined) return undefined;
    const cents = found.flatMap((sounding, i) =>
      sounding === undefined ? [] : [centsAbove(sounding.frequency, this.wanted[i] ?? sounding.frequency)],
    );
    return cents.length < this.queries.length ? undefined : { x, cents, soundings: found };
  }

  /** Cents for one more of each unknown, `[note][unknown]`. */
  slopes({ x, cents, soundings }: Notes): readonly (readonly number[])[] {
    const { air } = this.analysis;
    const perturbed = (i: number, step: number) => x.map((value, j) => (j === i ? value + step : value));
    const shape = roundShape(this.bodyAt(x));
    if (shape !== undefined) {
      const knobs = x.map((_, i) => ({
        step: i === 0 ? SIZE_STEP : RADIUS_STEP,
        change: (step: number) => {
          const vessel = roundShape(this.bodyAt(perturbed(i, step)));
          return vessel && { vessel, air };
        },
      }));
      const rows = vesselSensitivities(shape, air, this.queries, soundings, knobs);
      // What can be perturbed neither way is left where it is.
      return rows.map((row) => row.map((slope) => (Number.isNaN(slope) ? 0 : slope)));
    }
    const changed = x.map((_, i) => {
      const step = i === 0 ? SIZE_STEP : RADIUS_STEP;
      const there = this.at(perturbed(i, step));
      return { step, cents: there?.cents ?? cents };
    });
    return cents.map((here, note) => changed.map((each) => ((each.cents[note] ?? here) - here) / each.step));
  }

  prior(size: number): readonly { readonly value: number; readonly weight: number }[] {
    return [
      { value: size, weight: SIZE_STIFFNESS },
      ...this.radii.map((value) => ({ value, weight: STIFFNESS[HOLE.kind] })),
    ];
  }

  readonly sizeHeld: readonly Inequality[] = [
    { row: new Map([[0, 1]]), least: 1 },
    { row: new Map([[0, -1]]), least: -1 },
  ];

  /** The size is drawn already; holes go by the drawing's step. */
  get steps(): readonly DrawingStep[] {
    const holes = this.movable.map(() => HOLE);
    return [
      { step: 1, offset: 0 },
      ...drawingSteps(holes, this.analysis.instrument, constraintsOf(this.document).drills),
    ];
  }

  /** Diameters to draw. An oval hole keeps its length and takes the area by its width. */
  holeSizes(x: readonly number[]): readonly NewNumber[] {
    const { instrument } = this.analysis;
    return this.movable.map((hole, i) => {
      const path = [...(instrument.holes[hole]?.path ?? []), "diameter"];
      const oval = numberAt(this.document, [...path.slice(0, -1), "length"]) !== undefined;
      const radius = x[i + 1] ?? Number.NaN;
      const present = numberAt(this.document, path)?.value ?? Number.NaN;
      const value = oval ? present * (radius / (this.radii[i] ?? radius)) ** 2 : drawn(HOLE, radius, instrument);
      return { path, value };
    });
  }

  /** The limits that bind, the hardest first. @param multipliers of `limits` */
  binding(multipliers: readonly number[]): readonly VesselLimit[] {
    return this.limits
      .map((limit, i) => ({ limit, multiplier: multipliers[i] ?? 0 }))
      .filter(({ multiplier }) => multiplier > 1e-6)
      .sort((a, b) => b.multiplier - a.multiplier)
      .map(({ limit }) => limit);
  }

  private radiusOf(hole: number): number | undefined {
    return (roundShape(this.body) ?? sharedColumn(this.body))?.holes[hole]?.radius;
  }

  private bodyAt(x: readonly number[]): Body {
    const size = x[0] ?? 1;
    const radius = (hole: number, drawn: number) => {
      const i = this.movable.indexOf(hole);
      return i < 0 ? drawn : (x[i + 1] ?? Number.NaN) / 1e3;
    };
    const mouthAtSide = this.body.kind === "vessel" && this.body.chamber?.mouthAtSide === true;
    return mapBody(this.body, {
      vessel: (vessel) => {
        const [a, b, c] = vessel.semiAxes;
        const holes = vessel.holes.map((hole, i) => ({ ...hole, radius: radius(i, hole.radius) }));
        return { ...vessel, semiAxes: [a * size, b * size, c * size], holes };
      },
      column: (column) => {
        const grown = grownTube(column, mouthAtSide, size, size);
        const holes = column.holes.map((hole, i) => ({ ...hole, x: hole.x * size, radius: radius(i, hole.radius) }));
        return { ...grown, holes };
      },
    });
  }

  private widthLimits(constraints: Constraints, hole: number, unknown: number): readonly VesselLimit[] {
    const { instrument } = this.analysis;
    const own = vesselHoleLimits(instrument, constraints, hole, holeName(this.analysis, hole), this.ground);
    return own.map(({ kind, limit, ofCavity, message, advice }): VesselLimit => {
      const told = { message, advice, limit, value: (x: readonly number[]) => 2 * (x[unknown] ?? Number.NaN) };
      if (kind === "least") return { ...told, row: new Map([[unknown, 2]]), least: limit };
      if (!ofCavity) return { ...told, row: new Map([[unknown, -2]]), least: -limit };
      const row = new Map([
        [unknown, -2],
        [0, limit],
      ]);
      return { ...told, row, least: 0 };
    });
  }

  /** Of a round body. The places of a tube's holes keep their order by themselves. */
  private shapeLimits(constraints: Constraints): readonly VesselLimit[] {
    const shape = roundShape(this.body);
    if (shape === undefined) return [];
    const all = vesselShapeLimits(shape, constraints, this.analysis, this.given);
    return all.map(({ bySize, byRadius, least, limit, isMost, message, advice }): VesselLimit => {
      const row = new Map([[0, bySize]]);
      let rest = least;
      for (const [hole, factor] of byRadius) {
        const i = this.movable.indexOf(hole);
        if (i < 0) rest -= factor * 1e3 * (this.radiusOf(hole) ?? 0);
        else row.set(i + 1, factor);
      }
      const beyond = (x: readonly number[]) => [...row].reduce((sum, [i, factor]) => sum + factor * (x[i] ?? 0), -rest);
      const value = (x: readonly number[]) => limit + (isMost ? -1 : 1) * beyond(x);
      return { row, least: rest, limit, message, advice, value };
    });
  }
}
