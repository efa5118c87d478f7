/** Why a refit has moved a joint, which it leaves in its place where nothing needs it elsewhere. */
import type { DesignDocument, DesignFile } from "../../document/designFile.js";
import { jointsOf } from "../../instrument/making/joints.js";
import { pathKey } from "../../instrument/path.js";
import { t } from "../../words/translation.js";
import { NumberWriter } from "../edit/numberWriter.js";
import { unitName } from "../wording.js";
import type { Written } from "./judgedRefit.js";

/** Rules that a joint's place breaks. */
const OF_JOINTS: readonly string[] = ["hole/near-joint", "print/longer-than-bed", "solid/no-room"];
const DECIMALS = 6;

/** A sentence for each joint that lies elsewhere, mm or inches as drawn. */
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
    const why = reason(after, [...path, "at"], was);
    return [`${move}: ${why}.`];
  });
}

/** What would be found with the joint at its old place in the new design; else it has gone along with the bore. */
function reason(
  { file, document }: { file: DesignFile; document: DesignDocument },
  path: readonly (string | number)[],
  was: number,
): string {
  const writer = new NumberWriter(file, document);
  writer.setAll([{ path, value: was }], DECIMALS);
  const known = new Set(document.findings.map(({ message }) => message));
  const found = writer.document.findings.find(({ code, message }) => OF_JOINTS.includes(code) && !known.has(message));
  return found === undefined
    ? t("it goes with the bore, whose taper or length has changed")
    : t`at its old place ${found.message.replace(/[.:;] .*$|\.$/s, "")}`;
}
