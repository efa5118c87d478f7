/** Writes what the registry of rules says to the places where makers read it. A file that says so already is left alone. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import * as esbuild from "esbuild";

const LEVELS = ["off", "information", "warning", "error"];
const KINDS = { tube: "tubes", panpipe: "pan pipes", vessel: "vessels" };

/** @param {string} root the project's folder */
export async function writeRules(root) {
  const { RULE_REGISTRY, ruleInWords } = await registry(root);
  const all = Object.entries(RULE_REGISTRY);
  const switched = all.filter(([, { canBeSwitched }]) => canBeSwitched);
  edit(join(root, "schemas/instrument.schema.json"), (text) => {
    const entries = switched.map(([code, about]) => schemaEntry(code, ruleInWords(about)));
    return text.replace(
      /(\n {4}"rules": \{[\s\S]*?\n {6}"properties": \{\n)[\s\S]*?(\n {6}\})/,
      (_, head, tail) => `${head}${entries.join(",\n")}${tail}`,
    );
  });
  edit(join(root, "package.json"), (text) => {
    const manifest = JSON.parse(text);
    manifest.contributes.configuration.properties["borewright.rules"].properties = Object.fromEntries(
      switched.map(([code]) => [code, { type: "string", enum: LEVELS, description: `%rule.${code}%` }]),
    );
    return `${JSON.stringify(manifest, null, 2)}\n`;
  });
  const bundle = JSON.parse(readFileSync(join(root, "l10n/bundle.l10n.de.json"), "utf8"));
  const words = switched.map(([code, about]) => [code, ruleInWords(about)]);
  editWords(join(root, "package.nls.json"), words);
  // A rule that is not translated yet: a test asks for it.
  editWords(
    join(root, "package.nls.de.json"),
    words.map(([code, said]) => [code, bundle[said] ?? said]),
  );
  edit(join(root, "docs/rules/README.md"), () => index(all));
}

async function registry(root) {
  const entry = join(root, "server/src/make/ruleRegistry.ts");
  const { outputFiles } = await esbuild.build({ entryPoints: [entry], bundle: true, format: "esm", write: false });
  return import(`data:text/javascript,${encodeURIComponent(outputFiles[0].text)}`);
}

function schemaEntry(code, description) {
  const list = (words) => `[${words.map((word) => JSON.stringify(word)).join(", ")}]`;
  return [
    `        ${JSON.stringify(code)}: {`,
    `          "description": ${JSON.stringify(description)},`,
    `          "type": "string",`,
    `          "enum": ${list(LEVELS)},`,
    `          "examples": ${list(["off", "error"])}`,
    "        }",
  ].join("\n");
}

function index(rules) {
  const rows = rules.map(([code, { title, severity, otherwise, canBeSwitched, kinds }]) => {
    const page = `[${code}](${code.replace("/", "-")}.md)`;
    const grade = otherwise === undefined ? severity : `${severity}, ${otherwise}`;
    const where = kinds === undefined ? "all" : kinds.map((kind) => KINDS[kind]).join(", ");
    return `| ${page} | ${title} | ${grade} | ${canBeSwitched ? "yes" : "no"} | ${where} |`;
  });
  return `# Every finding

Made by \`npm run generate\` from the registry of rules. What can be switched off or graded is, by \`rules\` in a design
or the setting \`borewright.rules\`.

| code | what is found | by default | can be switched | instruments |
| --- | --- | --- | --- | --- |
${rows.join("\n")}
`;
}

/** The settings' words of the rules, as VS Code looks them up. */
function editWords(file, words) {
  edit(file, (text) => {
    const others = Object.entries(JSON.parse(text)).filter(([key]) => !key.startsWith("rule."));
    const all = Object.fromEntries([...others, ...words.map(([code, said]) => [`rule.${code}`, said])]);
    return `${JSON.stringify(all, null, 2)}\n`;
  });
}

function edit(file, change) {
  let text = "";
  try {
    text = readFileSync(file, "utf8");
  } catch {
    // The index is made anew where it is not there.
  }
  const changed = change(text);
  if (changed !== text) writeFileSync(file, changed);
}
