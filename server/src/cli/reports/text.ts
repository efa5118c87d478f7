/** Findings for people: one line each, then a count. */
import { placeText } from "../../document/findingLine.js";
import { terminalLine } from "../../escape/terminal.js";
import type { Severity } from "../../instrument/finding.js";
import type { CheckedFile } from "../check/checked.js";
import type { Paint } from "../colour.js";
import { plural } from "../plural.js";

const STYLE: Record<Severity, Parameters<Paint>[0]> = {
  error: "red",
  warning: "yellow",
  information: "cyan",
  hint: "cyan",
};

export function textReport(checked: readonly CheckedFile[], paint: Paint): string {
  const lines = checked.flatMap((file) =>
    file.findings.map((finding) => {
      const where = terminalLine(placeText(file, finding));
      const severity = paint(STYLE[finding.severity], finding.severity);
      return `${where}: ${severity}: ${terminalLine(finding.message)} ${paint("dim", `[${finding.code}]`)}`;
    }),
  );
  const all = checked.flatMap(({ findings }) => findings);
  const count = (severity: string) => all.filter((finding) => finding.severity === severity).length;
  const [errors, warnings, rest] = [count("error"), count("warning"), count("information") + count("hint")];
  const files = plural(checked.length, "file");
  const close =
    lines.length === 0
      ? "nothing found"
      : `${plural(errors, "error")}, ${plural(warnings, "warning")}${rest === 0 ? "" : `, ${rest} information`}`;
  return [...lines, `${files}: ${close}.`].join("\n");
}
