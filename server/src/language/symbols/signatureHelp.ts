/** What a function of an expression takes, while its values are typed. */
import type { Position, SignatureHelp } from "vscode-languageserver";
import { FUNCTIONS, type FunctionName } from "../../instrument/formula/expression.js";
import { t, told } from "../../words/translation.js";
import type { DesignContext } from "../designContext.js";

const ABOUT: Record<FunctionName, { readonly values: string; readonly text: string }> = {
  min: { values: told("value, …"), text: told("The least of the values.") },
  max: { values: told("value, …"), text: told("The greatest of the values.") },
  sqrt: { values: told("value"), text: told("The square root; a negative number has none.") },
  abs: { values: told("value"), text: told("The value without its sign.") },
  round: { values: told("value"), text: told("The nearest whole number.") },
};

/** The start of an expression on the cursor's line, and the innermost call that is still open in it. */
const EXPRESSION = /(?:[:\-[{,]\s*|^\s*)["']?\s*=([^"'#]*)$/u;
const OPEN_CALL = /([A-Za-z]\w*)\s*\(([^()]*)$/;

export function signatureHelp(context: DesignContext, position: Position): SignatureHelp | null {
  const before = context.text.getText({ start: { line: position.line, character: 0 }, end: position });
  const expression = EXPRESSION.exec(before)?.[1];
  const call = expression === undefined ? null : OPEN_CALL.exec(withoutClosed(expression));
  const [, name = "", given = ""] = call ?? [];
  if (!Object.hasOwn(FUNCTIONS, name)) return null;
  const { values, text } = ABOUT[name as FunctionName];
  const label = `${name}(${t(values)})`;
  const parameter = { label: [name.length + 1, label.length - 1] as [number, number] };
  const isMany = FUNCTIONS[name as FunctionName][1] > 1;
  if (!isMany && given.includes(",")) return null;
  return {
    signatures: [{ label, documentation: t(text), parameters: [parameter] }],
    activeSignature: 0,
    activeParameter: 0,
  };
}

/** The text without what stands between parentheses that are closed again. */
function withoutClosed(text: string): string {
  let [all, before] = [text, ""];
  do {
    before = all;
    all = before.replace(/[A-Za-z]?\w*\([^()]*\)/g, "0");
  } while (all !== before);
  return all;
}
