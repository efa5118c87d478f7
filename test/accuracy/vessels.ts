/** Source: three-dimensional finite elements, test/reference/fem-open.json and fem-ellipsoids.json. */
import { vesselSoundings } from "../../server/src/acoustics/vessel.js";
import type { Vessel } from "../../server/src/acoustics/vesselShape.js";
import { losslessAir } from "../acoustics/instruments.js";
import ellipsoids from "../reference/fem-ellipsoids.json" with { type: "json" };
import data from "../reference/fem-open.json" with { type: "json" };
import { type ComparisonTable, inCents } from "./comparison.js";
import { tubeVesselTable } from "./tubeVessels.js";

const MM = 1e-3;
const DEGREE = Math.PI / 180;

export const roundMouth = (diameter: number, chimney: number): Vessel["mouth"] => ({
  kind: "embouchure",
  length: diameter,
  width: diameter,
  chimney,
  cover: 0,
  stopper: 0,
});

/** Holes opened in the order listed. */
export const opened = (count: number, open: number) => Array.from({ length: count }, (_, i) => (i < open ? 0 : 1));

interface VesselCase {
  readonly name: string;
  readonly vessel: Vessel;
  readonly openings: readonly { readonly extraHolesOpen: number; readonly hz: number; readonly q: number }[];
}

function openingsOf({ name, vessel, openings }: VesselCase, allowedCents: number, allowedShareOfQ: number) {
  return openings.map(({ extraHolesOpen, hz, q }) => {
    const query = { covers: opened(vessel.holes.length, extraHolesOpen), register: 1 };
    const [sounding] = vesselSoundings(vessel, losslessAir, [query]);
    const title = `${name}, ${extraHolesOpen} holes open`;
    return {
      ...inCents(title, sounding?.frequency ?? Number.NaN, hz, allowedCents),
      qualityShare: (sounding?.quality ?? Number.NaN) / q - 1,
      allowedShareOfQ,
    };
  });
}

const spheres: readonly VesselCase[] = data.vessels.map(({ name, holes, openings }) => ({
  name,
  openings,
  vessel: {
    semiAxes: [30 * MM, 30 * MM, 30 * MM],
    wall: 4 * MM,
    mouth:
      name === "E_round"
        ? roundMouth(7.14 * MM, 4 * MM)
        : { kind: "window", width: 8 * MM, cutUp: 5 * MM, chimney: 4 * MM },
    holes: holes.map((h) => ({ radius: (h.diameter / 2) * MM, chimney: 4 * MM, angle: h.angleDegrees * DEGREE })),
  },
}));

export const ellipsoidCases: readonly VesselCase[] = ellipsoids.vessels.map((given) => {
  const [a = 0, b = 0, c = 0] = given.semiAxes.map((axis) => axis * MM);
  const vessel: Vessel = {
    semiAxes: [a, b, c],
    wall: given.wall * MM,
    mouth: roundMouth(given.mouth.diameter * MM, given.mouth.chimney * MM),
    holes: given.holes.map((h) => ({
      radius: (h.diameter / 2) * MM,
      chimney: h.chimney * MM,
      angle: h.angleDegrees * DEGREE,
    })),
  };
  return { name: given.name, vessel, openings: given.openings };
});

const rest = { unit: "Hz", decimals: 2, differenceUnit: "cents", differenceDecimals: 2 };

export const vesselTables = [
  {
    ...rest,
    title: "Spherical vessels",
    source: "Three-dimensional finite elements, as above: `test/reference/fem-open.json`.",
    unknown: "Uncertain by 0.7 cent. The air is lossless, the holes lie in one plane, and there is no breath.",
    rows: spheres.flatMap((each) => openingsOf(each, 3, 0.05)),
  },
  {
    ...rest,
    title: "Ellipsoidal vessels",
    source: "The same method: `test/reference/fem-ellipsoids.json`, `test/reference/fem/ellipsoid.py`.",
    unknown:
      "Uncertain by 0.6 to 0.9 cent. V1 to V3 were seen while the model was put together, V4 and V5 only afterwards. No constant was fitted.",
    rows: ellipsoidCases.flatMap((each) => openingsOf(each, 5, 0.08)),
  },
  tubeVesselTable,
] satisfies ComparisonTable[];
