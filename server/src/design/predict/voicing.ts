/** The jet of an instrument: from its sizes and, where it is silent, from common practice. */
import { boreRadiusAt, type Column } from "../../acoustics/column.js";
import type { Voicing } from "../../acoustics/jet/jet.js";
import type { Windway } from "../../acoustics/jet/windway.js";
import { JET_DEFAULTS, SOLID_DEFAULTS } from "../../instrument/defaults.js";
import type { Instrument } from "../../instrument/model.js";
import { t } from "../../words/translation.js";
import { lengthInWords } from "../wording.js";

export interface Blowing {
  readonly voicing: Voicing;
  /** The channel where friction takes breath; absent where lips make the jet. */
  readonly windway?: Windway;
  /** Whether lips make the jet: then its sizes change from note to note, and are taken as still. */
  readonly lips: boolean;
  /** What was assumed where the design is silent: `windway 1.2 mm high`. */
  readonly assumed: readonly string[];
  /** Whether some of it stands for stated sizes that make no jet. */
  readonly isNoJet: boolean;
}

const MM = 1e-3;

/** Cut-ups over the jet's height beyond which no jet reaches the edge; flutes have 3 to 8, organ pipes to 25. Common practice, no source. */
const JETS = { least: 2, most: 30 } as const;

/** Whether a height, m, is stated and makes a jet over its way to the edge. */
function makesJet(height: number | undefined, cutUp: number): boolean {
  return height !== undefined && cutUp >= JETS.least * height && cutUp <= JETS.most * height;
}

/** Undefined where no opening is described: an ideal or a measured mouth. */
export function blowingOf(
  instrument: Pick<Instrument, "windway" | "lips" | "unitMillimetres">,
  { mouth, bore }: Column,
): Blowing | undefined {
  const { windway } = instrument;
  const inWords = (mm: number) => lengthInWords(mm * MM, instrument);
  const byTheirs = (cutUp: number, breadth: number, area?: number) => byLips(instrument, cutUp, breadth, area);
  switch (mouth.kind) {
    case "window": {
      const { width, cutUp, stopper } = mouth;
      const usual = usualWindway(stopper !== undefined);
      const isUsual = !makesJet(windway.height, cutUp);
      const height = isUsual ? usual.height * MM : (windway.height as number);
      const length = windway.length ?? usual.length * MM;
      const entry = windway.entry ?? height * usual.entryShare;
      const misses = windway.labium !== undefined && windway.labium > height;
      const offset = misses ? undefined : windway.labium;
      return {
        voicing: { cutUp, width, height, offset: offset ?? JET_DEFAULTS.edgeOffset * MM, area: width * cutUp },
        windway: { length, entry, exit: height },
        lips: false,
        assumed: [
          ...(isUsual ? [t`windway ${inWords(usual.height)} high`] : []),
          ...(misses ? [t`labium ${inWords(JET_DEFAULTS.edgeOffset)} off the jet's middle`] : []),
        ],
        isNoJet: misses || (isUsual && windway.height !== undefined),
      };
    }
    case "embouchure": {
      const free = 1 - mouth.cover;
      const area = (free * Math.PI * mouth.length * mouth.width) / 4;
      return byTheirs(free * mouth.width, JET_DEFAULTS.embouchureBreadth, area);
    }
    case "notch":
      // A jet as wide as the slot between lip and edge.
      return byTheirs(mouth.cutUp, mouth.width / MM);
    case "rim":
      return byTheirs((1 - mouth.cover) * 2 * boreRadiusAt(bore, 0), JET_DEFAULTS.rimBreadth);
    default:
      return undefined;
  }
}

/** mm: what a solid takes, so that what is estimated is what would be printed. */
function usualWindway(isApart: boolean) {
  const { windwayExit, windwayLength, windwayEntryShare, channelHeight, channelLength } = SOLID_DEFAULTS;
  return isApart
    ? { height: channelHeight, length: channelLength, entryShare: 1 }
    : { height: windwayExit, length: windwayLength, entryShare: windwayEntryShare };
}

/**
 * What the design says of the lips wins over what is usual. @param breadth mm @param area m²; that of the jet's way where it is not said
 */
function byLips(
  instrument: Pick<Instrument, "lips" | "unitMillimetres">,
  usualCutUp: number,
  breadth: number,
  area?: number,
): Blowing {
  const { gap, width, distance } = instrument.lips;
  const { lipGap } = JET_DEFAULTS;
  const cutUp = distance ?? usualCutUp;
  const stated = makesJet(gap, cutUp) ? gap : undefined;
  const broad = width ?? breadth * MM;
  const [apart, wide] = [lipGap, breadth].map((mm) => lengthInWords(mm * MM, instrument, 1));
  return {
    voicing: { cutUp, width: broad, height: stated ?? lipGap * MM, offset: 0, area: area ?? cutUp * broad },
    lips: true,
    assumed:
      stated === undefined && width === undefined
        ? [t`lips ${apart} apart and ${wide} wide`]
        : [
            ...(stated === undefined ? [t`lips ${apart} apart`] : []),
            ...(width === undefined ? [t`lips ${wide} wide`] : []),
          ],
    isNoJet: gap !== undefined && stated === undefined,
  };
}
