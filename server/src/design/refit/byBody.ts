/** How each kind of body is refitted, and how to find out whether it can be. */
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import type { Body } from "../../instrument/body.js";
import type { AnalyseOptions } from "../predict/analyse.js";
import type { Analysis } from "../predict/analysis.js";
import type { Prospect } from "../rekey/nearestKey.js";
import { type Refit, type RefitTargets, refit, refitProspect } from "./refit.js";
import { pipesProspect, refitPipes } from "./refitPipes.js";
import { refitVessel, vesselRefitProspect } from "./refitVessel.js";

interface BodyRefit {
  /** @throws CannotRekey, Cancelled */
  readonly refit: (
    file: DesignFile,
    document: DesignDocument,
    analysis: Analysis,
    goal: RefitTargets,
    options: AnalyseOptions,
  ) => Refit;
  /** Whether the search for obstacles ends when the allowed work is spent; otherwise everything is tried. */
  readonly obstaclesAreCut: boolean;
  /** Whether every note comes within the design's tolerance. @throws CannotRekey, Cancelled */
  readonly prospect: (
    file: DesignFile,
    document: DesignDocument,
    analysis: Analysis,
    goal: RefitTargets,
    options: AnalyseOptions,
  ) => Prospect;
}

export const REFITS: Readonly<Record<Body["kind"], BodyRefit>> = {
  tube: { refit, obstaclesAreCut: true, prospect: (_file, ...asked) => refitProspect(...asked) },
  // Every pipe is cut to its own note, whatever the others do.
  pipes: {
    obstaclesAreCut: false,
    refit: (file, document, analysis, _goal, options) => refitPipes(file, document, analysis, options),
    prospect: (file, document, analysis, _goal, options) => pipesProspect(file, document, analysis, options),
  },
  vessel: { refit: refitVessel, obstaclesAreCut: false, prospect: (_file, ...asked) => vesselRefitProspect(...asked) },
};
