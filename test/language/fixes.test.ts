/** Every fix of every example: it does what its title says, takes its finding away, and touches nothing else. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type CodeAction, CodeActionKind, type Diagnostic } from "vscode-languageserver";
import { OUT_OF_TUNE, type OutOfTuneData } from "../../server/src/design/rules/outOfTune.js";
import { codeActions } from "../../server/src/language/codeActions/index.js";
import type { DesignContext } from "../../server/src/language/designContext.js";
import { type DiagnosticData, diagnostics } from "../../server/src/language/diagnostics.js";
import { WHISTLE } from "../support/designs.js";
import { applied, designOf } from "../support/language.js";

const EXAMPLES = join(import.meta.dirname, "../../examples");

interface Case {
  readonly name: string;
  readonly text: string;
}

/** Cents. Half of the 0.1 mm to which a width is drawn may be near to this. */
const TOLERANCE = 2;

/** The examples, each made stricter than it is so that there is something to put right. */
const CASES: readonly Case[] = [
  { name: "whistle.bore.yaml", text: WHISTLE.replace("tolerance: 10", `tolerance: ${TOLERANCE}`) },
  ...readdirSync(EXAMPLES).map((name) => ({
    name,
    text: spoiled(name, readFileSync(join(EXAMPLES, name), "utf8").replace(/(tolerance"?): \d+/, `$1: ${TOLERANCE}`)),
  })),
];

/** Those in tune to less than that have a number changed. */
function spoiled(name: string, text: string): string {
  const number = {
    "breakwater-pipes.bore.yaml": /(length: )(\d+)/,
    "lantern-vessel.bore.yaml": /(name: L1, diameter: )(\d+)/,
    "pier-notch-flute.bore.json": /("name": "L1".*?"diameter": )(\d+)/,
  }[name];
  return number === undefined
    ? text
    : text.replace(number, (_, word: string, digits: string) => `${word}${Number(digits) + 1}`);
}

const uriOf = ({ name }: Case) => `file:///examples/${name}`;
const outOfTune = (context: DesignContext) => diagnostics(context).filter(({ code }) => code === OUT_OF_TUNE);

/** The fixes of one hole, or of the bore's length, that are linked to a finding. */
async function fixesOf(context: DesignContext, found: Diagnostic): Promise<CodeAction[]> {
  const params = { range: found.range, context: { diagnostics: [found], only: [CodeActionKind.QuickFix] } };
  return (await codeActions(context, params)).filter(
    ({ title, diagnostics: linked }) => linked?.includes(found) && !title.startsWith("Bring"),
  );
}

function worstOf({ data }: Diagnostic): number {
  return ((data as DiagnosticData).data as OutOfTuneData).fingerings[0] ?? -1;
}

function centsOf(context: DesignContext, fingering: number): number {
  const [document] = context.file.documents;
  return (document && context.analysis(document).fingerings[fingering]?.cents) ?? Number.NaN;
}

describe.each(CASES)("$name", async (design) => {
  const context = designOf(design.text, { uri: uriOf(design), client: { resolvesCodeActions: true } });
  const fixes: { found: Diagnostic; action: CodeAction }[] = [];
  for (const found of outOfTune(context))
    fixes.push(...(await fixesOf(context, found)).map((action) => ({ found, action })));

  it("has something to put right", async () => expect(fixes.length).toBeGreaterThan(0));

  it("each fix brings the note it names within the tolerance, so that its finding goes", async () => {
    for (const { found, action } of fixes) {
      const after = designOf(applied(design.text, action.edit, uriOf(design)), { uri: uriOf(design) });
      const fingering = worstOf(found);
      expect(action.title).toMatch(/\d(\.\d+)? mm/);
      expect(Math.abs(centsOf(after, fingering)), action.title).toBeLessThanOrEqual(TOLERANCE);
      expect(Math.abs(centsOf(context, fingering))).toBeGreaterThan(TOLERANCE);
    }
  });

  it("each fix changes one number of one line and keeps every other byte", async () => {
    for (const { action } of fixes) {
      const [old, now] = [design.text, applied(design.text, action.edit, uriOf(design))].map((text) =>
        text.split("\n"),
      ) as [string[], string[]];
      expect(now).toHaveLength(old.length);
      const changed = now.flatMap((line, i) => (line === old[i] ? [] : [[old[i], line] as const]));
      expect(changed).toHaveLength(1);
      const [before, after] = changed[0] ?? ["", ""];
      // What stays: everything but one number, or what is added to an expression.
      const withoutNumbers = (line = "") => line.replace(/( [+-] )?\d+(\.\d+)?/g, "");
      expect(withoutNumbers(after)).toBe(withoutNumbers(before));
    }
  });

  it("a title names the size of the change that the edit makes", async () => {
    for (const { action } of fixes) {
      const told = Number(/(\d+(\.\d+)?) mm/.exec(action.title)?.[1]);
      const edit = action.edit?.documentChanges?.[0];
      const [written] = edit && "edits" in edit ? edit.edits : [];
      if (written === undefined || !("newText" in written)) throw new Error("no edit");
      const old = Number(context.text.getText(written.range));
      const now = Number(written.newText);
      if (Number.isNaN(old) || Number.isNaN(now)) continue; // an expression: its own test holds it
      const size = /^(Move|Shorten|Lengthen)/.test(action.title) ? Math.abs(now - old) : now;
      expect(Math.abs(size - told), action.title).toBeLessThan(0.11);
    }
  });
});
