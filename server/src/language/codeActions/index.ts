/** The code actions at a place. Each is offered where it belongs and nowhere else. */
import type { CodeAction, CodeActionParams, Command } from "vscode-languageserver";
import { rekey } from "../../design/rekey.js";
import { retune } from "../../design/rekeyByRefit.js";
import { CannotRekey } from "../../design/rekeyResult.js";
import { parseNote } from "../../music/note.js";
import { REKEY_COMMAND } from "../capabilities.js";
import { type DesignContext, documentAt } from "../designContext.js";
import { workspaceEdit } from "../edits.js";
import type { OfferedAction, Recipe } from "./action.js";
import { calibrateActions } from "./calibrate.js";
import { holeActions } from "./fixHole.js";
import { rekeyActions } from "./rekeyKey.js";
import { retuneActions } from "./retune.js";
import { switchOffActions } from "./switchOff.js";

/** @throws Cancelled */
export function codeActions(
  context: DesignContext,
  { range, context: { only, diagnostics } }: Pick<CodeActionParams, "range" | "context">,
  shouldStop = () => false,
): CodeAction[] {
  const selection = { start: context.text.offsetAt(range.start), end: context.text.offsetAt(range.end) };
  const document = documentAt(context.file, selection.start);
  if (document === undefined) return [];
  const place = { context, document, selection, diagnostics, shouldStop };
  const offered = [
    ...holeActions(place, only),
    ...calibrateActions(place, only),
    ...retuneActions(place, only),
    ...rekeyActions(place, only),
    ...switchOffActions(place, only),
  ];
  return offered.flatMap((offer) => finished(context, offer, shouldStop) ?? []);
}

/**
 * With a recipe where the client asks again for the edit. Where it does not, a rekeying comes as a command, which works the edit
 * out once it is chosen: a dozen of them at once would take a second. Else with the edit itself.
 */
function finished(context: DesignContext, { action, recipe }: OfferedAction, shouldStop: () => boolean) {
  if (recipe === undefined) return action;
  const { client } = context;
  if (client.resolvesCodeActions) return { ...action, data: recipe };
  if (client.appliesEdits && recipe.work.do === "rekey")
    return { ...action, command: commandFor(action.title, recipe) };
  try {
    return { ...action, edit: editOf(context, action.title, recipe, shouldStop) };
  } catch (error) {
    if (error instanceof CannotRekey) return undefined; // what cannot be done is not offered
    throw error;
  }
}

function commandFor(title: string, { uri, documentIndex, work }: Recipe): Command {
  const rekeying = work.do === "rekey" ? { note: work.to, by: work.by } : {};
  return { title, command: REKEY_COMMAND, arguments: [{ uri, documentIndex, ...rekeying }] };
}

/** The design that an action to be resolved is about; undefined where the action carries no recipe of ours. */
export function recipeOf(action: CodeAction): Recipe | undefined {
  const recipe = action.data as Partial<Recipe> | undefined;
  return typeof recipe?.uri === "string" && recipe.work !== undefined ? (recipe as Recipe) : undefined;
}

/**
 * Works out the edit of an action once it is chosen. An action offered for an older text stays without one.
 * @throws Cancelled, CannotRekey
 */
export function resolveCodeAction(context: DesignContext, action: CodeAction, shouldStop = () => false): CodeAction {
  const recipe = recipeOf(action);
  if (recipe === undefined || recipe.version !== context.version) return action;
  return { ...action, edit: editOf(context, action.title, recipe, shouldStop) };
}

/** @throws Cancelled, CannotRekey */
function editOf(context: DesignContext, title: string, { documentIndex, work }: Recipe, shouldStop: () => boolean) {
  const settings = context.settings.analysis;
  if (work.do === "retune") {
    const { edits } = retune(context.file, documentIndex, work.freedom, settings, { shouldStop });
    return workspaceEdit(context, edits, work.preview ? title : undefined);
  }
  const to = parseNote(work.to);
  if (to === undefined) throw new CannotRekey(`${work.to} is no note`);
  const { edits } = rekey(context.file, documentIndex, to, work.by, settings, { shouldStop });
  return workspaceEdit(context, edits, work.by === "refit" ? title : undefined);
}
