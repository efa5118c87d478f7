/** All that is tried on the text of one file in an editor. */
import { Editor } from "../editor.js";
import type { Fault } from "../kind.js";
import { Random } from "../random.js";
import type { TextCase } from "../texts.js";
import { actionFaults } from "./actions.js";
import { answers } from "./answers.js";

/** One for all cases: what a case leaves behind in the server is found by those after it. */
let editor: Promise<Editor> | undefined;
let opened = 0;

/** Opens a text, asks for everything, tries what is offered, and closes it. */
export async function textFaults(
  given: TextCase,
  most: { readonly mostResolved: number; readonly mostFixes: number },
): Promise<readonly Fault[]> {
  editor ??= Editor.start();
  const server = await editor;
  const uri = `file:///hostile/${++opened}/${given.file}`;
  const random = new Random(given.draws);
  server.open(uri, given.text);
  const { faults, diagnostics } = await answers(server, uri, given.text, random);
  const more = await actionFaults(server, given, random, { uri, diagnostics, ...most });
  server.close(uri);
  return [...faults, ...more];
}
