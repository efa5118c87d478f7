/** Prose of the sources that goes through no `t`: what a translation would leave in English. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";

const ROOT = join(import.meta.dirname, "../..");

/** Where a text is for programs, logs or names, never for the maker: callees, and properties of objects and JSX. */
const NOT_TOLD =
  /^(t|told|demand|contained|containedSteps|found|guarded|log|error|warn|Error|TypeError|RangeError|RegExp|replace|test|match|split|join|includes|startsWith|endsWith)$/;
const NO_PROSE_IN =
  /^(code|kind|command|of|path|do|when|class|className|d|points|transform|role|key|id|type|content|write|design|name)$/;

/** Two words and more: `The wall`, `{0} is far`; no code in backticks, no formula of numbers, no path of a drawing. */
function isProse(text: string): boolean {
  const bare = text.replace(/`[^`]*`|\{\d+\}/g, " ");
  return /[A-Za-z]{2,}[,.:;]? +[A-Za-z]{2,}/.test(bare) && !/^\s*[#{<-]|[<>{};]\s*$|^\w+: /.test(bare);
}

/** By file: each with its line. @param but files that are left out */
export function unsaid(folders: readonly string[], but: RegExp): readonly string[] {
  const files = folders.flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: "utf8" })
      .filter((file) => /\.tsx?$/.test(file) && !/generated|\.d\.ts$/.test(file))
      .map((file) => `${folder}/${file}`)
      .filter((file) => !but.test(file)),
  );
  return files.flatMap((file) => inFile(file));
}

function inFile(file: string): readonly string[] {
  const source = ts.createSourceFile(file, readFileSync(join(ROOT, file), "utf8"), ts.ScriptTarget.Latest, true);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const text = textOf(node);
    if (text !== undefined && isProse(text) && !isForPrograms(node)) found.push(`${file}: ${text.trim()}`);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

function textOf(node: ts.Node): string | undefined {
  if (ts.isStringLiteralLike(node) || ts.isJsxText(node)) return node.text;
  if (!ts.isTemplateExpression(node)) return undefined;
  return node.templateSpans.reduce((key, { literal }, i) => `${key}{${i}}${literal.text}`, node.head.text);
}

/** Looks outward from the text as far as the statement that it stands in. */
function isForPrograms(text: ts.Node): boolean {
  for (let node = text, up = text.parent; up !== undefined; node = up, up = up.parent) {
    if (ts.isImportDeclaration(up) || ts.isTypeNode(up) || ts.isCaseClause(up) || ts.isElementAccessExpression(up))
      return true;
    if (ts.isTaggedTemplateExpression(up)) return true;
    if (ts.isBinaryExpression(up) && /===|!==/.test(up.operatorToken.getText())) return true;
    if (ts.isPropertyAssignment(up) && (up.name === node || NO_PROSE_IN.test(up.name.getText()))) return true;
    if (ts.isJsxAttribute(up)) return NO_PROSE_IN.test(up.name.getText());
    if ((ts.isCallExpression(up) || ts.isNewExpression(up)) && node !== up.expression) {
      const name = up.expression.getText().replace(/^.*\.(?=\w+$)/s, "");
      if (NOT_TOLD.test(name)) return true;
    }
    if (ts.isStatement(up) || ts.isFunctionLike(up)) return false;
  }
  return false;
}
