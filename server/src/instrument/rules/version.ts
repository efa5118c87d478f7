import { t } from "../../words/translation.js";
import type { Finding } from "../finding.js";
import { own } from "../path.js";
import type { DataRule } from "./rule.js";

/** The only version of the file format so far. */
export const FORMAT_VERSION = 1;

export const formatVersion: DataRule = { code: "file/version", check: checkVersion };

/** The mark that makes a file a design. */
function checkVersion(data: unknown): readonly Finding[] {
  const version = own(data, "borewright");
  if (version === FORMAT_VERSION) return [];
  const message =
    version === undefined
      ? t("This design does not say which version of the format it is in. Add `borewright: 1`.")
      : t`Version \`${JSON.stringify(version)}\` of the format is not known here: write \`borewright: 1\`, or use a newer Borewright.`;
  const correction = version === undefined ? { correction: { do: "set", raw: String(FORMAT_VERSION) } as const } : {};
  return [{ code: "file/version", severity: "error", message, path: ["borewright"], ...correction }];
}
