/** The code actions at a place. Each is offered where it belongs and nowhere else. */
import type { CodeAction, CodeActionParams, Command } from "vscode-languageserver";
import type { Steps } from "../../acoustics/steps.js";
import { CannotRekey } from "../../design/rekey/rekeyResult.js";
import { label } from "../../escape/label.js";
import { containedSteps } from "../../instrument/contained.js";
import { REKEY_COMMAND } from "../commands/names.js";
import { type DesignContext, documentAt } from "../designContext.js";
import { workspaceEdit } from "../edits.js";
import { inSlices, sliced } from "../inSlices.js";
import { jobOn } from "../longWork/jobOn.js";
import { inThisThread, type LongWork } from "../longWork/longWork.js";
import type { ActionPlace, OfferedAction, Recipe } from "./action.js";
import { benchActions } from "./bench.js";
import { calibrateActions } from "./calibrate.js";
import { correctionActions } from "./corrections.js";
import { fingeringActions } from "./findFingering.js";
import { holeActions } from "./fixHole.js";
import { parameterActions } from "./parameters.js";
import { rekeyActions } from "./rekeyKey.js";
import { retuneActions } from "./retune.js";
import { switchOffActions } from "./switchOff.js";
import { togetherActions } from "./together.js";

/** Who works edits out, and when to stop. */
interface Working {
  readonly shouldStop?: () => boolean;
  readonly longWork?: LongWork;
  /** Only these kinds; all, if left out. */
  readonly kinds?: readonly (keyof typeof KINDS)[];
}

/** In the order in which they are offered. */
const KINDS = {
  corrections: correctionActions,
  "fixes of holes": holeActions,
  "fixes of all notes together": togetherActions,
  "search for fingerings": fingeringActions,
  calibration: calibrateActions,
  "the bench": benchActions,
  retuning: retuneActions,
  rekeying: rekeyActions,
  "switches of rules": switchOffActions,
  parameters: parameterActions,
};

type Kind = (typeof KINDS)[keyof typeof KINDS];

function* offeredBy(kind: Kind, place: ActionPlace, only: readonly string[] | undefined): Steps<OfferedAction[]> {
  const offered = kind(place, only);
  return "next" in offered ? yield* offered : offered;
}

/** Rejects with Cancelled. */
export async function codeActions(
  context: DesignContext,
  { range, context: { only, diagnostics } }: Pick<CodeActionParams, "range" | "context">,
  working: Working = {},
): Promise<CodeAction[]> {
  const selection = { start: context.text.offsetAt(range.start), end: context.text.offsetAt(range.end) };
  const document = documentAt(context.file, selection.start);
  if (document === undefined) return [];
  const place = { context, document, selection, diagnostics, shouldStop: working.shouldStop ?? never };
  // Nearly every kind asks for them.
  await inSlices([document], context.findingSteps, place.shouldStop);
  const offered: OfferedAction[] = [];
  for (const [name, kind] of Object.entries(KINDS).filter(([each]) => working.kinds?.includes(each as never) ?? true))
    offered.push(
      ...(await sliced(
        containedSteps(`The ${name}`, () => offeredBy(kind, place, only), []),
        place.shouldStop,
      )),
    );
  const actions: CodeAction[] = [];
  for (const offer of offered.map(labelled)) {
    const action = await finished(context, offer, working);
    if (action !== undefined) actions.push(action);
  }
  return actions;
}

/** The words of a design in a title may be anything. */
function labelled({ action, ...rest }: OfferedAction): OfferedAction {
  return { ...rest, action: { ...action, title: label(action.title) } };
}

/**
 * With a recipe where the client asks again for the edit. Where it does not, a rekeying comes as a command, which works the edit
 * out once it is chosen: a dozen of them at once would take a second. Else with the edit itself.
 */
async function finished(
  context: DesignContext,
  { action, recipe }: OfferedAction,
  working: Working,
): Promise<CodeAction | undefined> {
  if (recipe === undefined) return action;
  const { client } = context;
  if (client.resolvesCodeActions) return { ...action, data: recipe };
  if (client.appliesEdits && recipe.work.do === "rekey")
    return { ...action, command: commandFor(action.title, recipe) };
  try {
    return { ...action, edit: (await editOf(context, action.title, recipe, working)).edit };
  } catch (error) {
    if (error instanceof CannotRekey) return undefined; // what cannot be done is not offered
    throw error;
  }
}

const never = () => false;

function commandFor(title: string, { uri, documentIndex, work }: Recipe): Command {
  const rekeying = work.do === "rekey" ? { note: work.to, by: work.by } : {};
  return { title, command: REKEY_COMMAND, arguments: [{ uri, documentIndex, ...rekeying }] };
}

/** The design that an action to be resolved is about; undefined where the action carries no recipe of ours. */
export function recipeOf(action: CodeAction): Recipe | undefined {
  const recipe = action.data as Partial<Recipe> | undefined;
  return typeof recipe?.uri === "string" && recipe.work !== undefined ? (recipe as Recipe) : undefined;
}

export interface Resolved {
  readonly action: CodeAction;
  /** What it does, what stands in the way of more, and how many notes stay out of tune. */
  readonly message: string;
  readonly outOfTune: number;
}

/**
 * Works out the edit of an action once it is chosen. An action offered for an older text stays without one.
 * Rejects with Cancelled, CannotRekey.
 */
export async function resolveCodeAction(
  context: DesignContext,
  action: CodeAction,
  working: Working = {},
): Promise<Resolved> {
  const recipe = recipeOf(action);
  if (recipe === undefined || recipe.textName !== context.textName) return { action, message: "", outOfTune: 0 };
  const { edit, message, outOfTune } = await editOf(context, action.title, recipe, working);
  return { action: { ...action, edit }, message, outOfTune };
}

async function editOf(
  context: DesignContext,
  title: string,
  { documentIndex, work, preview }: Recipe,
  { shouldStop = never, longWork = inThisThread }: Working,
) {
  const outcome = await longWork.run(jobOn(context, documentIndex, work), shouldStop);
  const { edits, message, outOfTune } = outcome;
  const shown = preview && edits.length > 0 ? { ...outcome, label: title } : undefined;
  return { edit: workspaceEdit(context, edits, shown), message, outOfTune };
}
