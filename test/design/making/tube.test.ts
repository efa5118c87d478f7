/** A tube's holes and joints, and what stands out from it: where they stop being something that can be made. */
import { describe, expect, it } from "vitest";
import { preflight } from "../../../server/src/design/making/preflight.js";
import { documentOf, fileOf, WHISTLE } from "../../support/designs.js";
import { vessel } from "../../support/families.js";
import { firstHole, holdFromBothSides, jointed, lastHole, refused, secondHole, walled } from "../../support/making.js";

const rest = (sizes: string, text = WHISTLE) => `${text}solid: { thumbRest: { ${sizes} } }\n`;

it("a hole that lies as near to a joint as hole/near-joint lets it has room", () => {
  // A tenon of 16 mm, 0.3 before its tip and a ring of 3, by the defaults; the hole's edge to the last bit, which rounds either way.
  const joints = Array.from({ length: 12 }, (_, i) => 140 + 1.7 * i);
  const near = joints.map((at) => firstHole(`at: ${at - 16 - 0.3 - 3 - 3.5}, diameter: 7`, jointed(at)));
  expect(
    near.flatMap((text) => documentOf(fileOf(text)).findings.filter(({ code }) => code === "hole/near-joint")),
  ).toEqual([]);
  expect(near.flatMap(refused)).toEqual([]);
});

describe("a hole", () => {
  holdFromBothSides([
    [
      "below the labium's ramp",
      13.2,
      13.4,
      (at) => firstHole(`at: ${at}, diameter: 5`),
      "holes.0.at: L1 at 13.2 mm runs into the head that the mouth needs. Move it to 13.31 mm or farther down.",
    ],
    [
      "over the foot's edge",
      389.3,
      389.2,
      (at) => lastHole(`at: ${at}, diameter: 6.5`),
      "holes.5.at: R3 leaves only 1.55 mm of wall to the foot's end, and 1.6 mm can be printed. Move it up or narrow it.",
    ],
    [
      "over a stopped foot's end",
      389.7,
      389.6,
      (at) => lastHole(`at: ${at}, diameter: 6.5`, "foot: stopped\n"),
      "holes.5.at: R3 leaves only 1.15 mm of wall to the foot's end, and 1.2 mm can be printed. Move it up or narrow it.",
    ],
    [
      "oval and undercut, over the foot's edge",
      387.8,
      387.6,
      (at) => lastHole(`at: ${at}, diameter: 6.5, length: 8.5, undercut: 1`),
      "holes.5.at: R3 leaves only 1.55 mm of wall to the foot's end, and 1.6 mm can be printed. Move it up or narrow it.",
    ],
    [
      "over a tenon and its ring",
      127.3,
      127.1,
      (at) => firstHole(`at: ${at}, diameter: 7`, jointed(150)),
      "holes.0.at: L1 at 127.3 mm would go through the joint at 150 mm: its tenon reaches 16 mm up from there. Move one of them, or make the tenon shorter: `solid.tenon.length`.",
    ],
    [
      "under a socket and its ring",
      156.4,
      156.6,
      (at) => firstHole(`at: ${at}, diameter: 7`, jointed(150)),
      "holes.0.at: L1 at 156.4 mm would go through the joint at 150 mm: its tenon reaches 16 mm up from there. Move one of them, or make the tenon shorter: `solid.tenon.length`.",
    ],
    [
      "over a tenon without a ring",
      128.3,
      128.1,
      (at) => firstHole(`at: ${at}, diameter: 7`, walled(6, jointed(150))),
      "holes.0.at: L1 at 128.3 mm would go through the joint at 150 mm: its tenon reaches 16 mm up from there. Move one of them, or make the tenon shorter: `solid.tenon.length`.",
    ],
    [
      "under a socket without a ring",
      153.8,
      154,
      (at) => firstHole(`at: ${at}, diameter: 7`, walled(6, jointed(150))),
      "holes.0.at: L1 at 153.8 mm would go through the joint at 150 mm: its tenon reaches 16 mm up from there. Move one of them, or make the tenon shorter: `solid.tenon.length`.",
    ],
    [
      "raised, over a tenon",
      124.3,
      124.1,
      (at) => firstHole(`at: ${at}, diameter: 7, raised: 2`, jointed(150)),
      "holes.0.at: L1 at 124.3 mm would go through the joint at 150 mm: its tenon reaches 16 mm up from there. Move one of them, or make the tenon shorter: `solid.tenon.length`.",
    ],
    [
      "raised, under a socket",
      159.4,
      159.6,
      (at) => firstHole(`at: ${at}, diameter: 7, raised: 2`, jointed(150)),
      "holes.0.at: L1 at 159.4 mm would go through the joint at 150 mm: its tenon reaches 16 mm up from there. Move one of them, or make the tenon shorter: `solid.tenon.length`.",
    ],
    [
      "with a long chimney, over a tenon",
      124.3,
      124.1,
      (at) => firstHole(`at: ${at}, diameter: 7, chimney: 4`, jointed(150)),
      "holes.0.at: L1 at 124.3 mm would go through the joint at 150 mm: its tenon reaches 16 mm up from there. Move one of them, or make the tenon shorter: `solid.tenon.length`.",
    ],
    [
      "beside another",
      182.2,
      182.3,
      (at) => secondHole(`at: ${at}, diameter: 8.5`),
      "holes.1.at: Between L1 and L2 1.15 mm of wall would be left on the bed, and the printer can close 1.2 mm. Move them apart or narrow one, or state what your printer can close: `print.leastWall`.",
    ],
    [
      "beside an undercut one",
      182.7,
      182.8,
      (at) => secondHole(`at: ${at}, diameter: 8.5`, firstHole("at: 173.3, diameter: 7, undercut: 1")),
      "holes.1.at: Between L1 and L2 1.15 mm of wall would be left on the bed, and the printer can close 1.2 mm. Move them apart or narrow one, or state what your printer can close: `print.leastWall`.",
    ],
    [
      "as wide as the bore",
      15.95,
      15.85,
      (wide) => firstHole(`at: 163.3, diameter: ${wide}`),
      "holes.0.diameter: L1 is 15.95 mm wide at the bore, which is 16 mm there: no wall is left beside it. Make it narrower.",
    ],
    [
      "undercut as wide as the bore",
      8.95,
      8.85,
      (undercut) => firstHole(`at: 163.3, diameter: 7, undercut: ${undercut}`),
      "holes.0.undercut: L1 is 15.95 mm wide at the bore, which is 16 mm there: no wall is left beside it. Make it narrower.",
    ],
    [
      "in a wall too thin",
      1.15,
      1.2,
      (chimney) => firstHole(`at: 173.3, diameter: 7, chimney: ${chimney}`),
      "holes.0.chimney: The wall at L1 would be 1.15 mm thick on the bed, and the printer can close 1.2 mm. Make it thicker, or state what your printer can close: `print.leastWall`.",
    ],
  ]);
});

describe("a joint", () => {
  holdFromBothSides([
    [
      "with a short tenon",
      5.9,
      6,
      (length) => jointed(150, `solid: { tenon: { length: ${length} } }\n`),
      "solid.tenon.length: The tenon is 5.9 mm long; it holds from 6 mm on. Make it longer.",
    ],
    [
      "under the labium's ramp",
      28.8,
      29,
      (at) => jointed(at),
      "bore.1.at: The joint at 28.8 mm has a tenon 16 mm long, which reaches into the mouth. Put the joint farther down, or make the tenon shorter: `solid.tenon.length`.",
    ],
    [
      "under another",
      82.2,
      82.4,
      (at) => jointed(`60, diameter: =tube, joint: true }\n  - { at: ${at}`),
      "bore.2.at: The joint at 82.2 mm has a tenon 16 mm long, which reaches into the joint above. Put the joint farther down, or make the tenon shorter: `solid.tenon.length`.",
    ],
    [
      "at the foot",
      390.4,
      390.2,
      (at) => jointed(at),
      "bore.1.at: The joint at 390.4 mm leaves no room for the part below it. Put it farther up.",
    ],
  ]);
});

describe("what stands out", () => {
  holdFromBothSides([
    [
      "a wide flat",
      19.9,
      19.7,
      (base) => `${WHISTLE}solid: { base: ${base} }\n`,
      "solid.base: The flat is 19.9 mm wide; the body takes 19.8 mm at most. Make it narrower.",
    ],
    [
      "a thumb rest over the foot",
      371.7,
      371.5,
      (at) => rest(`at: ${at}`),
      "solid.thumbRest.at: The thumb rest at 371.7 mm reaches over the tube's end. Move it.",
    ],
    [
      "a thumb rest over the head's end",
      -4.8,
      -4.7,
      (at) => rest(`at: ${at}`),
      "solid.thumbRest.at: The thumb rest at -4.8 mm reaches over the tube's end. Move it.",
    ],
    [
      "a thumb rest below a joint",
      175.4,
      175.6,
      (at) => rest(`at: ${at}`, jointed(150)),
      "solid.thumbRest.at: The thumb rest at 175.4 mm lies over a joint. Move it.",
    ],
    [
      "a thumb rest above a joint",
      127.6,
      127.4,
      (at) => rest(`at: ${at}`, jointed(150)),
      "solid.thumbRest.at: The thumb rest at 127.6 mm lies over a joint. Move it.",
    ],
    [
      "a wide thumb rest",
      22.1,
      22,
      (width) => rest(`at: 200, width: ${width}`),
      "solid.thumbRest.width: The thumb rest is wider than the body. Make it narrower.",
    ],
    [
      "a thumb rest below a thumb hole",
      188.2,
      188.4,
      (at) => rest(`at: ${at}`, firstHole("at: 173.3, diameter: 7, side: back")),
      "solid.thumbRest.at: The thumb rest at 188.2 mm lies over L1. Move it.",
    ],
    [
      "a thumb rest above a thumb hole",
      158.4,
      158.2,
      (at) => rest(`at: ${at}`, firstHole("at: 173.3, diameter: 7, angle: -150")),
      "solid.thumbRest.at: The thumb rest at 158.4 mm lies over L1. Move it.",
    ],
    [
      "a thumb rest beside a hole at the side",
      125,
      115,
      (angle) => rest("at: 180", firstHole(`at: 173.3, diameter: 7, angle: ${angle}`)),
      "solid.thumbRest.at: The thumb rest at 180 mm lies over L1. Move it.",
    ],
  ]);
});

describe("a design", () => {
  it("with a thin wall is told of the wall, and of a mouth that has no room in it", () => {
    expect(refused(walled(1))).toEqual([
      "wall: The wall would be 1 mm thick on the bed, and the printer can close 1.2 mm. Make it thicker, or state what your printer can close: `print.leastWall`.",
      "wall: The roof of the windway would be 1 mm thick on the bed, and the printer can close 1.2 mm. Make the wall thicker or the windway lower, or state what your printer can close: `print.leastWall`.",
      "wall: The wall leaves room for a windway 0 mm high; one under 0.5 mm prints closed. Make the wall thicker.",
      "wall: The labium's edge would end 0.75 mm above the bore, and the wall is 1 mm: no ramp is left. Make the wall thicker or the edge thinner.",
    ]);
    expect(refused(vessel("wall: 1"))).toEqual([
      "wall: The wall would be 1 mm thick on the bed, and the printer can close 1.2 mm. Make it thicker, or state what your printer can close: `print.leastWall`.",
    ]);
  });

  it("is measured as it lies on the bed, against what its printer closes", () => {
    const scaled = `${firstHole("at: 173.3, diameter: 7, chimney: 2")}print: { leastWall: 2, scale: 95 % }\n`;
    expect(refused(scaled)).toEqual([
      "holes.0.chimney: The wall at L1 would be 1.9 mm thick on the bed, and the printer can close 2 mm. Make it thicker, or state what your printer can close: `print.leastWall`.",
    ]);
  });

  it("in inches is refused in inches", () => {
    const inches = firstHole("at: 173.3, diameter: 7, chimney: 0.04").replace("tolerance", "units: in\ntolerance");
    expect(refused(inches)).toEqual([
      "holes.0.chimney: The wall at L1 would be 0.04 in thick on the bed, and the printer can close 0.047 in. Make it thicker, or state what your printer can close: `print.leastWall`.",
    ]);
  });

  it("without a body cannot be made", () => {
    expect(refused("borewright: 1\nfamily: duct\n")).toEqual([
      ": The design does not say enough about its body yet to be made: see its findings.",
    ]);
  });

  it("is refused with the place of what stands in the way", () => {
    const related = (text: string) =>
      preflight(documentOf(fileOf(text)).resolution).refused.flatMap(({ related }) =>
        (related ?? []).map(({ path, message }) => `${message}: ${path.join(".")}`),
      );
    expect(related(jointed(180))).toEqual(["The joint: bore.1.joint"]);
    expect(related(secondHole("at: 182.2, diameter: 8.5"))).toEqual(["L1: holes.0.at"]);
    expect(related(vessel("holes:\n  - { diameter: 6, angle: 90 }\n  - { diameter: 6, angle: 103 }"))).toEqual([
      "hole 1: holes.0",
    ]);
  });
});
