/** Why a refit has moved a joint, which it leaves in its place where nothing needs it elsewhere. */
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import type { Finding, Path } from "../../instrument/finding.js";
import { jointsOf } from "../../instrument/making/joints.js";
import { pathKey } from "../../instrument/path.js";
import { t } from "../../words/translation.js";
import { NumberWriter } from "../edit/numberWriter.js";
import { firstSentence, unitName } from "../wording.js";
import type { Written } from "./judgedRefit.js";

/** Rules that a joint's place breaks. */
const OF_JOINTS: readonly string[] = ["hole/near-joint", "print/longer-than-bed", "solid/no-room"];
const DECIMALS = 6;

/** A sentence or two for each joint that lies elsewhere, mm or inches as drawn. */
export function movedJoints(
  before: DesignDocument,
  after: Pick<Written, "document"> & { file: DesignFile },
): readonly string[] {
  const old = new Map(jointsOf(before.resolution.draft).map(({ path, at }) => [pathKey(path), at]));
  return jointsOf(after.document.resolution.draft).flatMap(({ path, at }) => {
    const was = old.get(pathKey(path));
    if (was === undefined || was === at) return [];
    const unit = unitName(after.document.resolution.instrument);
    const move = t`The joint at ${was} ${unit} moves to ${at} ${unit}`;
    const trouble = troubleAt(after, [...path, "at"], was);
    return trouble === undefined
      ? [t`${move}: it goes with the bore, whose taper or length has changed.`]
      : [t`${move}. At its old place: ${trouble}`];
  });
}

/** Findings that the joint would have at its old position in the new design, and does not have now. */
function troubleAt(
  { file, document }: { file: DesignFile; document: DesignDocument },
  path: Path,
  was: number,
): string | undefined {
  const writer = new NumberWriter(file, document);
  writer.setAll([{ path, value: was }], DECIMALS);
  const known = new Set(document.findings.map(placeOf));
  const found = writer.document.findings.find(
    (each) => OF_JOINTS.includes(each.code) && each.severity !== "information" && !known.has(placeOf(each)),
  );
  return found && `${firstSentence(found.message).replace(/\.$/, "")}.`;
}

/** Which rule is about which part, without the numbers, which change with every millimetre. */
function placeOf({ code, severity, path, related = [] }: Finding): string {
  return [code, severity, ...[path, ...related.map((each) => each.path)].map(pathKey)].join();
}
