/**
 * What binds a refit, said limit by limit: its words, and at what number it binds. Bounds are worked out by hand from the two drawings;
 * shares are those of `checkedRanges.ts` and of this folder.
 */
import { describe, expect, it } from "vitest";
import { constraintsOf } from "../../../server/src/design/constraints/constraints.js";
import { limitsOf } from "../../../server/src/design/constraints/limits.js";
import { unknownsOf, valueIn } from "../../../server/src/design/constraints/unknowns.js";
import { analyse } from "../../../server/src/design/predict/analyse.js";
import { sharedColumn } from "../../../server/src/instrument/body.js";
import { documentOf, fileOf } from "../../support/designs.js";

const three = (value: number) => Number(value.toPrecision(3));

/** The limits of a refit, and the design as drawn. */
function limitsAt(text: string) {
  const document = documentOf(fileOf(text));
  const { instrument } = document.resolution;
  const column = sharedColumn(instrument.body);
  if (column === undefined) throw new Error("no column");
  const constraints = constraintsOf(document);
  const unknowns = unknownsOf(instrument, column, "all", constraints);
  const x = unknowns.map((unknown) => 1e3 * valueIn(unknown, column));
  return { x, limits: limitsOf({ analysis: analyse(instrument), column, unknowns, constraints }) };
}

/** `≥ 4.03: words; advice` for each limit of a design at the number where it binds, mm: least (≥) or greatest (≤). */
function told(text: string): readonly string[] {
  const { x, limits } = limitsAt(text);
  return limits.map(({ row, least, value, limitAt, complaint, advice }) => {
    const slack = (at: readonly number[]) => [...row].reduce((sum, [i, factor]) => sum + factor * (at[i] ?? 0), -least);
    const inside = x.map((there, i) => there + (row.get(i) ?? 0));
    const sign = value(inside) > value(x) ? 1 : -1;
    // What is solved is what the words speak of.
    expect(slack(x)).toBeCloseTo(sign * (value(x) - limitAt(x)), 6);
    return `${sign > 0 ? "≥" : "≤"} ${Number(limitAt(x).toPrecision(3))}: ${complaint(limitAt(x))}; ${advice}`;
  });
}

const FLUTE = `borewright: 1
family: transverse
key: D4
mouth: { hole: { length: 12, width: 10 }, stopper: 20 }
bore:
  - { at: -20, diameter: 20 }
  - { at: 0, diameter: 20 }
  - { at: 200, diameter: 20, joint: true, limits: { at: [190, 210] } }
  - { at: 400, diameter: 16 }
wall: 4
holes:
  - { name: T, at: 240, diameter: 6, side: back }
  - { name: L1, at: 250, diameter: 7 }
  - { name: L2, at: 280, diameter: 6, length: 8 }
  - { name: L3, at: 310, diameter: 4, angle: -30, limits: { at: [305, 320], diameter: [3, 5] } }
  - { name: L4, at: 311, diameter: 4, angle: 30 }
fingerings: [{ degree: 1, holes: ●●●●● }]
hands: { reach: 40, spacing: 16, thumb: 25, fingertip: 9 }
print: { bed: [60, 60, 450], holeGap: 2 }
refit: { undercut: 1.5 }
`;

const INCHES = `borewright: 1
units: in
family: duct
key: D5
mouth: { window: { width: 0.35, cutUp: 0.2 } }
bore:
  - { at: 0, diameter: 0.6 }
  - { at: 6, diameter: 0.6 }
  - { at: 12, diameter: 0.5, limits: { at: [11, 13], diameter: [0.4, 0.62] } }
wall: 0.125
foot: stopped
holes:
  - { name: L1, at: 6, diameter: 0.3 }
  - { name: R1, at: 9, diameter: 0.5 }
  - { name: R2, at: 9.8, diameter: 0.25 }
fingerings: [{ degree: 1, holes: ●●● }]
print: { bed: [4, 4, 14] }
refit: { taper: free }
`;

describe("the limits of a refit", () => {
  it("say of a transverse flute what binds it, and where", () => {
    expect(told(FLUTE)).toEqual([
      // The bore is 20 − (x − 200)/50 mm wide at x: 19.2 at T, 19 at L1, 18.4, 17.8 and 17.78; from 0.21 to 0.78 of that, an undercut with it.
      "≥ 4.03: T would have to be only 4 mm wide, too little for the bore at its place; narrow the bore",
      "≤ 15: T would have to be 15 mm wide, too much for the bore at its place; widen the bore",
      "≤ 9: T would have to be 9 mm wide, but the fingertip covers 9 mm; allow a wider hole (hands.fingertip)",
      "≥ 0: T would have to be narrower at the bore; allow more (refit.undercut), or a deeper hole",
      // As much as is allowed; 0.33 of the chimney of 4 mm on each side would be 2.64.
      "≤ 1.5: T would have to be undercut by 1.5 mm; allow more (refit.undercut), or a deeper hole",
      "≤ 8.98: T would have to be undercut by 9 mm; allow more (refit.undercut), or a deeper hole",
      "≥ 3.99: L1 would have to be only 4 mm wide, too little for the bore at its place; narrow the bore",
      "≤ 14.8: L1 would have to be 14.8 mm wide, too much for the bore at its place; widen the bore",
      "≤ 9: L1 would have to be 9 mm wide, but the fingertip covers 9 mm; allow a wider hole (hands.fingertip)",
      "≥ 0: L1 would have to be narrower at the bore; allow more (refit.undercut), or a deeper hole",
      "≤ 1.5: L1 would have to be undercut by 1.5 mm; allow more (refit.undercut), or a deeper hole",
      "≤ 7.82: L1 would have to be undercut by 7.8 mm; allow more (refit.undercut), or a deeper hole",
      "≥ 3.86: L2 would have to be only 3.9 mm wide, too little for the bore at its place; narrow the bore",
      "≤ 14.4: L2 would have to be 14.4 mm wide, too much for the bore at its place; widen the bore",
      "≤ 9: L2 would have to be 9 mm wide, but the fingertip covers 9 mm; allow a wider hole (hands.fingertip)",
      "≥ 0: L2 would have to be narrower at the bore; allow more (refit.undercut), or a deeper hole",
      "≤ 1.5: L2 would have to be undercut by 1.5 mm; allow more (refit.undercut), or a deeper hole",
      "≤ 8.35: L2 would have to be undercut by 8.4 mm; allow more (refit.undercut), or a deeper hole",
      "≥ 3.74: L3 would have to be only 3.7 mm wide, too little for the bore at its place; narrow the bore",
      "≤ 13.9: L3 would have to be 13.9 mm wide, too much for the bore at its place; widen the bore",
      "≤ 9: L3 would have to be 9 mm wide, but the fingertip covers 9 mm; allow a wider hole (hands.fingertip)",
      "≥ 3: L3 would have to be 3 mm wide, outside its limits; widen its limits.diameter",
      "≤ 5: L3 would have to be 5 mm wide, outside its limits; widen its limits.diameter",
      "≥ 0: L3 would have to be narrower at the bore; allow more (refit.undercut), or a deeper hole",
      "≤ 1.5: L3 would have to be undercut by 1.5 mm; allow more (refit.undercut), or a deeper hole",
      "≤ 9.88: L3 would have to be undercut by 9.9 mm; allow more (refit.undercut), or a deeper hole",
      "≥ 305: L3 would have to lie at 305 mm, outside its limits; widen its limits.at",
      "≤ 320: L3 would have to lie at 320 mm, outside its limits; widen its limits.at",
      "≥ 3.73: L4 would have to be only 3.7 mm wide, too little for the bore at its place; narrow the bore",
      "≤ 13.9: L4 would have to be 13.9 mm wide, too much for the bore at its place; widen the bore",
      "≤ 9: L4 would have to be 9 mm wide, but the fingertip covers 9 mm; allow a wider hole (hands.fingertip)",
      "≥ 0: L4 would have to be narrower at the bore; allow more (refit.undercut), or a deeper hole",
      "≤ 1.5: L4 would have to be undercut by 1.5 mm; allow more (refit.undercut), or a deeper hole",
      "≤ 9.87: L4 would have to be undercut by 9.9 mm; allow more (refit.undercut), or a deeper hole",
      // Half of the mouth hole, and the gap.
      "≥ 8: T would have its edge only 8 mm from the mouth's centre; make it narrower",
      "≥ 0: L1 would have to lie 0 mm below T; list L1 before T, and the signs of the fingerings with them",
      "≥ 2: L1 and L2 would have only 2 mm of wall between them; make them narrower",
      "≥ 2: L2 and L3 would have only 2 mm of wall between them; make them narrower",
      "≥ 2: L2 and L4 would have only 2 mm of wall between them; make them narrower",
      // A sixth of the way round a bore of 17.79 mm is 9.32 mm; 1 mm along it 9.37, less the gap.
      "≤ 7.37: L3 and L4 would have only 2 mm of wall between them; turn them farther apart (angle)",
      "≤ 40: L1 to L2 would need 40 mm of reach, but the reach is 40 mm; allow a longer stretch (hands.reach), leave a finger out, or cover the hole with a key",
      "≥ 16: L1 and L2 would be only 16 mm apart, but two fingers need 16 mm; let fingers lie nearer (hands.spacing)",
      "≤ 40: L2 to L3 would need 40 mm of reach, but the reach is 40 mm; allow a longer stretch (hands.reach), leave a finger out, or cover the hole with a key",
      "≥ 16: L2 and L3 would be only 16 mm apart, but two fingers need 16 mm; let fingers lie nearer (hands.spacing)",
      "≤ 25: the thumb at T would be 25 mm from L1, but it reaches 25 mm; allow more (hands.thumb)",
      "≤ 25: the thumb at T would be 25 mm from L1, but it reaches 25 mm; allow more (hands.thumb)",
      "≥ 2: only 2 mm of bore would be left between L4 and the foot; make the hole narrower",
      "≥ 190: station 3 would have to lie at 190 mm, outside its limits; widen its limits.at",
      "≤ 210: station 3 would have to lie at 210 mm, outside its limits; widen its limits.at",
      "≥ 5: stations 2 and 3 would have only 5 mm between them; remove one of them",
      // Half of the head, and a fifth more.
      "≥ 10: the bore would have to narrow to 10 mm at the foot; allow it in the station's limits.diameter",
      "≤ 24: the bore would have to widen to 24 mm at the foot; allow it in the station's limits.diameter",
      "≥ 5: stations 3 and 4 would have only 5 mm between them; remove one of them",
      // One and a half steps of the drawing of 0.1 mm.
      "≥ -0.15: the taper above the foot would have to change its slope; allow it (refit: { taper: free })",
      "≤ 0.15: the taper above the foot would have to change its slope; allow it (refit: { taper: free })",
      // From 0.4 to 1.6 bores.
      "≥ 8: the stopper would have to stand 8 mm from the embouchure hole; move the stopper by hand",
      "≤ 32: the stopper would have to stand 32 mm from the embouchure hole; move the stopper by hand",
      // Half of the mouth hole, a tenon of 20, 0.3 mm before its tip and a ring of 3.
      "≥ 29.3: the joint would lie at 29.3 mm, too near to the mouth; put the joint elsewhere, or let it be nearer (print.jointClearance)",
      "≥ 10: T would be 10 mm from the joint; put the joint elsewhere, or let it be nearer (print.jointClearance)",
      "≥ 10: L1 would be 10 mm from the joint; put the joint elsewhere, or let it be nearer (print.jointClearance)",
      "≥ 10: L2 would be 10 mm from the joint; put the joint elsewhere, or let it be nearer (print.jointClearance)",
      "≥ 10: L3 would be 10 mm from the joint; put the joint elsewhere, or let it be nearer (print.jointClearance)",
      "≥ 10: L4 would be 10 mm from the joint; put the joint elsewhere, or let it be nearer (print.jointClearance)",
      // A stopper of 16 mm and 3 of tube beyond; a tenon of 20.
      "≤ 431: part 1 of the tube would have to be 450 mm long, but the bed takes 450 mm; split it (joint: true on a station between holes) or state a larger bed (print.bed)",
      "≤ 430: part 2 of the tube would have to be 450 mm long, but the bed takes 450 mm; split it (joint: true on a station between holes) or state a larger bed (print.bed)",
    ]);
  });
  it("say of a duct flute in inches what binds it, in inches", () => {
    expect(told(INCHES)).toEqual([
      // The bore is 15.24 mm wide at L1, 13.97 at R1, 13.63 at R2.
      "≥ 3.2: L1 would have to be only 0.13 in wide, too little for the bore at its place; narrow the bore",
      "≤ 11.9: L1 would have to be 0.47 in wide, too much for the bore at its place; widen the bore",
      "≤ 12: L1 would have to be 0.47 in wide, but the fingertip covers 0.47 in; allow a wider hole (hands.fingertip)",
      "≥ 2.93: R1 would have to be only 0.12 in wide, too little for the bore at its place; narrow the bore",
      "≤ 10.9: R1 would have to be 0.43 in wide, too much for the bore at its place; widen the bore",
      // Wider than a usual fingertip closes, it may stay so.
      "≤ 12.7: R1 would have to be 0.5 in wide, but the fingertip covers 0.47 in; allow a wider hole (hands.fingertip)",
      "≥ 2.86: R2 would have to be only 0.11 in wide, too little for the bore at its place; narrow the bore",
      "≤ 10.6: R2 would have to be 0.42 in wide, too much for the bore at its place; widen the bore",
      "≤ 12: R2 would have to be 0.47 in wide, but the fingertip covers 0.47 in; allow a wider hole (hands.fingertip)",
      // Half of the cut-up of 5.08, and 1.6 mm.
      "≥ 4.14: L1 would have its edge only 0.16 in from the mouth's centre; make it narrower",
      "≥ 1.6: L1 and R1 would have only 0.06 in of wall between them; make them narrower",
      "≥ 1.6: R1 and R2 would have only 0.06 in of wall between them; make them narrower",
      "≥ 20: L1 and R1 would be only 0.79 in apart, but two fingers need 0.79 in as a rule; let fingers lie nearer (hands.spacing)",
      "≤ 42: R1 to R2 would need 1.65 in of reach, but the reach is 1.65 in as a rule; allow a longer stretch (hands.reach), leave a finger out, or cover the hole with a key",
      "≥ 17: R1 and R2 would be only 0.67 in apart, but two fingers need 0.67 in as a rule; let fingers lie nearer (hands.spacing)",
      "≥ 1.6: only 0.06 in of bore would be left between R2 and the foot; make the hole narrower",
      // A cylinder may narrow by 0.35 and does not flare.
      "≥ 9.91: the bore would have to narrow to 0.39 in at station 2; allow it in the station's limits.diameter",
      "≤ 15.2: the bore would have to widen to 0.6 in at station 2; allow it in the station's limits.diameter",
      "≥ 5: stations 1 and 2 would have only 0.2 in between them; remove one of them",
      "≥ 10.2: the bore would have to narrow to 0.4 in at the foot; allow it in the station's limits.diameter",
      "≤ 15.7: the bore would have to widen to 0.62 in at the foot; allow it in the station's limits.diameter",
      "≥ 279: the foot would have to lie at 11 in, outside its limits; widen its limits.at",
      "≤ 330: the foot would have to lie at 13 in, outside its limits; widen its limits.at",
      "≥ 5: stations 2 and 3 would have only 0.2 in between them; remove one of them",
      // 14 inches less half of the cut-up, a windway of 25 mm and the stopped end of 3.175.
      "≤ 325: the tube would have to be 14 in long, but the bed takes 14 in; split it (joint: true on a station between holes) or state a larger bed (print.bed)",
    ]);
  });
});

/** Two parts of a cylinder, with a joint 190 mm below the mouth; `at` is the foot. */
const PARTED = (at: number, { bed = "[220, 220, 700]", foot = "18", joint = "", key = "D4" } = {}) => `borewright: 1
family: rim
key: ${key}
mouth: ideal
bore: [{ at: 0, diameter: 18 }, { at: 190, diameter: 18, joint: true${joint} }, { at: ${at}, diameter: ${foot} }]
wall: 3
holes: [{ name: R1, at: 386, diameter: 9 }, { name: R2, at: 420, diameter: 9 }]
fingerings: [{ degree: 1, holes: xx }, { degree: 2, holes: xo }]
print: { bed: ${bed} }
`;

describe("a joint", () => {
  const ofPlace = (text: string) => told(text).filter((limit) => limit.includes("joint would have to move by"));
  /** A millimetre, and half of what the length is wrong by for the worst note, but no more than a twentieth. */
  const roomOf = (text: string, at: number) => {
    const worst = Math.abs(analyse(documentOf(fileOf(text)).resolution.instrument).summary?.worstCents ?? 0);
    return 1 + at * Math.min(0.05, (2 ** (worst / 1200) - 1) / 2);
  };
  const says = (room: number) => {
    const mm = Number(room.toFixed(1));
    return `the joint would have to move by ${mm} mm, but only ${mm} mm are allowed; say where it may lie (the station's limits.at)`;
  };

  it("of a cylinder may stay where it is, or keep its share of a length that grows or shrinks", () => {
    const [sharp, flat] = [PARTED(560), PARTED(560, { key: "E4" })];
    const [more, less] = [roomOf(sharp, 560), roomOf(flat, 560)];
    // What is too high grows, and the joint's share of the length with it: below its place.
    expect(ofPlace(sharp)).toEqual([`≥ ${three(190 - more)}: ${says(more)}`, `≤ ${three(more)}: ${says(more)}`]);
    expect(ofPlace(flat)).toEqual([`≥ ${three(-less)}: ${says(less)}`, `≤ ${three(190 + less)}: ${says(less)}`]);
  });
  it("of a taper keeps its share, and lies where the design says, if it does", () => {
    const taper = PARTED(560, { foot: "16" });
    const room = roomOf(taper, 560);
    expect(ofPlace(taper)).toEqual([`≥ ${three(-room)}: ${says(room)}`, `≤ ${three(room)}: ${says(room)}`]);
    expect(ofPlace(PARTED(560, { joint: ", limits: { at: [150, 200] }" }))).toEqual([]);
  });
  it("far off may leave its place by a twentieth of the length", () => {
    const room = 1 + 0.05 * 500;
    expect(ofPlace(PARTED(500))).toEqual([`≥ ${three(190 - room)}: ${says(room)}`, `≤ ${room}: ${says(room)}`]);
  });
});

it("an undercut is as steep as was checked at most, whatever the design allows", () => {
  // 0.33 of the chimney of 4 mm, on each side.
  const steep = told(FLUTE.replace("undercut: 1.5", "undercut: 9")).filter((limit) =>
    limit.includes("undercut by 2.6 mm"),
  );
  expect(steep.map((limit) => limit.slice(0, 7))).toEqual(["≤ 2.64:", "≤ 2.64:", "≤ 2.64:", "≤ 2.64:", "≤ 2.64:"]);
});

describe("an undercut that is drawn and stays", () => {
  const FIXED = FLUTE.replace("refit: { undercut: 1.5 }\n", "");
  const about = (text: string, hole: string) => told(text).filter((limit) => limit.includes(hole));

  it("leaves its hole less width in the bore", () => {
    const drawn = FIXED.replace("diameter: 7 }", "diameter: 7, undercut: 1 }");
    // The bore is 19 mm wide at L1: from 0.78 of it the hole's own width, or its width with the undercut.
    const most = 0.78 * 19;
    const [before, after] = [FIXED, drawn].map((text) => about(text, "L1").filter((limit) => limit.includes("bore")));
    expect(after).toEqual([
      ...(before ?? []),
      `≤ ${three(most)}: L1 would have to be 14.8 mm wide with its undercut, too much for the bore at its place; undercut it less`,
    ]);
  });

  it("leaves its neighbours less wall, and the foot less bore", () => {
    const drawn = FIXED.replace("length: 8 }", "length: 8, undercut: 1 }").replace(
      "angle: 30 }",
      "angle: 30, undercut: 3 }",
    );
    const wallsOf = (text: string) => {
      const { x, limits } = limitsAt(text);
      return new Map(
        limits.flatMap(({ complaint, value }) =>
          /of (wall|bore)/.test(complaint(2)) ? [[complaint(2), value(x)] as const] : [],
        ),
      );
    };
    const [plain, cut] = [wallsOf(FIXED), wallsOf(drawn)];
    const lost = [...plain].map(
      ([words, wall]) => `${words.split(" would")[0]}: ${three(wall - (cut.get(words) ?? wall))}`,
    );
    // Half of 1 mm beside L2, half of 3 mm beside L4; of L3 and L4 the limit is what both take of the wall.
    expect(lost).toEqual([
      "L1 and L2: 0.5",
      "L2 and L3: 0.5",
      "L2 and L4: 2",
      "L3 and L4: -1.5",
      "only 2 mm of bore: 1.5",
    ]);
  });
});

it("a joint above the mouth keeps its place, and holes keep clear of it", () => {
  const above = FLUTE.replace(
    /bore:[\s\S]*wall: 4/,
    "bore: [{ at: -60, diameter: 20 }, { at: -30, diameter: 20, joint: true }, { at: 400, diameter: 16 }]\nwall: 4",
  );
  expect(told(above).filter((limit) => limit.includes("joint would"))).toEqual([]);
  expect(told(above).filter((limit) => limit.includes("from the joint"))).toHaveLength(5);
});

describe("the bed", () => {
  const ofBed = (text: string) => told(text).filter((limit) => limit.includes("bed"));
  const advice = "split it (joint: true on a station between holes) or state a larger bed (print.bed)";

  it("binds each part with its tenon, and what does not fit as drawn by what the notes need", () => {
    const text = PARTED(800, { bed: "[100, 100, 450]" });
    const worst = Math.abs(analyse(documentOf(fileOf(text)).resolution.instrument).summary?.worstCents ?? 0);
    // 610 mm and a tenon of 18; half as much again as its error, and a millimetre.
    const most = 628 * (1 + 1.5 * (2 ** (worst / 1200) - 1)) + 1;
    expect(ofBed(text)).toEqual([
      `≤ 450: part 1 of the tube would have to be 450 mm long, but the bed takes 450 mm; ${advice}`,
      `≤ ${(most - 18).toPrecision(3)}: part 2 of the tube, too long for the bed as it is, would have to grow to ${most.toFixed(1)} mm; ${advice}`,
    ]);
  });
  it("takes what is larger than the finished part by its shrinkage, at any print scale", () => {
    const printed = "[100, 100, 450], shrinkage: 2, scale: 110";
    // 450 mm on the bed end as 441.
    expect(ofBed(PARTED(560, { bed: printed }))[0]).toBe(
      `≤ 441: part 1 of the tube would have to be 441 mm long, but the bed takes 441 mm; ${advice}`,
    );
  });
  it("is passed by a fiftieth where the last refit has drawn the part wider", () => {
    const of = (bed: number) => ofBed(PARTED(560, { bed: `[100, 100, ${bed}]` }))[1];
    expect(of(381)).toMatch(/^≤ 370: part 2 of the tube would have to be 388 mm long, but the bed takes 38[01]/);
    expect(of(380)).toContain("too long for the bed as it is");
  });
});
