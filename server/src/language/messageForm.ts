/** The form of the protocol's messages that we handle: what each must hold, so that handlers can rely on it. */

type Given = Readonly<Record<string, unknown>>;

/** What a message of these methods must have at a path of its parameters; at `""`, the parameters themselves. */
interface Form {
  readonly of: RegExp;
  readonly path: string;
  readonly is: (value: unknown) => boolean;
  readonly what: string;
}

const isText = (value: unknown) => typeof value === "string";
const isList = (value: unknown) => Array.isArray(value);
const isWhole = (value: unknown) => Number.isInteger(value);
const isName = (value: unknown) => isText(value) || typeof value === "number";
const orLeftOut = (is: Form["is"]) => (value: unknown) => value === undefined || is(value);

/** Language Server Protocol 3.17, and our own requests. A message whose parameters we do not use may hold anything. */
const FORMS: readonly Form[] = [
  { of: /^initialize$/, path: "capabilities", is: isGroup, what: "a group of capabilities" },
  { of: /^textDocument\//, path: "textDocument.uri", is: isText, what: "a text" },
  { of: /^textDocument\/did(Open|Change)$/, path: "textDocument.version", is: isWhole, what: "a whole number" },
  { of: /^textDocument\/didOpen$/, path: "textDocument.text", is: isText, what: "a text" },
  { of: /^textDocument\/didChange$/, path: "contentChanges", is: isList, what: "a list" },
  { of: /^textDocument\/codeAction$/, path: "context.diagnostics", is: isList, what: "a list" },
  {
    of: /^textDocument\/codeAction$/,
    path: "context.only",
    is: orLeftOut((value) => Array.isArray(value) && value.every(isText)),
    what: "a list of texts",
  },
  { of: /^codeAction\/resolve$/, path: "title", is: isText, what: "a text" },
  { of: /^workspace\/executeCommand$/, path: "command", is: isText, what: "a text" },
  { of: /^workspace\/executeCommand$/, path: "arguments", is: orLeftOut(isList), what: "a list" },
  { of: /^workspace\/didChangeConfiguration$/, path: "", is: isGroup, what: "a group" },
  { of: /^borewright\/(instruments|rekeyPreview)$/, path: "uri", is: isText, what: "a text" },
  { of: /^workspace\/symbol$/, path: "query", is: isText, what: "a text" },
  { of: /^workspace\/didChangeWorkspaceFolders$/, path: "event.added", is: isFolders, what: "a list of folders" },
  { of: /^workspace\/didChangeWorkspaceFolders$/, path: "event.removed", is: isFolders, what: "a list of folders" },
  { of: /^\$\/cancelRequest$/, path: "id", is: isName, what: "a number or a text" },
  { of: /^window\/workDoneProgress\/cancel$/, path: "token", is: isName, what: "a number or a text" },
];

/** Requests that make no sense without. */
const AT_A_POSITION: readonly string[] = ["textDocument/hover", "textDocument/completion"];
const IN_A_RANGE: readonly string[] = ["textDocument/codeAction", "textDocument/inlayHint"];

/** What is wrong with the form of a message; undefined where nothing is. */
export function faultIn(method: string, params: unknown): string | undefined {
  for (const { of, path, is, what } of FORMS) {
    if (!of.test(method)) continue;
    const value = path === "" ? params : path.split(".").reduce(at, params);
    if (!is(value)) return path === "" ? `the parameters are ${what}` : `\`${path}\` is ${what}`;
  }
  return isGroup(params) ? faultInPlaces(method, params) : undefined;
}

/** Of its positions and ranges, or of the text of a change. */
function faultInPlaces(method: string, params: Given): string | undefined {
  const positions = "position" in params || AT_A_POSITION.includes(method) ? [params.position] : [];
  const ranges = "range" in params || IN_A_RANGE.includes(method) ? [params.range] : [];
  for (const diagnostic of listIn(params.context, "diagnostics")) ranges.push(at(diagnostic, "range"));
  for (const change of listIn(params, "contentChanges")) {
    if (at(change, "range") !== undefined) ranges.push(at(change, "range"));
    if (!isText(at(change, "text"))) return "a change needs its `text`";
  }
  for (const range of ranges) positions.push(at(range, "start"), at(range, "end"));
  if (positions.every(isPosition)) return undefined;
  const wrong = JSON.stringify(positions.find((each) => !isPosition(each))) ?? "nothing";
  return `${wrong} is not a position: it has a \`line\` and a \`character\`, whole numbers from 0`;
}

function at(value: unknown, key: string): unknown {
  return isGroup(value) ? value[key] : undefined;
}

function listIn(value: unknown, key: string): readonly unknown[] {
  const list = at(value, key);
  return Array.isArray(list) ? list : [];
}

function isPosition(value: unknown): boolean {
  return isGroup(value) && isCount(value.line) && isCount(value.character);
}

/** Of any size: a position beyond the text counts as its end. */
function isCount(value: unknown): boolean {
  return isWhole(value) && (value as number) >= 0;
}

function isFolders(value: unknown): boolean {
  return Array.isArray(value) && value.every((folder) => isText(at(folder, "uri")));
}

function isGroup(value: unknown): value is Given {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
