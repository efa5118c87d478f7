/** docs/language-features.md is what the built server answers, feature by feature; else: npm run test:layer -- test/docs/languageFeatures.test.ts -u */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, expect, it } from "vitest";
import { TextDocument } from "vscode-languageserver-textdocument";
import { type Served, served } from "../support/servedStream.js";
import { DESIGN, OTHERS, ROWS, type Row } from "./languageFeatures.js";

const CAPABILITIES = {
  textDocument: {
    diagnostic: {},
    hover: { contentFormat: ["markdown"] },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    inlayHint: { resolveSupport: { properties: ["tooltip", "label.location", "label.command"] } },
    codeAction: { dataSupport: true, resolveSupport: { properties: ["edit"] } },
  },
  workspace: { workspaceFolders: true, diagnostics: {} },
};

const folder = mkdtempSync(join(tmpdir(), "features-"));
const uri = pathToFileURL(join(folder, "slip.bore.yaml")).href;
const text = TextDocument.create(uri, "yaml", 1, DESIGN);
let server: Served;

beforeAll(async () => {
  writeFileSync(join(folder, "slip.bore.yaml"), DESIGN);
  writeFileSync(join(folder, "closed.bore.yaml"), DESIGN.replace("Slip", "Closed"));
  server = await served(CAPABILITIES, folder);
  const textDocument = { uri, languageId: "yaml", version: 1, text: DESIGN };
  await server.connection.sendNotification("textDocument/didOpen", { textDocument });
});
afterAll(async () => {
  await server.end();
  rmSync(folder, { recursive: true });
});

/** Cents and lengths of predictions change when the physics becomes better; the features do not. */
const withoutPredictions = (answer: string) =>
  answer.replaceAll(/[−+-]?\d+(\.\d+)?( ?(cents?|mm|Hz)\b)/g, "…$2").replaceAll(/[−+]\d+(\.\d+)?/g, "…");

const inCell = (answer: string) => answer.replaceAll("|", "\\|").replaceAll(/\s+/g, " ").trim();

async function answered({ method, at, params, answer }: Row): Promise<string> {
  const offset = at === undefined ? 0 : DESIGN.indexOf(at) + at.length - 1;
  expect(at === undefined || DESIGN.includes(at)).toBe(true);
  const place = text.positionAt(offset);
  const result = await server.connection.sendRequest(method, { textDocument: { uri }, ...params(place) });
  const shown = withoutPredictions(inCell(answer(result as never)));
  expect(shown, method).not.toBe("");
  return shown;
}

it("docs/language-features.md is what the server answers over its stream", async () => {
  const rows: string[] = [];
  for (const row of ROWS) {
    const where = row.at === undefined ? "" : ` at \`${row.at.trim()}\``;
    rows.push(`| ${row.feature} | \`${row.method}\`${where} | ${await answered(row)} |`);
  }
  const more = Object.values(OTHERS).map((each) => `- ${each}`);
  const page = `# Language features, one by one

What the server answers to each request of the Language Server Protocol, over its stream, about this design. A test asks the built server
all of it and holds the page to the answers (\`test/docs/languageFeatures.test.ts\`; numbers of predictions are left out as …).

\`\`\`yaml
${DESIGN}\`\`\`

| Feature | Request | Answer |
| --- | --- | --- |
${rows.join("\n")}

Besides:

${more.join("\n")}
`;
  await expect(page).toMatchFileSnapshot("../../docs/language-features.md");
});

it("the page leaves no capability out that the server announces", () => {
  const told = new Set([...ROWS.flatMap(({ capability }) => capability ?? []), ...Object.keys(OTHERS)]);
  expect(new Set(Object.keys(server.result.capabilities))).toEqual(told);
});
