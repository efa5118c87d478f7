/** What stands in the way of making a design, while it is written: the reasons for which `solid` would refuse it. */
import type { DesignDocument, PlacedFinding } from "../../document/designFile.js";
import { placeFinding } from "../../document/place.js";
import { contained } from "../../instrument/contained.js";
import type { Finding, RuleCode } from "../../instrument/finding.js";
import { isMap, own, pathKey } from "../../instrument/path.js";
import { preflight } from "./preflight.js";

/**
 * Warnings, since it can still be predicted. Only where the design says that it is printed, by `print` or `solid`: a tube of wood
 * or metal is made differently. Not where another finding has the place already.
 */
export function makingFindings(document: DesignDocument): readonly PlacedFinding[] {
  const { findings, resolution } = document;
  const { data } = resolution.draft;
  const isPrinted = isMap(own(data, "print")) || isMap(own(data, "solid"));
  if (!isPrinted || findings.some(({ severity }) => severity === "error")) return [];
  const said = ({ code, path }: Finding) =>
    findings.some((other) => pathKey(other.path) === pathKey(path) && !isOfTheWallAlone(other.code, code));
  const { outline, refused } = contained("What can be made", () => preflight(resolution), NOTHING);
  return outline === undefined
    ? []
    : refused
        .filter((finding) => finding.code !== NO_MOUTH && !said(finding))
        .map((finding) => placeFinding(document, asWarning(finding)));
}

const NOTHING = { outline: undefined, leastWall: 0, refused: [] } as const;
/** A head described only by its effect on the pitch may come from elsewhere. */
const NO_MOUTH: RuleCode = "solid/no-mouth";

/** A finding that the wall is thin, or not whole lines, does not say that it has no room for the windway. */
function isOfTheWallAlone(said: RuleCode, code: RuleCode): boolean {
  return code === NO_ROOM && (said === "print/wall-too-thin" || said === "print/wall-lines");
}

const NO_ROOM: RuleCode = "solid/no-room";

function asWarning(finding: Finding): Finding {
  return { ...finding, severity: "warning" };
}
