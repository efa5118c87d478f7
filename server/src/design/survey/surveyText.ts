/** A survey as the text of a design: every value with its ±, what cannot be seen marked so. */

import { quotedLike } from "../../document/quoting.js";
import { visible } from "../../escape/visible.js";
import { DEFAULTS } from "../../instrument/defaults.js";
import { FAMILIES, tubesBlownBy } from "../../instrument/families/index.js";
import type {
  Angle,
  Length,
  Survey,
  SurveyedHole,
  SurveyedMouth,
  SurveyedMouthHole,
  SurveyedPipes,
  SurveyedTube,
  SurveyedVessel,
  SurveyedWindow,
} from "../../survey/surveyed.js";

/** What a mesh does not show, proposed. */
export interface Proposal {
  readonly key: string;
  readonly fingerings: readonly ProposedFingering[];
  /** Of a pan pipe, in the order of its pipes. */
  readonly pipeNotes: readonly string[];
}

export interface ProposedFingering {
  readonly degree: string;
  /** ● and ○ */
  readonly holes: string;
  readonly register: number;
}

export type DesignUnit = "mm" | "in";

const UNSEEN = "cannot be seen";
const MM = { mm: 1, in: 25.4 } as const;
/** A hundredth of a millimetre, and a quarter of that in inches: as finely as anything was read. */
const DECIMALS = { mm: 2, in: 4 } as const;

export function surveyText(survey: Survey, name: string, unit: DesignUnit, proposal: Proposal): string {
  const { body } = survey;
  const pen = new Pen(unit);
  return [
    `# Surveyed from a mesh of ${survey.triangles} triangles. The ± is how surely the line's values could be read, in ${unit}.`,
    "# The model belongs to its maker: respect its licence before you print, change, share or sell it or anything made from it, and credit them.",
    "# It touches the mouth: plain filament sold for food contact, the lip area",
    "# smoothed and sealed, washed warm before another person plays.",
    "borewright: 1",
    `name: ${quotedLike("", visible(name), "yaml", false)}`,
    `family: ${familyOf(body)}`,
    `key: ${proposal.key}   # the note nearest to the prediction with every hole closed; ${UNSEEN}`,
    "tolerance: 10",
    `air: { temperature: 22, humidity: 60 }   # ${UNSEEN}`,
    ...(unit === "in" ? ["units: in"] : []),
    "",
    ...bodyLines(body, pen, proposal),
    "",
    ...fingeringLines(proposal.fingerings),
    `# print: { shrinkage: 0.2 %, holeUndersize: ${unit === "in" ? 0.006 : 0.15} }   # your printer's, which ${UNSEEN}: print a test piece and measure`,
    ...survey.notes.map((note) => `# ${note}`),
    ...[...survey.questions, ...standingQuestions(body)].map((question) => `# ? ${question}`),
    "",
  ].join("\n");
}

/** How lengths are written. */
class Pen {
  constructor(private readonly unit: DesignUnit) {}

  number(mm: number): string {
    const text = (mm / MM[this.unit]).toFixed(DECIMALS[this.unit]);
    const short = text.includes(".") ? text.replace(/\.?0+$/, "") : text;
    return short === "-0" ? "0" : short;
  }

  /** `± 0.01` where all are equally sure; else `at ± 0.01; diameter, length ± 0.02`. */
  sure(named: Readonly<Record<string, Length | Angle | undefined>>): string {
    const groups = new Map<string, string[]>();
    for (const [name, each] of Object.entries(named)) {
      if (each === undefined) continue;
      const text = "degrees" in each ? `± ${short(each.plusMinus)}°` : `± ${this.doubt(each.plusMinus)}`;
      groups.set(text, [...(groups.get(text) ?? []), name]);
    }
    const [[only] = [""], ...others] = groups;
    if (others.length === 0) return only;
    return [...groups].map(([text, names]) => `${names.join(", ")} ${text}`).join("; ");
  }

  private doubt(mm: number): string {
    return short(mm / MM[this.unit]);
  }
}

function short(value: number): string {
  return String(Number(value.toPrecision(2)));
}

function familyOf(body: Survey["body"]): string {
  const family =
    body.kind === "tube"
      ? tubesBlownBy(body.mouth.kind)
      : Object.values(FAMILIES).find((own) => own.body === body.kind)?.name;
  return family ?? "";
}

function bodyLines(body: Survey["body"], pen: Pen, proposal: Proposal): readonly string[] {
  switch (body.kind) {
    case "tube":
      return tubeLines(body, pen);
    case "pipes":
      return pipeLines(body, pen, proposal);
    case "vessel":
      return vesselLines(body, pen);
  }
}

function tubeLines({ mouth, bore, wall, foot, holes }: SurveyedTube, pen: Pen): readonly string[] {
  return [
    "mouth:",
    ...mouthLines(mouth, pen).map((line) => `  ${line}`),
    "bore:   # stations along the axis, 0 at the mouth opening's middle",
    ...bore.map(
      ({ at, diameter, joint }) =>
        `  - { at: ${pen.number(at.mm)}, diameter: ${pen.number(diameter.mm)}${joint ? ", joint: true" : ""} }   # ${pen.sure({ at, diameter })}`,
    ),
    `wall: ${pen.number(wall.mm)}   # ${pen.sure({ wall })}`,
    `foot: ${foot}`,
    ...holeLines(holes, pen),
  ];
}

function mouthLines(mouth: SurveyedMouth, pen: Pen): readonly string[] {
  switch (mouth.kind) {
    case "window": {
      const { window, windway, chamber } = mouth;
      return [
        windowLine(window, pen),
        ...(windway === undefined
          ? []
          : [
              `windway: { length: ${pen.number(windway.length.mm)}, width: ${pen.number(window.width.mm)}, height: ${pen.number(windway.height.mm)} }   # ${pen.sure({ ...windway, width: window.width })}`,
            ]),
        ...(chamber === undefined
          ? []
          : [
              `chamber: { length: ${pen.number(chamber.length.mm)}, diameter: ${pen.number(chamber.diameter.mm)} }   # ${pen.sure(chamber)}`,
            ]),
      ];
    }
    case "hole": {
      const { length, width, chimney, undercut, stopper } = mouth;
      return [
        mouthHole({ length, width, chimney, undercut }, pen),
        `cover: ${DEFAULTS.transverseCover}   # by the lip; ${UNSEEN}`,
        ...(stopper === undefined ? [] : [`stopper: ${pen.number(stopper.mm)}   # ${pen.sure({ stopper })}`]),
      ];
    }
    case "rim": {
      const { notch } = mouth;
      return [
        notch === undefined
          ? `cover: ${DEFAULTS.rimCover}   # by the lip; ${UNSEEN}`
          : `notch: { width: ${pen.number(notch.width.mm)}, depth: ${pen.number(notch.depth.mm)} }   # ${pen.sure({ width: notch.width, depth: notch.depth })}`,
      ];
    }
  }
}

function mouthHole({ length, width, chimney, undercut }: MouthHole, pen: Pen): string {
  return `hole: { length: ${pen.number(length.mm)}, width: ${pen.number(width.mm)}${pair("chimney", chimney, pen)}${pair("undercut", undercut, pen)} }   # ${pen.sure({ length, width, chimney, undercut })}`;
}

type MouthHole = SurveyedMouthHole & { readonly undercut?: Length | undefined };

function windowLine({ width, cutUp, chimney, stopper }: SurveyedWindow, pen: Pen): string {
  const values = `width: ${pen.number(width.mm)}, cutUp: ${pen.number(cutUp.mm)}${pair("chimney", chimney, pen)}${pair("stopper", stopper, pen)}`;
  return `window: { ${values} }   # ${pen.sure({ width, cutUp, chimney, stopper })}`;
}

function pair(key: string, length: Length | undefined, pen: Pen): string {
  return length === undefined ? "" : `, ${key}: ${pen.number(length.mm)}`;
}

function holeLines(holes: readonly SurveyedHole[], pen: Pen, order = "from the mouth to the foot"): readonly string[] {
  if (holes.length === 0) return [];
  return [
    `holes:   # ${order}`,
    ...holes.map((hole, i) => {
      const { at, diameter, length, angle, undercut, raised, chimney, remark } = hole;
      const values = [
        `name: H${i + 1}`,
        ...(at === undefined ? [] : [`at: ${pen.number(at.mm)}`]),
        `diameter: ${pen.number(diameter.mm)}${pair("length", length, pen)}`,
        ...(angle.degrees === 0 ? [] : [`angle: ${Number(angle.degrees.toFixed(1))}`]),
      ];
      const own = `${pair("undercut", undercut, pen)}${pair("raised", raised, pen)}${pair("chimney", chimney, pen)}`;
      const sure = pen.sure({
        at,
        diameter,
        length,
        angle: angle.degrees === 0 ? undefined : angle,
        undercut,
        raised,
        chimney,
      });
      return `  - { ${values.join(", ")}${own} }   # ${sure}${remark === undefined ? "" : `; ${remark}`}`;
    }),
  ];
}

function pipeLines({ pipes, wall }: SurveyedPipes, pen: Pen, { pipeNotes }: Proposal): readonly string[] {
  return [
    `mouth: { cover: ${DEFAULTS.pipeCover} }   # by the lip; ${UNSEEN}`,
    `wall: ${pen.number(wall.mm)}   # ${pen.sure({ wall })}`,
    `pipes:   # notes proposed, the nearest to the prediction; they ${UNSEEN}`,
    ...pipes.map(
      ({ length, diameter }, i) =>
        `  - { note: ${sharpQuoted(pipeNotes[i] ?? "C5")}, length: ${pen.number(length.mm)}, diameter: ${pen.number(diameter.mm)} }   # ${pen.sure({ length, diameter })}`,
    ),
  ];
}

function vesselLines({ window, hole, axes, volume, wall, holes }: SurveyedVessel, pen: Pen): readonly string[] {
  return [
    ...(window === undefined ? [] : ["mouth:", `  ${windowLine(window, pen)}`]),
    ...(hole === undefined
      ? []
      : ["mouth:", `  ${mouthHole(hole, pen)}`, `  cover: ${DEFAULTS.transverseCover}   # by the lip; ${UNSEEN}`]),
    axes === undefined
      ? `vessel: { volume: ${Number(volume.cm3.toFixed(2))} }   # ± ${short(volume.plusMinus)} cm³`
      : `vessel: { shape: ellipsoid, length: ${pen.number(axes[0].mm)}, width: ${pen.number(axes[1].mm)}, height: ${pen.number(axes[2].mm)} }   # ${pen.sure({ length: axes[0], width: axes[1], height: axes[2] })}; inner sizes`,
    `wall: ${pen.number(wall.mm)}   # ${pen.sure({ wall })}`,
    ...holeLines(holes, pen, "the smaller ones first"),
  ];
}

/** A sharp begins a comment nowhere within a word, but a flow mapping is safer quoted. */
function sharpQuoted(name: string): string {
  return name.includes("#") ? JSON.stringify(name) : name;
}

function fingeringLines(fingerings: readonly ProposedFingering[]): readonly string[] {
  if (fingerings.length === 0) return [];
  return [
    `fingerings:   # proposed: opened one after the other, each with the degree nearest to the prediction; they ${UNSEEN}`,
    ...fingerings.map(
      ({ degree, holes, register }) =>
        `  - { degree: ${sharpQuoted(degree)}, holes: ${holes}${register === 1 ? "" : `, register: ${register}`} }`,
    ),
    "",
  ];
}

function standingQuestions(body: Survey["body"]): readonly string[] {
  const covered =
    body.kind === "tube" && body.mouth.kind !== "window"
      ? ["How much of the mouth does the lip cover? Listen to a print and calibrate."]
      : [];
  if (body.kind === "pipes") return ["Are these the notes it plays?", ...covered];
  return ["Are these the fingerings you play, and is this the key?", ...covered];
}
