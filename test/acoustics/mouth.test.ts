import { describe, expect, it } from "vitest";
import { chaigneKergomardAir } from "../../server/src/acoustics/air.js";
import type { Column, Mouth } from "../../server/src/acoustics/column.js";
import { mouthEnd } from "../../server/src/acoustics/mouth.js";
import { holePort } from "../../server/src/acoustics/ports.js";
import { registersOf } from "../../server/src/acoustics/resonance.js";
import { meanWall, windowEnd } from "../../server/src/acoustics/windowEnd.js";
import { DEFAULTS } from "../../server/src/instrument/defaults.js";
import windows from "../reference/fem/labium.json" with { type: "json" };
import vesselWindows from "../reference/fem/vessel-labium.json" with { type: "json" };
import { cents, losslessAir, tube } from "./instruments.js";

const air = chaigneKergomardAir(20);
const pitch = (column: Column, state = air) =>
  registersOf(
    column,
    state,
    column.holes.map(() => 1),
    1,
  )[0]?.frequency ?? 0;
const concert = (rest: Partial<Mouth & { kind: "embouchure" }> = {}): Mouth => ({
  kind: "embouchure",
  length: 0.0122,
  width: 0.0104,
  chimney: 0.005,
  cover: 0.4,
  stopper: 0.017,
  ...rest,
});

describe("a measured correction", () => {
  it("is that much more bore above an ideal mouth", () => {
    const corrected = tube(300, 19, { mouth: { kind: "correction", length: 0.052 } });
    expect(Math.abs(cents(pitch(corrected), pitch(tube(352, 19))))).toBeLessThan(1e-6);
  });

  it("may take bore away", () => {
    const corrected = tube(300, 19, { mouth: { kind: "correction", length: -0.02 } });
    expect(Math.abs(cents(pitch(corrected), pitch(tube(280, 19))))).toBeLessThan(1e-6);
  });
});

describe("an undercut embouchure hole", () => {
  it("equals, uncovered, the tone hole of its shape, which is checked against finite elements", () => {
    const shape = { chimney: 0.005, undercut: 0.0006 };
    const flute = tube(300, 19, { mouth: concert({ ...shape, cover: 0 }) });
    const hole = { x: 0, radius: 0.0052, halfLength: 0.0061, angle: 0, ...shape };
    const { port } = mouthEnd(flute);
    expect(port).toMatchObject({ chimney: holePort(hole, 0.0095, flute.wall, 0).chimney });
  });
  it("sounds sharper in every register", () => {
    const registers = (undercut: number) =>
      registersOf(tube(300, 19, { mouth: concert({ undercut }) }), air, [], 2).map((each) => each?.frequency ?? 0);
    const [straight, wider] = [registers(0), registers(0.0006)];
    for (const [i, hz] of wider.entries()) expect(cents(hz, straight[i] ?? 0)).toBeGreaterThan(1);
  });
});

describe("an embouchure hole", () => {
  /** Length an ideal tube would need more to sound as this one does, m. */
  const correction = (mouth: Mouth) => {
    const target = pitch(tube(600, 19, { mouth }));
    let [low, high] = [0, 0.2];
    for (let i = 0; i < 40; i++) {
      const middle = (low + high) / 2;
      if (pitch(tube(600, 19, { mouth: { kind: "correction", length: middle } })) > target) low = middle;
      else high = middle;
    }
    return low;
  };

  it("of the usual size has the mouth correction makers know, 35 to 55 mm", () => {
    // Boehm's 51.5 mm, Nederveen's 42 mm, 35…55 mm by coverage (from memory). Plausibility, not a check of a coefficient.
    for (const cover of [0.2, 0.4, 0.6]) {
      expect(correction(concert({ cover }))).toBeGreaterThan(0.03);
      expect(correction(concert({ cover }))).toBeLessThan(0.06);
    }
  });

  // Common practice, no source.
  it("is lower the more the lip covers, the smaller it is and the deeper it is cut", () => {
    const at = (rest: Partial<Mouth & { kind: "embouchure" }>) => pitch(tube(600, 19, { mouth: concert(rest) }));
    expect(at({ cover: 0.6 })).toBeLessThan(at({ cover: 0.5 }));
    expect(at({ length: 0.011 })).toBeLessThan(at({}));
    expect(at({ chimney: 0.006 })).toBeLessThan(at({}));
    expect(Math.abs(cents(at({ cover: 1e-9 }), at({ cover: 0 })))).toBeLessThan(1e-3);
  });

  it("is flattened by the cavity of a stopper farther off, and by one at its edge, which lets air come from one side only", () => {
    const at = (stopper: number) => pitch(tube(600, 19, { mouth: concert({ stopper }) }));
    expect(at(0.03)).toBeLessThan(at(0.017));
    expect(at(0.006)).toBeLessThan(at(0.017));
  });

  it("takes the cavity's own outline where stations stand upstream of it", () => {
    const mouth = concert({ stopper: 0.02 });
    const plain = tube(600, 19, { mouth });
    const station = { x: -0.02, radius: 0.0095 };
    expect(pitch({ ...plain, bore: [station, ...plain.bore] })).toBeCloseTo(pitch(plain), 9);
    expect(pitch({ ...plain, bore: [{ ...station, radius: 0.008 }, ...plain.bore] })).toBeGreaterThan(pitch(plain));
  });
});

describe("a rim", () => {
  it("uncovered is a second open end: twice the foot's correction", () => {
    // Half a wave in the length and both corrections. The ends are coupled through the air between them, jkρc·exp(−jkd)/(4πd)
    // (coupled model): each correction grows by a²cos(kd)/4d, here 0.01 mm less.
    const length = 0.6;
    const [a, wall] = [0.005, 0.004];
    const halfWave = (column: Column) => losslessAir.soundSpeed / 2 / pitch(column, losslessAir);
    const foot = halfWave(tube(600, 10)) - length;
    const both = halfWave(tube(600, 10, { mouth: { kind: "rim", cover: 0 } }));
    const d = length + 2 * (a + wall);
    const heard = (a * a * Math.cos((Math.PI * d) / both)) / (4 * d);
    expect(heard).toBeLessThan(-1e-5);
    expect(both - length).toBeCloseTo(2 * (foot + heard), 6);
  });

  it("is lower the more the lip covers", () => {
    const at = (cover: number) => pitch(tube(300, 15, { foot: "stopped", mouth: { kind: "rim", cover } }));
    expect(at(0.4)).toBeLessThan(at(0.2));
    expect(at(0.8)).toBeLessThan(at(0.4));
  });

  it("half covered on a stopped pipe has the correction of a pan pipe, 1 to 1.8 radii", () => {
    // Published pipe lengths imply 1.41 radii at the middle, builders subtract 1.64 (acoustics of stopped pipes; plausibility only).
    const radius = 7.62e-3;
    const frequency = pitch(
      tube(200, 15.24, { wall: 0.003, foot: "stopped", mouth: { kind: "rim", cover: 0.6 } }),
      losslessAir,
    );
    const correction = losslessAir.soundSpeed / 4 / frequency - 0.2;
    expect(correction / radius).toBeGreaterThan(1);
    expect(correction / radius).toBeLessThan(1.8);
  });
});

describe("a window", () => {
  it("with parallel sides is as deep as the wall on the mean over its width", () => {
    // Mean of √(R²−y²) − √(a²−y²) by the trapezium rule.
    const [a, wall, width] = [8, 3.5, 9];
    const n = 20_000;
    let sum = 0;
    for (let i = 0; i < n; i++) {
      const y = width * ((i + 0.5) / n - 0.5);
      sum += Math.sqrt((a + wall) ** 2 - y * y) - Math.sqrt(a * a - y * y);
    }
    expect(meanWall(a, wall, width)).toBeCloseTo(sum / n, 7);
  });

  /** On the bore's section, radius 1, from the bore to free space. */
  const lengthAlone = ({ width, cutUp, wall }: { width: number; cutUp: number; wall: number }, share: number) => {
    const bore = [0, 20].map((x) => ({ x, radius: 1 }));
    const { port } = windowEnd({ upstreamEnd: 0, width, cutUp, chimney: share * wall }, { bore, wall });
    const { inner, length, outer } = port.chimney ?? { inner: 0, length: 0, outer: 0 };
    return ((inner + length + outer) * Math.PI) / port.area + port.seriesOpen / 2;
  };

  it("at a block has the length that static finite elements of it alone have, within 1 %", () => {
    // test/reference/fem/labium.py, upright walls.
    for (const [name, window] of Object.entries(windows))
      expect(Math.abs(lengthAlone(window, 1) / window.straight - 1), name).toBeLessThan(0.01);
  });

  it("as shallow as its labium leaves it has the length that finite elements of a labium have, within 3 %", () => {
    // As above, but the fourth wall a ramp of 17°: with an edge of half a millimetre, and sharpened down to the bore.
    for (const [name, window] of Object.entries(windows)) {
      expect(Math.abs(lengthAlone(window, DEFAULTS.labium) / window.printed - 1), name).toBeLessThan(0.03);
      expect(Math.abs(lengthAlone(window, 0.57) / window.ramp - 1), `${name}, sharp`).toBeLessThan(0.03);
    }
  });

  it("of a vessel keeps the share of its depth that finite elements of a printed labium leave, within 0.09", () => {
    // Window alone in a flat wall, lengths on its own section, cut-up 1: test/reference/fem/vessel-labium.py.
    for (const [name, { wall, straight, printed }] of Object.entries(vesselWindows))
      expect(Math.abs(1 - (straight - printed) / wall - DEFAULTS.labium), name).toBeLessThan(0.09);
  });

  // Common practice, no source.
  it("is higher the wider and the longer it is cut, and lower in a thicker wall", () => {
    const at = (width: number, cutUp: number, chimney: number) =>
      pitch(tube(300, 16, { mouth: { kind: "window", width, cutUp, chimney } }));
    const plain = at(0.009, 0.0045, 0.004);
    expect(at(0.01, 0.0045, 0.004)).toBeGreaterThan(plain);
    expect(at(0.009, 0.0055, 0.004)).toBeGreaterThan(plain);
    expect(at(0.009, 0.0045, 0.005)).toBeLessThan(plain);
  });
});

describe("a notch", () => {
  const width = 0.01;
  const cutUp = 0.005;
  const chimney = 0.002;

  it("is a window whose block is the lip: a tube whose window is cut from its end on sounds alike", () => {
    const notched = tube(380, 20, { wall: chimney, mouth: { kind: "notch", width, cutUp, chimney } });
    // A window's centre is where its bore is measured from, a notch's rim.
    const cut = tube(380 - 2.5, 20, { wall: chimney, mouth: { kind: "window", width, cutUp, chimney } });
    expect(Math.abs(cents(pitch(notched), pitch(cut)))).toBeLessThan(1e-6);
  });

  it("adds the length of an organ pipe's mouth to the tube, within 10 %", () => {
    // 2.3 r²/√(width × cut-up) and the slot's own depth: F. Ingerslev & W. Frobenius, 1947 (coefficient from memory).
    const radius = 0.01;
    const area = width * cutUp;
    const published = (2.3 * radius ** 2) / Math.sqrt(area) + (chimney * Math.PI * radius ** 2) / area;
    const halfWave =
      losslessAir.soundSpeed /
      2 /
      pitch(tube(600, 20, { mouth: { kind: "notch", width, cutUp, chimney } }), losslessAir);
    const foot = losslessAir.soundSpeed / 2 / pitch(tube(600, 20), losslessAir) - 0.6;
    expect(Math.abs((halfWave - 0.6 - foot) / published - 1)).toBeLessThan(0.1);
  });
});
