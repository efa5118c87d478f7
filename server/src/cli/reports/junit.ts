/**
 * Findings as test results in the XML of JUnit's Ant task, which build servers show. It has no standard; elements and attributes are
 * those that such servers commonly read (from memory).
 */

import { placeText } from "../../document/findingLine.js";
import { xmlText } from "../../escape/xml.js";
import type { CheckedFile, CheckedFinding } from "../check/checked.js";

/** @param fails whether a finding makes the check fail: the others are told, but pass */
export function junitReport(checked: readonly CheckedFile[], fails: (finding: CheckedFinding) => boolean): string {
  const all = checked.flatMap(({ findings }) => findings);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    open("testsuites", { name: "borewright", ...counts(checked.map(casesIn), all.filter(fails)) }),
    ...checked.flatMap((file) => suite(file, fails)),
    "</testsuites>",
  ].join("\n");
}

/** A file without findings is one test that passed. */
function casesIn({ findings }: CheckedFile): number {
  return Math.max(1, findings.length);
}

function counts(cases: readonly number[], failures: readonly CheckedFinding[]) {
  return { tests: cases.reduce((sum, count) => sum + count, 0), failures: failures.length, errors: 0 };
}

function suite(file: CheckedFile, fails: (finding: CheckedFinding) => boolean): readonly string[] {
  const { findings } = file;
  const clean = [`    ${open("testcase", { name: "nothing found", classname: file.file }, "/")}`];
  return [
    `  ${open("testsuite", { name: file.file, ...counts([casesIn(file)], findings.filter(fails)) })}`,
    ...(findings.length === 0 ? clean : findings.flatMap((finding) => testCase(file, finding, fails(finding)))),
    "  </testsuite>",
  ];
}

function testCase({ file, lines }: CheckedFile, finding: CheckedFinding, failed: boolean): readonly string[] {
  const { line, column } = lines.position(finding.span.start);
  const told = xmlText(`${placeText({ file, lines }, finding)}: ${finding.severity}: ${finding.message}`);
  return [
    `    ${open("testcase", { name: `${finding.code} at ${line + 1}:${column + 1}`, classname: file, file, line: line + 1 })}`,
    failed
      ? `      ${open("failure", { type: finding.code, message: finding.message })}${told}</failure>`
      : `      <system-out>${told}</system-out>`,
    "    </testcase>",
  ];
}

function open(tag: string, attributes: Readonly<Record<string, string | number>>, end = ""): string {
  const list = Object.entries(attributes).map(([name, value]) => `${name}="${xmlText(String(value))}"`);
  return `<${[tag, ...list].join(" ")}${end}>`;
}
