/**
 * Every part of a band, added up again from the slopes of the design's own numbers (sensitivity.ts, which tests hold to whole analyses). The
 * spreads are those stated (band.ts, with their sources): of the mouth, of the air, of a printer.
 */
import { describe, expect, it } from "vitest";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { bandsOf } from "../../../server/src/design/predict/band.js";
import {
  AIR_CARBON_DIOXIDE,
  AIR_HUMIDITY,
  AIR_TEMPERATURE,
  sensitivitiesOf,
} from "../../../server/src/design/predict/sensitivity.js";
import type { Path } from "../../../server/src/instrument/finding.js";
import { pathKey } from "../../../server/src/instrument/path.js";
import { centsAbove } from "../../../server/src/music/cents.js";
import { documentOf, fileOf } from "../../support/designs.js";
import { panPipe, vessel } from "../../support/families.js";
import { tube } from "../../support/marked.js";

const designOf = (text: string) => {
  const { resolution } = documentOf(fileOf(text));
  return { resolution, analysis: analyse(resolution.instrument) };
};
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

interface Part {
  readonly kind: "mouth" | "shape" | "air" | "print";
  readonly cents: readonly number[];
  /** Times below and above the prediction. */
  readonly sides?: readonly [number, number];
}

/** Cents of every note for so much of one number of the design, and of nothing that hangs on it. */
function slopes(text: string) {
  const { resolution, analysis } = designOf(text);
  const found = sensitivitiesOf(resolution, analysis, { of: "part" });
  return (path: Path, spread: number) => {
    const own = found.get(pathKey(path));
    if (own === undefined) throw new Error(`no slope of ${path.join(".")}`);
    return own.centsPerUnit.map((cents = Number.NaN) => cents * spread);
  };
}

function bandsFrom(parts: readonly Part[]) {
  const notes = parts[0]?.cents.length ?? 0;
  const side = (at: (part: Part) => number, which: 0 | 1) =>
    Math.hypot(...parts.map((part) => at(part) * (part.sides?.[which] ?? 1)));
  const own = (part: Part) => mean(part.cents);
  const togetherReach = { below: side(own, 0), above: side(own, 1) };
  return Array.from({ length: notes }, (_, i) => {
    const at = ({ cents }: Part) => cents[i] ?? Number.NaN;
    const reach = { below: side(at, 0), above: side(at, 1) };
    const share = (kind: Part["kind"]) => Math.hypot(...parts.filter((part) => part.kind === kind).map(at));
    const kinds = ["mouth", "shape", "air", "print"] as const;
    return {
      cents: Math.max(reach.below, reach.above),
      reach,
      mostly: kinds.reduce((most, kind) => (share(kind) > share(most) ? kind : most)),
      together: Math.max(togetherReach.below, togetherReach.above),
      togetherReach,
      against: Math.hypot(...parts.map((part) => at(part) - own(part))),
    };
  });
}

/** Numbers rounded to a millionth of a cent. */
const rounded = (value: unknown) =>
  JSON.parse(JSON.stringify(value), (_, each) => (typeof each === "number" ? Number(each.toFixed(5)) : each));

const NOTES = "fingerings: [{ note: G4, holes: ●● }, { note: A4, holes: ●○ }, { note: B4, holes: ○○ }]\n";
const HOLES = "holes: [{ at: 220, diameter: 7, length: 8, chimney: 5, undercut: 0.5 }, { at: 250, diameter: 6 }]\n";
/** Shares of the print's tolerance: places come out truer than diameters, by half. */
const OF_HOLES = {
  "holes.0.at": 0.5,
  "holes.0.diameter": 1,
  "holes.0.length": 1,
  "holes.0.chimney": 1,
  "holes.0.undercut": 1,
  "holes.1.at": 0.5,
  "holes.1.diameter": 1,
};
const OF_BORE = {
  "bore.0.at": 0.5,
  "bore.0.diameter": 1,
  "bore.1.at": 0.5,
  "bore.1.diameter": 1,
  wall: 1,
};
/** The same shares of several stations, holes or pipes. */
const eachOf = (part: string, indices: readonly number[], shares: Readonly<Record<string, number>>) =>
  Object.fromEntries(
    indices.flatMap((index) => Object.entries(shares).map(([name, share]) => [`${part}.${index}.${name}`, share])),
  );
const PRINT = "print: { tolerance: 0.3, shrinkage: 0 %, scale: 150 % }\n";

/** By the name of a mouth: a design whose mouth nobody has measured, how far it may lie below and above, and what of it is printed. */
const DESIGNS: readonly (readonly [
  string,
  string,
  readonly [number, number],
  number,
  Readonly<Record<string, number>>,
])[] = [
  [
    "a window",
    tube(
      // One hole's place hangs on another's and a width on a number; each part of the print comes out by itself.
      `parameters: { wide: 16 }\nmouth: { window: { width: 9, cutUp: 4.5, stopper: 6 }, windway: { height: 0.9, length: 30 } }\n${HOLES}${NOTES}${PRINT}`,
    )
      .replace("{ at: 220", "{ name: A, at: 220")
      .replace("{ at: 250", '{ at: "=A.at + 30"')
      .replace("diameter: 16", "diameter: =wide"),
    [20, 35],
    5,
    {
      ...OF_HOLES,
      ...OF_BORE,
      "mouth.window.width": 1,
      "mouth.window.cutUp": 1,
      "mouth.window.stopper": 0.5,
    },
  ],
  [
    "a hole across",
    tube(
      `family: transverse\nmouth: { hole: { length: 10, width: 11 }, stopper: 16, cover: 0.4, lips: { gap: 0.8, width: 9 } }\nbore: [{ at: -16, diameter: 16 }, { at: 352, diameter: 16 }]\n${HOLES}${NOTES}${PRINT}`,
    ),
    [25, 25],
    5,
    { ...OF_HOLES, ...OF_BORE, "mouth.hole.length": 1, "mouth.hole.width": 1, "mouth.stopper": 0.5 },
  ],
  [
    "a notch",
    tube(`family: rim\nmouth: { cover: 0.6, notch: { width: 9, depth: 4 } }\n${HOLES}${NOTES}${PRINT}`),
    [35, 35],
    5,
    { ...OF_HOLES, ...OF_BORE, "mouth.notch.width": 1, "mouth.notch.depth": 1 },
  ],
  // The two stations of a step are one edge of the print. That a hole lies where a station does, or one is as wide as another is far, says nothing.
  [
    "a rim",
    tube(
      `family: rim\nmouth: { cover: 0.6 }\nbore: [{ at: 0, diameter: 16 }, { at: 16, diameter: 16 }, { at: 250, diameter: 16 }, { at: 300, diameter: 16 }, { at: 300, diameter: 15 }, { at: 352, diameter: 15 }]\nholes: [{ at: 190, diameter: 6 }, { at: 210, diameter: 6 }, { at: 230, diameter: 6 }, { at: 250, diameter: 6 }]\nfingerings: [{ note: G4, holes: ●●●● }, { note: A4, holes: ●●●○ }, { note: D5, holes: ○○○○ }]\n${PRINT}`,
    ),
    [45, 45],
    5,
    {
      ...OF_BORE,
      ...eachOf("bore", [2, 3, 5], { at: 0.5, diameter: 1 }),
      "bore.4.diameter": 1,
      ...eachOf("holes", [0, 1, 2, 3], { at: 0.5, diameter: 1 }),
    },
  ],
  [
    "pan pipes",
    panPipe(`wall: 2\n${PRINT}`),
    [20, 20],
    5,
    {
      ...eachOf("pipes", [0, 1, 2], { length: 0.5, diameter: 1 }),
      wall: 1,
    },
  ],
  [
    "a vessel",
    vessel(
      `holes: [{ diameter: 5, angle: 60 }, { diameter: 6, angle: 120, chimney: 6 }]\n${NOTES}air: { temperature: 18, humidity: 90, carbonDioxide: 1 }\n${PRINT}`,
    ),
    [40, 40],
    10,
    {
      "mouth.window.width": 1,
      "mouth.window.cutUp": 1,
      "vessel.length": 0.5,
      "vessel.width": 1,
      "vessel.height": 1,
      "holes.0.diameter": 1,
      "holes.1.diameter": 1,
      "holes.1.chimney": 1,
      wall: 1,
    },
  ],
];

/** The text with the length of its mouth stated, as measuring it leaves it. */
const measured = (text: string) =>
  text.includes("mouth: {") ? text.replace("mouth: {", "mouth: { extra: 0,") : `${text}mouth: { extra: 0 }\n`;

const bands = (text: string) => {
  const { resolution, analysis } = designOf(text);
  return bandsOf(resolution, analysis);
};

/** All parts but the mouth's; and the mouth's for so many cents of its length, by the slopes of the same design once its mouth is measured. */
function partsOf(text: string, printed: Readonly<Record<string, number>>, length = "extra") {
  const slopeOf = slopes(length === "extra" ? measured(text) : text);
  const { air, printTolerance, printedUnit } = designOf(text).analysis.instrument;
  const perMillimetre = slopeOf(["mouth", length], 1);
  const mouth = (below: number, above: number): Part => {
    const half = (below + above) / 2;
    const cents = perMillimetre.map((each) => (each * half) / mean(perMillimetre));
    return { kind: "mouth", cents, sides: [below / half, above / half] };
  };
  const others: readonly Part[] = [
    { kind: "air", cents: slopeOf(AIR_TEMPERATURE, air.temperature === undefined ? 2 : 1) },
    { kind: "air", cents: slopeOf(AIR_HUMIDITY, air.humidity >= 0.9 ? 10 : 25) },
    { kind: "air", cents: slopeOf(AIR_CARBON_DIOXIDE, air.carbonDioxide >= 0.01 ? 0.75 : 1.5) },
    // Another tenth of a percent of shrinkage.
    { kind: "print", cents: slopeOf(["print", "shrinkage"], 0.1) },
    ...Object.entries(printed).map(([dotted, share]): Part => {
      const path = dotted.split(".").map((part) => (/^\d+$/.test(part) ? Number(part) : part));
      return { kind: "print", cents: slopeOf(path, (share * printTolerance) / printedUnit) };
    }),
  ];
  return { mouth, others };
}

describe.each(DESIGNS)("the band of %s", (_, text, [below, above], calibrated, printed) => {
  const { mouth, others } = partsOf(text, printed);
  it("has from the mouth what such mouths lie off their model, from air and print what each number moves", () => {
    expect(rounded(bands(text))).toEqual(rounded(bandsFrom([mouth(below, above), ...others])));
  });
  it("has less from a mouth that was measured", () => {
    expect(rounded(bands(measured(text)))).toEqual(rounded(bandsFrom([mouth(calibrated, calibrated), ...others])));
  });
});

it("the band of a mouth stated as one length has from it what measuring leaves, and that length is not printed", () => {
  const text = tube(`mouth: { correction: 40 }\n${HOLES}${NOTES}${PRINT}`);
  const { mouth, others } = partsOf(text, { ...OF_HOLES, ...OF_BORE }, "correction");
  expect(rounded(bands(text))).toEqual(rounded(bandsFrom([mouth(5, 5), ...others])));
});

it("a band does not count a hole's undersize as a dimension of its own", () => {
  const text = tube(
    `mouth: { correction: 40 }\n${HOLES}${NOTES}${PRINT.replace("tolerance: 0.3", "tolerance: 0.3, holeUndersize: 0.1")}`,
  );
  const { mouth, others } = partsOf(text, { ...OF_HOLES, ...OF_BORE }, "correction");
  // The undersize does not shrink with the print: a thousandth of a cent.
  expect(bands(text).map((band) => band?.cents)).toEqual(
    bandsFrom([mouth(5, 5), ...others]).map(({ cents }) => expect.closeTo(cents, 2)),
  );
});

it("the band of a textbook's mouth has nothing of it", () => {
  const text = tube(`${HOLES}${NOTES}${PRINT}`);
  const likewise = partsOf(
    text.replace("mouth: ideal", "mouth: { correction: 0 }"),
    { ...OF_HOLES, ...OF_BORE },
    "correction",
  );
  const [found, parts] = [bands(text), bandsFrom(likewise.others)];
  expect(found.map((band) => band?.togetherReach.above)).toEqual(parts.map((band) => expect.closeTo(band.together, 5)));
});

describe("the band of a chamber", () => {
  const chamber = (shape: string, holes = "{ diameter: 5, angle: 60 }, { diameter: 6, angle: 120 }") =>
    vessel(`holes: [${holes}]\n${NOTES}print: { tolerance: 0, shrinkage: 0 % }\n`, shape);
  const hertz = (shape: string) =>
    designOf(chamber(shape)).analysis.fingerings.map(({ predictedHz = Number.NaN }) => predictedHz);

  it("of which only the volume is known reaches to what one three times as long as wide would sound", () => {
    // cm³: of a sphere, and of an ellipsoid of these widths; mm.
    const volume = 113.1;
    const width = 10 * Math.cbrt((2 * volume) / Math.PI);
    const long = hertz(`shape: ellipsoid, length: ${3 * width}, width: ${width}, height: ${width}`);
    const cents = hertz(`volume: ${volume}`).map((hz, i) => centsAbove(long[i] ?? Number.NaN, hz));
    const text = chamber(`volume: ${volume}`);
    const { mouth, others } = partsOf(text, {});
    expect(rounded(bands(text))).toEqual(rounded(bandsFrom([mouth(40, 40), { kind: "shape", cents }, ...others])));
    // A measured mouth has taken up what all notes share.
    const against = cents.map((each) => each - mean(cents));
    expect(rounded(bands(measured(text)))).toEqual(
      rounded(bandsFrom([mouth(10, 10), { kind: "shape", cents: against }, ...others])),
    );
  });

  it("that is a box is 10 cents less sure, unless its mouth was measured", () => {
    const text = chamber("shape: box, length: 70, width: 50, height: 40");
    const { mouth, others } = partsOf(text, {});
    const box: Part = { kind: "shape", cents: [10, 10, 10] };
    expect(rounded(bands(text))).toEqual(rounded(bandsFrom([mouth(40, 40), box, ...others])));
    expect(rounded(bands(measured(text)))).toEqual(rounded(bandsFrom([mouth(10, 10), ...others])));
  });

  it("whose open hole is wider than was checked is less sure of that note by the square of the width", () => {
    // 0.3 of the narrowest half-axis of 20 mm, where 3 cents are left at 0.2.
    const text = chamber(
      "shape: ellipsoid, length: 70, width: 50, height: 40",
      "{ diameter: 5, angle: 60 }, { diameter: 12, angle: 120 }",
    );
    const { mouth, others } = partsOf(text, {});
    const wide: Part = { kind: "shape", cents: [0, 3 * 1.5 ** 2, 3 * 1.5 ** 2] };
    const [closed, ...open] = bands(text);
    const [alike, ...wider] = bandsFrom([mouth(40, 40), wide, ...others]);
    expect(rounded([closed?.reach, open.map((band) => band?.reach)])).toEqual(
      rounded([alike?.reach, wider.map((band) => band.reach)]),
    );
  });
});

it("a note that cannot be predicted has no band, and counts for none of the others", () => {
  const text = tube(`mouth: { window: { width: 9, cutUp: 4.5 } }\n${HOLES}${NOTES}`);
  const more = text.replace("fingerings: [", "fingerings: [{ note: G4, holes: ●●, register: 16 }, ");
  expect(rounded(bands(more).slice(1))).toEqual(rounded(bands(text)));
  expect(bands(more)[0]).toBeUndefined();
});
