import { type AirMixture, chaigneKergomardAir, speedOfSound } from "../../server/src/acoustics/air.js";
import { waveConstants } from "../../server/src/acoustics/losses.js";
import { apart, type ComparisonTable, inCents, inMillionths } from "./comparison.js";

export const ATMOSPHERE = 101_325;

/** °C; m/s dry with 314 ppm of carbon dioxide, at 50 % and 100 % of humidity with 400 ppm. */
const CRAMER: readonly (readonly [number, number, number, number])[] = [
  [0, 331.455, 331.6035, 331.7594],
  [10, 337.4669, 337.7811, 338.1026],
  [15, 340.431, 340.8756, 341.3275],
  [20, 343.3672, 343.9867, 344.6132],
  [25, 346.2755, 347.1265, 347.984],
  [26.85, 347.3445, 348.2984, 349.2584],
  [30, 349.156, 350.3097, 351.4689],
  [35, 352.0085, 353.5537, 355.1024],
];

const MIXTURES: readonly [string, Pick<AirMixture, "humidity" | "carbonDioxide">][] = [
  ["dry, 314 ppm CO2", { humidity: 0, carbonDioxide: 0.000314 }],
  ["50 % humidity, 400 ppm", { humidity: 0.5, carbonDioxide: 0.0004 }],
  ["100 % humidity, 400 ppm", { humidity: 1, carbonDioxide: 0.0004 }],
];

/** The table is printed to 0.0001 m/s, half a thousandth of a cent. */
export const speedTable: ComparisonTable = {
  title: "Speed of sound",
  source:
    "O. Cramer, J. Acoust. Soc. Am. 93 (1993) 2510, eq. (15), evaluated in Python independently of our code; the coefficients agree with three published copies.",
  unknown:
    "Cramer states an uncertainty of 300 ppm, half a cent, from 0 to 30 °C and up to 1 % carbon dioxide; 35 °C and breath lie outside that range. The air inside a played instrument is not known: it varies along the bore and can shift a note by 10 to 20 cents.",
  unit: "m/s",
  decimals: 4,
  differenceUnit: "cents",
  differenceDecimals: 4,
  rows: CRAMER.flatMap(([temperature, ...speeds]) =>
    MIXTURES.map(([name, mixture], i) =>
      inCents(
        `${temperature} °C, ${name}`,
        speedOfSound({ temperature, pressure: ATMOSPHERE, ...mixture }),
        speeds[i] as number,
        0.001,
      ),
    ),
  ),
};

/** °C; ρ, μ · 1e5, Pr, c. */
const CHAIGNE_KERGOMARD: readonly (readonly [number, number, number, number, number])[] = [
  [15, 1.2256, 1.7823, 0.7064, 340.429],
  [20, 1.20469, 1.80706, 0.7051, 343.37],
  [25, 1.18449, 1.83183, 0.7039, 346.286],
  [26.85, 1.17719, 1.84099, 0.7034, 347.359],
  [30, 1.16495, 1.8566, 0.7027, 349.177],
];

export const airConstants: ComparisonTable = {
  title: "Constants of air",
  source: "A. Chaigne & J. Kergomard, Acoustics of Musical Instruments, 2016, chapter 5, evaluated in Python.",
  unknown:
    "The coefficients were written down from memory. Three published viscosities differ by less than 0.4 %, which shifts a 10 mm bore at 440 Hz by 0.05 cent. Humidity and carbon dioxide affect only the speed of sound, not these constants.",
  unit: "kg/m³, 10⁻⁵ Pa s, 1, m/s",
  decimals: 5,
  differenceUnit: "same unit",
  differenceDecimals: 6,
  rows: CHAIGNE_KERGOMARD.flatMap(([celsius, density, viscosity, prandtl, speed]) => {
    const ours = chaigneKergomardAir(celsius);
    return [
      apart(`${celsius} °C, density`, ours.density, density, 1e-5),
      apart(`${celsius} °C, viscosity`, ours.viscosity * 1e5, viscosity, 1e-5),
      apart(`${celsius} °C, Prandtl number`, ours.prandtl, prandtl, 1e-4),
      apart(`${celsius} °C, speed of sound`, ours.soundSpeed, speed, 1e-3),
    ];
  }),
};

/** Radius mm, Hz; damping Np/m, phase rad/m, |Zc| Pa s/m³, its angle °. */
const ZWIKKER_KOSTEN: readonly (readonly [number, number, number, number, number, number])[] = [
  [2, 100, 0.160238, 1.977019, 3.386949e7, -1.9761],
  [2, 440, 0.32215, 8.361133, 3.336768e7, -0.8564],
  [2, 1000, 0.479422, 18.765819, 3.321543e7, -0.5505],
  [2, 3000, 0.821525, 55.705262, 3.308923e7, -0.3094],
  [5, 100, 0.061053, 1.888944, 5.327168e6, -0.7079],
  [5, 440, 0.12593, 8.175383, 5.295501e6, -0.3237],
  [5, 1000, 0.188873, 18.485547, 5.285828e6, -0.2119],
  [5, 3000, 0.325743, 55.219596, 5.277787e6, -0.121],
  [9.5, 100, 0.031648, 1.860972, 1.467727e6, -0.3588],
  [9.5, 440, 0.065801, 8.116651, 1.463129e6, -0.1672],
  [9.5, 1000, 0.098932, 18.396991, 1.461722e6, -0.1102],
  [9.5, 3000, 0.170971, 55.0662, 1.460551e6, -0.0632],
];

/** Constants of a wave in a round tube at 20 °C. */
export function waveAt(radius: number, frequency: number) {
  const air = chaigneKergomardAir(20);
  const out = new Float64Array(4);
  waveConstants(air, radius, (2 * Math.PI * frequency) / air.soundSpeed, out);
  const [alpha, beta, re, im] = [...out] as [number, number, number, number];
  const unit = (air.density * air.soundSpeed) / (Math.PI * radius ** 2);
  return { alpha, beta, size: Math.hypot(re, im) * unit, degrees: (Math.atan2(im, re) * 180) / Math.PI };
}

export const lossTable: ComparisonTable = {
  title: "Viscous and thermal losses at the wall",
  source:
    "C. Zwikker & C. W. Kosten, Sound Absorbing Materials, 1949, evaluated with scipy's Bessel functions at 20 °C.",
  unknown:
    "Smooth, dense walls. Printed layers and raw wood absorb more energy, which weakens notes and flattens them slightly; no published figure was found.",
  unit: "Np/m, rad/m, Pa s/m³",
  decimals: 6,
  differenceUnit: "ppm",
  differenceDecimals: 1,
  rows: ZWIKKER_KOSTEN.flatMap(([radius, hz, alpha, beta, size]) => {
    const ours = waveAt(radius / 1000, hz);
    const title = `radius ${radius} mm, ${hz} Hz`;
    return [
      // Printed to five or six digits.
      inMillionths(`${title}, damping`, ours.alpha, alpha, 20),
      inMillionths(`${title}, phase`, ours.beta, beta, 10),
      inMillionths(`${title}, impedance`, ours.size, size, 10),
    ];
  }),
};

export const impedanceAngles: ComparisonTable = {
  ...lossTable,
  title: "Viscous and thermal losses at the wall: angle of the characteristic impedance",
  unit: "degrees",
  decimals: 4,
  differenceUnit: "degrees",
  differenceDecimals: 5,
  rows: ZWIKKER_KOSTEN.map(([radius, hz, , , , degrees]) =>
    apart(`radius ${radius} mm, ${hz} Hz`, waveAt(radius / 1000, hz).degrees, degrees, 1e-4),
  ),
};
