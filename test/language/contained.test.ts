/** What fails in a rule, a remedy, a hover or a hint is reported once and silences nothing else. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { CodeActionKind } from "vscode-languageserver";
import { Cancelled } from "../../server/src/acoustics/cancelled.js";
import * as holeChange from "../../server/src/design/fix/holeChange.js";
import * as band from "../../server/src/design/predict/band.js";
import * as body from "../../server/src/design/predict/body.js";
import { ANALYSIS_RULES } from "../../server/src/design/rules/index.js";
import { contained, tellFaultsTo } from "../../server/src/instrument/contained.js";
import { MAKING_RULES, TUBE_RULES } from "../../server/src/instrument/rules/index.js";
import { codeActions } from "../../server/src/language/codeActions/index.js";
import { diagnostics } from "../../server/src/language/diagnostics.js";
import { hover } from "../../server/src/language/hover/index.js";
import { WHISTLE } from "../support/designs.js";
import { atCursor, designOf, marked } from "../support/language.js";

/** What calls a module's function from outside it meets a failing one. */
function spoil<M extends object>(module: M, name: keyof M & string): void {
  vi.spyOn(module as Record<string, () => never>, name).mockImplementation(() => {
    throw new TypeError(`${name} broke at ${Math.random()}`);
  });
}

/** Findings of many kinds: out of tune, hands, the printer, a schema's. */
const TEXT = `${WHISTLE.replace("at: 210.3", "at: 215.3").replace("diameter: 6.5", "diameter: 2").replace("wall: 3,", "wall: 0.6,")}print: { bed: [100, 100, 100] }\nextras: 1\n`;

let told: string[] = [];
beforeEach(() => {
  told = [];
  tellFaultsTo((error, name) => told.push(`${name}: ${error}`));
});
afterEach(() => {
  tellFaultsTo(() => undefined);
  vi.restoreAllMocks();
});

let readings = 0;
/** Of a text that was not read before: what is known of one fails in no rule. */
const codes = (text = TEXT) => diagnostics(designOf(`${text}# ${++readings}\n`)).map(({ code }) => code);

describe("a rule that fails", () => {
  const rules = [...ANALYSIS_RULES, ...TUBE_RULES, ...MAKING_RULES];
  let whole: ReturnType<typeof codes> | undefined;

  it.each(rules.map((rule) => [rule.code, rule] as const))("%s leaves the findings of all others", (code, rule) => {
    whole ??= codes();
    vi.spyOn(rule as unknown as { check: () => never }, "check").mockImplementation(() => {
      throw new Error(code);
    });
    expect(codes()).toEqual(whole.filter((each) => each !== code));
  });

  it("has something to leave in these tests", () => {
    expect(new Set(codes()).size).toBeGreaterThan(3);
  });
});

it("a remedy that fails leaves its finding, and the failure is logged once", () => {
  const whole = codes();
  spoil(holeChange, "holeChangeSteps");
  for (let keystroke = 0; keystroke < 5; keystroke++) expect(codes(`# ${keystroke}\n${TEXT}`)).toEqual(whole);
  expect(told).toHaveLength(1);
  expect(told[0]).toContain("A remedy: TypeError: holeChangeSteps broke");
});

it("a prediction that fails leaves the findings on text and shape", () => {
  spoil(body, "bodySteps");
  const found = diagnostics(designOf(`${TEXT}# ${++readings}\n`));
  expect(found.map(({ code }) => code)).toEqual(
    expect.arrayContaining(["schema/unknown-property", "pitch/no-resonance"]),
  );
  expect(found.find(({ code }) => code === "pitch/no-resonance")?.message).toContain(
    "cannot be calculated: a fault in this program prevents it. ",
  );
});

it("a part of a hover that fails leaves the other parts", () => {
  const text = () => {
    const { context, position } = atCursor(marked(WHISTLE, "{ degree: 2", 3));
    return JSON.stringify(hover(context, position)?.contents);
  };
  expect(text()).toContain("Good to");
  spoil(band, "bandSteps");
  expect(text()).not.toContain("Good to");
  expect(text()).toContain("predicted");
  expect(text()).toContain("Decided by");
});

it("a failing kind of action leaves the others", async () => {
  spoil(holeChange, "holeChangeSteps");
  const context = designOf(TEXT, { client: { resolvesCodeActions: true } });
  const { range } = diagnostics(context).find(({ code }) => code === "pitch/out-of-tune") ?? {};
  if (range === undefined) throw new Error("nothing out of tune");
  const params = { range, context: { diagnostics: [], only: [CodeActionKind.QuickFix] } };
  const titles = (await codeActions(context, params)).map(({ title }) => title);
  expect(titles).toContain("Bring every note into tune: holes, and the bore toward the foot");
});

it("a cancellation is not a fault", () => {
  expect(() =>
    contained(
      "Test",
      () => {
        throw new Cancelled();
      },
      0,
    ),
  ).toThrow(Cancelled);
  expect(told).toEqual([]);
});
