/** All that the bore view shows of one instrument, step by step. */

import { standingWave } from "../../acoustics/standingWave.js";
import type { Steps } from "../../acoustics/steps.js";
import { outlineOf } from "../../design/outline/index.js";
import type { Analysis, FingeringPrediction } from "../../design/predict/analysis.js";
import { drawnDecimals, signedCents, unitName } from "../../design/wording.js";
import type { DesignDocument } from "../../document/designFile.js";
import { spanOf } from "../../document/locate.js";
import type { Span } from "../../document/span.js";
import { columnFor } from "../../instrument/body.js";
import { hasHoles } from "../../instrument/families/bodyTraits.js";
import { traitsOf } from "../../instrument/families/index.js";
import { tubeSection } from "../../make/drawing/section.js";
import { frequencyOf } from "../../music/tuning.js";
import type { BoreViewAnswer, BoreViewData, Row } from "../../protocol/boreView.js";
import { t } from "../../words/translation.js";
import { bandsInTime } from "../bandsInTime.js";
import type { DesignContext } from "../designContext.js";
import { worstOf } from "../governing.js";
import { fingeringName, plain } from "../words.js";
import { handleSteps } from "./handles.js";
import type { Lines } from "./lines.js";
import { madeOf } from "./made.js";

/** @param brief without bands and slopes */
export function* boreViewSteps(context: DesignContext, document: DesignDocument, brief = false): Steps<BoreViewAnswer> {
  const broken = document.findings.find(({ code, severity }) => code.startsWith("file/") && severity === "error");
  if (broken !== undefined) {
    const { line } = context.text.positionAt(broken.span.start);
    return { trouble: t`Line ${line + 1} cannot be read yet: ${broken.message}` };
  }
  const outline = outlineOf(document.resolution);
  if (outline === undefined) return { trouble: missing(document) };
  const analysis = yield* context.analysisSteps(document);
  const lines = linesOf(context, document);
  const bands = brief ? [] : ((yield* bandsInTime(document, analysis)) ?? []);
  const known = bands.filter((band) => band !== undefined);
  const { instrument, tolerance } = analysis;
  const rows: Row[] = [];
  for (const [i, prediction] of analysis.fingerings.entries()) {
    yield undefined;
    rows.push(rowOf(analysis, prediction, i, bands[i]?.against, lines));
  }
  const view: BoreViewData = {
    uri: context.uri,
    version: context.version,
    documentIndex: document.index,
    lines: [context.text.positionAt(document.span.start).line, context.text.positionAt(document.span.end).line],
    outline,
    section: outline.body.kind === "tube" ? tubeSection(outline.body) : undefined,
    unit: {
      millimetres: instrument.unitMillimetres,
      name: unitName(instrument),
      step: 10 ** -drawnDecimals(instrument),
    },
    verdict: verdictOf(analysis),
    together: known[0]?.togetherReach,
    tolerance,
    rows,
    key: instrument.key?.name,
    keyHz: instrument.key && frequencyOf(instrument.key, instrument.tuning),
    handles: yield* handleSteps(document, analysis, outline, lines, brief),
    ...madeOf(document),
    facts: factsOf(analysis),
  };
  return { view };
}

function linesOf({ text }: DesignContext, document: DesignDocument): Lines {
  const line = (offset: number) => text.positionAt(offset).line;
  return (path) => {
    const { start, end }: Span = spanOf(document, path);
    return [line(start), line(Math.max(start, end - 1))];
  };
}

function missing(document: DesignDocument): string {
  const first = document.findings.find(({ severity }) => severity === "error") ?? document.findings[0];
  return first?.message ?? t("There is nothing to draw yet: the design says neither bore, pipes nor vessel.");
}

function rowOf(
  analysis: Analysis,
  prediction: FingeringPrediction,
  i: number,
  band: number | undefined,
  lines: Lines,
): Row {
  const { fingering, targetHz, predictedHz, cents } = prediction;
  const column = columnFor(analysis.instrument.body, i);
  const { covers = [] } = fingering;
  const wave =
    column === undefined || predictedHz === undefined
      ? undefined
      : standingWave(column, covers, (2 * Math.PI * predictedHz) / analysis.air.soundSpeed);
  return {
    path: fingering.path,
    lines: lines(fingering.path),
    note: fingeringName(fingering, i),
    register: fingering.register,
    targetHz,
    predictedHz,
    cents,
    band,
    inTune: cents !== undefined && Math.abs(cents) <= analysis.tolerance,
    covers: hasHoles(analysis.instrument.body) ? covers.slice(0, analysis.instrument.holes.length) : [],
    wave: wave?.map((value) => Number(value.toFixed(3))),
  };
}

function verdictOf(analysis: Analysis): BoreViewData["verdict"] {
  const { summary, fingerings } = analysis;
  if (summary === undefined) return { inTune: false, words: t("Not predicted yet"), worst: "" };
  const worst = worstOf(fingerings.map((prediction, index) => ({ ...prediction, index })));
  const named =
    worst === undefined ? "" : t`worst ${signedCents(worst.cents)}, ${fingeringName(worst.fingering, worst.index)}`;
  const { outOfTune, count } = summary;
  const words = outOfTune === 0 ? t`All ${count} in tune` : t`${outOfTune} of ${count} out of tune`;
  return { inTune: outOfTune === 0, words, worst: named };
}

function factsOf({ instrument, temperature, tolerance }: Analysis): BoreViewData["facts"] {
  const humidity = plain(100 * instrument.air.humidity, 0);
  return [
    [t("design"), instrument.name ?? t("unnamed")],
    [t("family"), t(traitsOf(instrument)?.title ?? "not said")],
    [t("key"), [instrument.key?.name, instrument.temperament].filter(Boolean).join(", ")],
    [t("air"), `${plain(temperature, 1)} °C, ${humidity} %`],
    [t("tolerance"), t`±${plain(tolerance, 1)} cents`],
    [t("mouth"), instrument.calibrated ? t("calibrated") : t("not calibrated")],
  ];
}
