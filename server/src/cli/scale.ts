/** `borewright scale FILE PERCENT…`: what a design plays at another size, and how it lies in the hand and on the printer. */
import { type AtSize, sizesOf } from "../design/scale/atSize.js";
import { percentText, sizeInWords } from "../design/scale/inWords.js";
import type { AnalysisSettings } from "../design/settings.js";
import { signedCents } from "../design/wording.js";
import { jsonText } from "../escape/json.js";
import { table } from "../escape/table.js";
import { lineWidthOf, nozzleOf } from "../instrument/making/makerLimits.js";
import type { Instrument, Resolution } from "../instrument/model.js";
import type { Note } from "../music/note.js";
import { UnusableInput } from "./exitStatus.js";
import type { ReadFile } from "./files.js";
import { instrumentIn } from "./instrumentIn.js";
import { analyseFile } from "./pitch.js";

export interface ScaledDesign {
  readonly file: string;
  readonly resolution: Resolution;
  readonly sizes: readonly AtSize[];
}

/** @throws UnusableInput */
export function scaleFile(
  read: ReadFile,
  { percents, keys }: { readonly percents: readonly number[]; readonly keys: readonly Note[] },
  instrument: number | undefined,
  settings: AnalysisSettings,
): ScaledDesign {
  const index = instrumentIn(read, instrument);
  const [analysis, document] = [analyseFile(read, settings)[index], read.design.documents[index]];
  if (analysis?.summary === undefined || document === undefined)
    throw new UnusableInput(read.file, "no fingering of the design can be predicted");
  const sizes = sizesOf(document.resolution, analysis);
  const wanted = [...percents, ...keys.map(sizes.percentFor)];
  const asked = wanted.length > 0 ? wanted : [100 * document.resolution.instrument.printScale];
  return { file: read.file, resolution: document.resolution, sizes: asked.map(sizes.at) };
}

export function scaleTable({ resolution, sizes }: ScaledDesign): readonly string[] {
  const { instrument } = resolution;
  const said = sizes.map((size) => `${capital(sizeInWords(size))}.`);
  const unit = instrument.unitMillimetres === 1 ? "mm" : "in";
  const length = (mm: number | undefined) => (mm === undefined ? "" : inUnit(mm, instrument));
  const rows = sizes.map(({ percent, plays, length: metres, made, findings }) => [
    percent.toFixed(2),
    plays?.key.name ?? "",
    plays === undefined ? "" : signedCents(plays.cents),
    plays === undefined ? "" : `±${plays.scatterCents.toFixed(1)}`,
    length(1e3 * metres),
    made?.widestGap === undefined ? "" : `${length(made.widestGap.mm)} of ${length(made.reach)}`,
    length(made?.widestHole?.mm),
    length(made?.wall?.mm),
    made?.wall === undefined ? "" : made.wall.lines.toFixed(1),
    bedWord(made?.hasBed, findings),
  ]);
  const headings = ["print %", "key", "cents", "notes within", `length ${unit}`, `fingers ${unit}`, `hole ${unit}`];
  return [
    ...(instrument.name === undefined ? [] : [instrument.name]),
    ...said,
    "",
    ...table(
      [...headings, `wall ${unit}`, "lines", "bed"],
      ["right", "left", "right", "right", "right", "right", "right", "right", "right", "left"],
      rows,
    ),
    legend(resolution, sizes),
    ...sizes.flatMap(({ percent, findings }) => findings.map(({ message }) => `${percentText(percent)}: ${message}`)),
  ];
}

function legend({ draft, instrument }: Resolution, [size]: readonly AtSize[]): string {
  const line = lineWidthOf(draft) ?? nozzleOf(draft)?.mm;
  const text = (mm: number) => `${Number(inUnit(mm, instrument))} ${instrument.unitMillimetres === 1 ? "mm" : "in"}`;
  const { widestGap, widestHole, fingertip } = size?.made ?? {};
  const limits = [
    widestGap
      ? " Fingers: of the stretches of one hand, the one with least to spare, and what those two fingers reach."
      : "",
    widestHole && fingertip ? ` Hole: the widest, of ${text(fingertip)} that a fingertip closes.` : "",
  ].join("");
  const lines = line === undefined ? "" : ` A line is ${text(line)} wide.`;
  return `All sizes are as finished, the percentage is of the drawing. Length: ${lengthIs(instrument)}.${limits}${lines}`;
}

/** The same in every table of sizes and keys; with head and tenons a part is longer on the bed. */
function lengthIs({ body }: Instrument): string {
  if (body.kind === "pipes") return "the longest pipe's";
  return body.kind === "vessel" ? "the cavity's" : "the bore's, from the mouth to the foot";
}

function bedWord(hasBed: boolean | undefined, findings: AtSize["findings"]): string {
  if (!hasBed) return "not stated";
  return findings.some(({ code }) => code === "print/longer-than-bed") ? "see below" : "fits";
}

function inUnit(mm: number, { unitMillimetres }: Instrument): string {
  return (mm / unitMillimetres).toFixed(unitMillimetres === 1 ? 1 : 2);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function scaleJson({ file, resolution, sizes }: ScaledDesign): string {
  const { name, key } = resolution.instrument;
  return jsonText({
    file,
    name: name ?? null,
    key: key?.name ?? null,
    sizes: sizes.map(({ percent, plays, keys, length, made, findings }) => ({
      percent,
      key: plays?.key.name ?? null,
      cents: plays?.cents ?? null,
      notesWithinCents: plays?.scatterCents ?? null,
      between: plays?.between?.map((note) => note.name) ?? null,
      keys: keys.map((each) => ({ key: each.key.name, percent: each.percent })),
      lengthMillimetres: 1e3 * length,
      fingersApartMillimetres: made?.widestGap?.mm ?? null,
      reachMillimetres: made?.reach ?? null,
      widestHoleMillimetres: made?.widestHole?.mm ?? null,
      fingertipMillimetres: made?.fingertip ?? null,
      wallMillimetres: made?.wall?.mm ?? null,
      wallLines: made?.wall?.lines ?? null,
      fitsBed: made?.hasBed ? bedWord(true, findings) === "fits" : null,
      findings: findings.map(({ code, severity, message }) => ({ code, severity, message })),
    })),
  });
}
