/** All that client and server say through `t` and `l10n.t`, and the schema's descriptions, as the keys of translations. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import ts from "typescript";

const ROOT = join(import.meta.dirname, "../..");

/** By file: the sentences of each. */
export function sentences(): ReadonlyMap<string, readonly string[]> {
  const files = ["client", "server/src"].flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true, encoding: "utf8" })
      .filter((file) => /\.tsx?$/.test(file))
      .map((file) => `${folder}/${file}`),
  );
  const all = files.map((file): [string, readonly string[]] => [
    file,
    sentencesIn(readFileSync(join(ROOT, file), "utf8"), file),
  ]);
  return new Map(all.filter(([, said]) => said.length > 0));
}

function sentencesIn(text: string, file: string): readonly string[] {
  if (!/\b(t[(`]|told\(|plural\(|demand\()/.test(text)) return [];
  const source = ts.createSourceFile("x.tsx", text, ts.ScriptTarget.Latest, false, ts.ScriptKind.TSX);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isTaggedTemplateExpression(node) && isT(node.tag)) found.push(keyOf(node.template));
    if (ts.isCallExpression(node) && isT(node.expression)) {
      const [first] = node.arguments;
      if (first !== undefined) found.push(...literals(source, first));
    }
    if (ts.isCallExpression(node) && ts.isIdentifier(node.expression) && node.expression.text === "demand") {
      const [, told] = node.arguments;
      if (told !== undefined) found.push(...literals(source, told));
    }
    if (
      ts.isCallExpression(node) &&
      ts.isIdentifier(node.expression) &&
      node.expression.text === "plural" &&
      file.startsWith("server/src/language/")
    )
      found.push(...plurals(node));
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

function isT(node: ts.Node): boolean {
  return (
    (ts.isIdentifier(node) && (node.text === "t" || node.text === "told")) ||
    (ts.isPropertyAccessExpression(node) &&
      ts.isIdentifier(node.expression) &&
      node.expression.text === "l10n" &&
      node.name.text === "t")
  );
}

function keyOf(template: ts.TemplateLiteral): string {
  if (ts.isNoSubstitutionTemplateLiteral(template)) return template.text;
  return template.templateSpans.reduce((key, { literal }, i) => `${key}{${i}}${literal.text}`, template.head.text);
}

/** The text itself; of a constant, `t(WORDS[kind])`, all texts that it holds. */
function literals(source: ts.SourceFile, node: ts.Node): readonly string[] {
  if (ts.isStringLiteralLike(node)) return node.text === "" ? [] : [node.text];
  if (ts.isBinaryExpression(node) && node.operatorToken.kind === ts.SyntaxKind.QuestionQuestionToken)
    return [...literals(source, node.left), ...literals(source, node.right)];
  if (ts.isTemplateExpression(node)) return [];
  if (ts.isConditionalExpression(node))
    return [...literals(source, node.whenTrue), ...literals(source, node.whenFalse)];
  let root = node;
  while (ts.isElementAccessExpression(root) || ts.isPropertyAccessExpression(root)) root = root.expression;
  if (!ts.isIdentifier(root)) return [];
  const { text } = root;
  const found: string[] = [];
  const within = (each: ts.Node): void => {
    if (ts.isStringLiteralLike(each) && each.text !== "") found.push(each.text);
    if (ts.isPropertyAssignment(each)) within(each.initializer);
    else ts.forEachChild(each, within);
  };
  for (const statement of source.statements)
    if (ts.isVariableStatement(statement))
      for (const { name, initializer } of statement.declarationList.declarations)
        if (ts.isIdentifier(name) && name.text === text && initializer !== undefined) within(initializer);
  return found;
}

/** `plural(n, "hole")` says `{0} hole` and `{0} holes`. */
function plurals({ arguments: [, one, several] }: ts.CallExpression): readonly string[] {
  if (one === undefined) return [];
  const words = ts.isConditionalExpression(one) ? [one.whenTrue, one.whenFalse] : [one];
  return words.filter(ts.isStringLiteralLike).flatMap(({ text }) => {
    const many = several !== undefined && ts.isStringLiteralLike(several) ? several.text : `${text}s`;
    return [`{0} ${text}`, `{0} ${many}`];
  });
}

/** Descriptions of the format, which hovers and completion show. */
export function descriptions(): readonly string[] {
  const found: string[] = [];
  JSON.parse(readFileSync(join(ROOT, "schemas/instrument.schema.json"), "utf8"), (key, value) => {
    if (key === "description" && typeof value === "string") found.push(value);
    return value;
  });
  return found;
}
