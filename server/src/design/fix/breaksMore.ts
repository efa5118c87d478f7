/** What an edit does to the shape: limits of hands, walls and printer that held before it and do not after. */
import type { DesignDocument, PlacedFinding } from "../../document/designFile.js";
import { graded } from "../../instrument/ruleLevels.js";

/** Whether a design has a warning or an error on its shape that another had not, by its own grading of rules. */
export function breaksMore(before: DesignDocument, after: DesignDocument): boolean {
  return newlyBroken(before, after) !== undefined;
}

/** The first such warning or error. */
export function newlyBroken(before: DesignDocument, after: DesignDocument): PlacedFinding | undefined {
  const told = new Set(seriousOf(before).map(keyOf));
  return seriousOf(after).find((finding) => !told.has(keyOf(finding)));
}

function seriousOf({ findings, resolution }: DesignDocument): readonly PlacedFinding[] {
  return graded(findings, resolution.ruleLevels, {}).filter(({ severity }) => severity !== "information");
}

function keyOf({ code, path }: PlacedFinding): string {
  return JSON.stringify([code, path]);
}
