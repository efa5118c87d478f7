/**
 * A simulated workshop, seeded: what a printer makes of a design, what a player plays on it, what tools cut. All sizes common
 * practice, no source, but for the printer's, which are what the product takes a printer to be good to (`print.tolerance`, ±0.2 mm).
 */
import { analyse } from "../../server/src/design/predict/analyse.js";
import type { Analysis } from "../../server/src/design/predict/analysis.js";
import type { DesignDocument } from "../../server/src/document/designFile.js";
import { resolveInstrument } from "../../server/src/instrument/check.js";
import { centsAbove } from "../../server/src/music/cents.js";
import { frequencyOf, tunerZero } from "../../server/src/music/tuning.js";
import { Random } from "../hostile/random.js";

/** Standard deviations. */
export interface Workmanship {
  /** mm of each diameter and of each place; of the wall. */
  readonly diameter: number;
  readonly place: number;
  /** Cents by which the player's lips lower or raise the lowest note; the others follow as from a mouth so much longer or shorter. */
  readonly mouth: number;
  /** °C of the thermometer. */
  readonly thermometer: number;
  /** Cents of the breath: of one session, and of one play of one note. */
  readonly session: number;
  readonly play: number;
  /** mm of a cut. */
  readonly cut: number;
  /** What one printer does alike every time, unknown to the design: mm on every hole's diameter, and percent of shrinkage. */
  readonly undersize: number;
  readonly shrinkage: number;
}

export const USUAL: Workmanship = {
  diameter: 0.1,
  place: 0.1,
  mouth: 8,
  thermometer: 0.5,
  session: 2,
  play: 4,
  cut: 0.03,
  undersize: 0,
  shrinkage: 0,
};

/** Plays of each note that are pooled into one measured note. */
const PLAYS = 4;
/** mm: what the lips' effect is found by. */
const TRIAL = 0.05;
/** Sittings on different days, with new errors of breath and thermometer. */
const SITTINGS = 2;
/** °C of the room. */
const ROOM = [17, 24] as const;

/** What one printer and one player do alike every time. */
const ALIKE = new Set(["holeUndersize", "shrinkage", "mouth"]);

type Data = Record<string, unknown>;
const list = (data: Data, key: string) =>
  ((data[key] as readonly Data[] | undefined) ?? []).map((item) => ({ ...item }));

/** One instrument, made by somebody's printer for somebody's lips. */
export class Workshop {
  private readonly random: Random;
  private readonly errors = new Map<string, number>();

  constructor(
    seed: number,
    private readonly how: Workmanship = USUAL,
  ) {
    this.random = new Random(seed);
  }

  /** Normally distributed about nothing (Box and Muller, 1958). */
  normal(sigma: number): number {
    const [u, v] = [1 - this.random.share(), this.random.share()];
    return sigma * Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * v);
  }

  /** What the design has become as a thing: every number with the error that it was made with, and the player's mouth. */
  private thing({ resolution }: DesignDocument): Analysis {
    const { draft } = resolution;
    const data: Data = { ...(draft.data as Data) };
    const off = (key: string, sigma: number) => {
      const known = this.errors.get(key) ?? this.normal(sigma);
      this.errors.set(key, known);
      return known;
    };
    const made = (items: Data[], name: string) =>
      items.map((item, i) => ({
        ...item,
        ...Object.fromEntries(
          [
            ["at", this.how.place],
            ["length", this.how.place],
            ["diameter", this.how.diameter],
          ].flatMap(([property, sigma]) => {
            const value = draft.numbers.at([name, i, property as string]);
            const isMouth = name === "bore" && property === "at" && value === 0;
            return value === undefined || isMouth
              ? []
              : [[property, value + off(`${name}.${i}.${property}`, sigma as number)]];
          }),
        ),
      }));
    const holes: Data[] = made(list(data, "holes"), "holes");
    // One tube is as wide as its printer makes it.
    const bore = made(list(data, "bore"), "bore").map((station, i) => {
      const width = draft.numbers.at(["bore", i, "diameter"]) ?? 0;
      return { ...station, diameter: width + off("bore", this.how.diameter) };
    });
    const print = data.print as Data | undefined;
    // What the printer does, whatever a calibration writes of it into the design afterwards.
    const does = (name: "shrinkage" | "holeUndersize", sigma: number) => {
      const known = this.errors.get(name) ?? (draft.numbers.at(["print", name]) ?? 0) + this.normal(sigma);
      this.errors.set(name, known);
      return known;
    };
    const undersize = holes.length === 0 ? 0 : does("holeUndersize", this.how.undersize);
    // A design has no word for holes that come out wider.
    for (const hole of holes) hole.diameter = Number(hole.diameter) - Math.min(0, undersize);
    const shrinkage = does("shrinkage", this.how.shrinkage);
    const extra = this.mouthOf(data, draft.numbers.at(["mouth", "extra"]) ?? 0);
    const wall = (draft.wall ?? 1.5) + off("wall", this.how.diameter);
    return analyse(
      resolveInstrument({
        ...data,
        ...(data.bore === undefined ? {} : { bore }),
        ...(data.holes === undefined ? {} : { holes }),
        ...(data.pipes === undefined ? {} : { pipes: made(list(data, "pipes"), "pipes") }),
        wall,
        print: { ...print, shrinkage, holeUndersize: Math.max(0, undersize) },
        mouth: { ...this.cutMouth(data, draft.numbers), extra },
      }).instrument,
    );
  }

  /** The mouth's opening as the tools have left it; as drawn where none was used, for what the printer does to it counts as the lips'. */
  private cutMouth({ mouth }: Data, numbers: { at(path: readonly string[]): number | undefined }): Data {
    const made = { ...(mouth as Data | undefined) };
    for (const [key, error] of this.errors) {
      const path = key.split(".");
      const [where, opening, property] = path;
      const size = numbers.at(path);
      if (where !== "mouth" || opening === undefined || property === undefined || size === undefined) continue;
      made[opening] = { ...(made[opening] as Data), [property]: size + error };
    }
    return made;
  }

  /** In the file's unit: the mouth's length with the player's lips, whatever a calibration writes into the design afterwards. */
  private mouthOf(data: Data, extra: number): number {
    const known = this.errors.get("mouth");
    if (known !== undefined) return known;
    const lowest = (longer: number) => {
      const mouth = { ...(data.mouth as Data | undefined), extra: extra + longer };
      return analyse(resolveInstrument({ ...data, mouth }).instrument).fingerings[0]?.predictedHz ?? Number.NaN;
    };
    const found = extra + this.normal(this.how.mouth) / (centsAbove(lowest(TRIAL), lowest(0)) / TRIAL);
    this.errors.set("mouth", found);
    return found;
  }

  /** Another print by the same printer, for the same lips. */
  reprint(): void {
    for (const key of this.errors.keys()) if (!ALIKE.has(key)) this.errors.delete(key);
  }

  /** A tool that takes a little more or less than intended. */
  cut(paths: readonly string[]): void {
    for (const path of paths) {
      const key = path.replace(/\[(\d+)\]/g, ".$1");
      this.errors.set(key, (this.errors.get(key) ?? 0) + this.normal(this.how.cut));
    }
  }

  /** Cents of every fingering above its note, where it is to be in tune; undefined of one that does not sound. */
  truly(document: DesignDocument): readonly (number | undefined)[] {
    const { fingerings, instrument } = this.thing(document);
    return fingerings.map(({ fingering: { target }, predictedHz }) =>
      target === undefined || predictedHz === undefined
        ? undefined
        : centsAbove(predictedHz, frequencyOf(target, instrument.tuning)),
    );
  }

  /** `measured` as somebody writes it down in some sittings: a tuner's whole cents, each note pooled from several plays. */
  measured(document: DesignDocument, sittings = SITTINGS): string {
    return `[${Array.from({ length: sittings }, () => this.sitting(document))
      .flat()
      .join(", ")}]`;
  }

  private sitting(document: DesignDocument): readonly string[] {
    const { notes, read } = this.session(document);
    const { pitchStandard } = document.resolution.instrument.tuning;
    return notes.flatMap(({ target, pattern, hz }) => {
      if (target === undefined || hz === undefined) return [];
      const shown = centsAbove(hz, tunerZero(target, pitchStandard)) + this.normal(this.how.play / Math.sqrt(PLAYS));
      const holes = pattern === undefined || pattern === "" ? "" : `, holes: "${pattern}"`;
      return `{ note: "${target.name}", cents: ${Math.round(shown)}, temperature: ${read.toFixed(1)}, uncertainty: 3${holes} }`;
    });
  }

  /** What the fingerings sound in one sitting, without the scatter of single plays; and what the thermometer reads. */
  private session(document: DesignDocument) {
    const temperature = this.random.between(...ROOM);
    const { instrument } = this.thing(document);
    const there = analyse({ ...instrument, air: { ...instrument.air, temperature } });
    const breath = 2 ** (this.normal(this.how.session) / 1200);
    const notes = there.fingerings.map(({ fingering: { target, pattern }, predictedHz }) => ({
      target,
      pattern,
      hz: predictedHz && predictedHz * breath,
    }));
    return { notes, read: temperature + this.normal(this.how.thermometer) };
  }

  /** The scale up and down, twice, in one sitting: Hz of each play, and what the thermometer reads. */
  plays(document: DesignDocument): { readonly hz: readonly number[]; readonly read: number } {
    const { notes, read } = this.session(document);
    const up = notes.flatMap(({ hz }) => hz ?? []);
    const order = [up, [...up].reverse()].flat();
    return { hz: [...order, ...order].map((hz) => hz * 2 ** (this.normal(this.how.play) / 1200)), read };
  }
}
