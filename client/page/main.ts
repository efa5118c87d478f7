/** A page that edits the examples in a browser alone: an editor, and our language server as its worker. */
import { yaml } from "@codemirror/lang-yaml";
import { LSPClient, languageServerExtensions } from "@codemirror/lsp-client";
import { basicSetup, EditorView } from "codemirror";
import { asking } from "./asking.js";
import { EXAMPLES } from "./examples.js";
import { showFindings } from "./findings.js";
import { showHints, shownHints } from "./hints.js";
import { workerTransport } from "./workerTransport.js";

const list = document.querySelector("#findings") as HTMLElement;
const asked = asking({
  hints: showHints,
  findings: (view, findings) => showFindings(view, findings, list),
});
const client = new LSPClient({
  timeout: 60_000, // however slow the machine is
  extensions: [...languageServerExtensions(), shownHints, asked],
});
client.connect(workerTransport(new URL("webWorker.js", location.href).href));

const choice = document.querySelector("#example") as HTMLSelectElement;
choice.append(...Object.keys(EXAMPLES).map((name) => new Option(name)));

let view: EditorView | undefined;
function show(name: string): void {
  view?.destroy();
  list.replaceChildren();
  view = new EditorView({
    doc: EXAMPLES[name] ?? "",
    parent: document.querySelector("#editor") as HTMLElement,
    extensions: [basicSetup, yaml(), client.plugin(`file:///examples/${name}`, languageOf(name))],
  });
}

const languageOf = (name: string): string => (name.endsWith(".json") ? "borewright-json" : "borewright-yaml");

choice.addEventListener("change", () => show(choice.value));
show(choice.value);
