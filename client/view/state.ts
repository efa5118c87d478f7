/** What the page knows, and how each event changes it. Pure: no page, no sound, no messages. */
import type {
  BoreViewData,
  Handle,
  ProposalAnswer,
  ResponseAnswer,
  Row,
  TrialAnswer,
} from "../../server/src/protocol/boreView.js";

export interface Drag {
  readonly handle: Handle;
  /** Where it has been dragged to, mm. */
  readonly value: number;
  /** The value of the latest answer of the server, mm. */
  readonly answered: number;
  readonly refused: string | undefined;
  /** It met a limit. */
  readonly stopped: boolean;
}

export interface ViewState {
  /** As in the text. */
  readonly file: BoreViewData | undefined;
  /** As it would be where the drag has led. */
  readonly trial: BoreViewData | undefined;
  readonly trouble: string | undefined;
  readonly selected: number;
  readonly hovered: number | undefined;
  /** Index of the hole in hand. */
  readonly hole: number | undefined;
  /** The dimension in hand, by its path: a hole's, or the bore's. */
  readonly held: string | undefined;
  /** What is being worked out, in words. */
  readonly working: string | undefined;
  /** A change that is shown before it is made. */
  readonly proposal: ProposalAnswer | undefined;
  /** Fixes offered for a row, by their titles. */
  readonly fixes: { readonly row: number; readonly titles: readonly string[] } | undefined;
  readonly response: ResponseAnswer | undefined;
  readonly drag: Drag | undefined;
  /** Row that sounds. */
  readonly sounding: number | undefined;
  /** The key's lasting tone sounds. */
  readonly droning: boolean;
}

export const INITIAL: ViewState = {
  file: undefined,
  trial: undefined,
  trouble: undefined,
  selected: 0,
  hovered: undefined,
  hole: undefined,
  held: undefined,
  working: undefined,
  proposal: undefined,
  fixes: undefined,
  response: undefined,
  drag: undefined,
  sounding: undefined,
  droning: false,
};

export type Event =
  | { readonly type: "view"; readonly view: BoreViewData }
  | { readonly type: "trouble"; readonly words: string }
  | { readonly type: "cursor"; readonly line: number }
  | { readonly type: "select"; readonly row: number }
  | { readonly type: "hoverRow"; readonly row: number | undefined }
  | { readonly type: "hold"; readonly handle: Handle | undefined }
  | { readonly type: "working"; readonly what: string | undefined }
  | { readonly type: "proposal"; readonly answer: ProposalAnswer | undefined }
  | { readonly type: "fixes"; readonly row: number; readonly titles: readonly string[] }
  | { readonly type: "response"; readonly answer: ResponseAnswer }
  | { readonly type: "drag"; readonly handle: Handle; readonly value: number }
  | { readonly type: "trial"; readonly value: number; readonly answer: TrialAnswer }
  | { readonly type: "endDrag" }
  | { readonly type: "sounding"; readonly row: number | undefined }
  | { readonly type: "droning"; readonly on: boolean }
  | { readonly type: "silent" };

export function next(state: ViewState, event: Event): ViewState {
  switch (event.type) {
    case "view": {
      const selected = Math.min(state.selected, Math.max(0, event.view.rows.length - 1));
      const { file } = state;
      const shown = { ...state, file: completed(event.view, file), trouble: undefined, selected };
      const sameText = file?.version === event.view.version && file.documentIndex === event.view.documentIndex;
      // The text is the truth: a trial ends once the text says something new, and not before.
      return sameText ? shown : { ...shown, ...NOTHING_TRIED, response: undefined };
    }
    case "trouble":
      return { ...state, trouble: event.words, ...NOTHING_TRIED };
    case "cursor":
      return followCursor(state, event.line);
    case "select":
      return { ...state, selected: event.row };
    case "hoverRow":
      return { ...state, hovered: event.row };
    case "hold":
      return state.drag === undefined ? { ...state, ...inHand(event.handle) } : state;
    case "working":
      return { ...state, working: event.what };
    case "proposal": {
      const { answer: proposal } = event;
      // Nothing else is dropped: a drag under way has its own end.
      const trial = proposal?.view ?? (state.proposal === undefined ? state.trial : undefined);
      return { ...state, proposal, trial, working: undefined, fixes: undefined };
    }
    case "fixes":
      return { ...state, fixes: { row: event.row, titles: event.titles }, working: undefined };
    case "response":
      return { ...state, response: event.answer };
    case "drag":
      return { ...state, ...inHand(event.handle), drag: dragged(state.drag, event.handle, event.value) };
    case "trial": {
      if (state.drag === undefined) return state;
      const { refused } = event.answer;
      const view = event.answer.view && completed(event.answer.view, state.file);
      const drag = { ...state.drag, refused, answered: view === undefined ? state.drag.answered : event.value };
      return { ...state, drag, trial: view ?? state.trial };
    }
    case "endDrag":
      return { ...state, drag: undefined, trial: undefined };
    case "sounding":
      return { ...state, sounding: event.row };
    case "droning":
      return { ...state, droning: event.on };
    case "silent":
      return { ...state, sounding: undefined, droning: false };
  }
}

/**
 * A brief answer with what it leaves out taken from before: bands and slopes change little from key to key, and come anew soon after.
 */
function completed(view: BoreViewData, before: BoreViewData | undefined): BoreViewData {
  const isBrief = view.rows.every(({ band }) => band === undefined);
  if (!isBrief || before?.documentIndex !== view.documentIndex || before.rows.length !== view.rows.length) return view;
  const slopes = new Map(before.handles.map(({ path, centsPerMillimetre }) => [path.join("."), centsPerMillimetre]));
  return {
    ...view,
    together: view.together ?? before.together,
    rows: view.rows.map((row, i) => ({ ...row, band: before.rows[i]?.band })),
    handles: view.handles.map((handle) => ({
      ...handle,
      centsPerMillimetre:
        handle.centsPerMillimetre.length > 0
          ? handle.centsPerMillimetre
          : (slopes.get(handle.path.join(".")) ?? handle.centsPerMillimetre),
    })),
  };
}

/** Of what is only tried or proposed. */
const NOTHING_TRIED = { trial: undefined, drag: undefined, proposal: undefined, fixes: undefined, working: undefined };

function inHand(handle: Handle | undefined): Pick<ViewState, "hole" | "held"> {
  return { hole: handle && handle.hole >= 0 ? handle.hole : undefined, held: handle?.path.join(".") };
}

/** The dimension in hand, as it is in what is shown. */
export function heldHandle(state: ViewState): Handle | undefined {
  return state.held === undefined
    ? undefined
    : shownView(state)?.handles.find(({ path }) => path.join(".") === state.held);
}

function dragged(before: Drag | undefined, handle: Handle, wanted: number): Drag {
  const value = Math.max(handle.least, Math.min(handle.greatest, wanted));
  const same = before?.handle === handle ? before : undefined;
  return {
    handle,
    value,
    answered: same?.answered ?? handle.value,
    refused: same?.refused,
    stopped: value !== wanted,
  };
}

function followCursor(state: ViewState, line: number): ViewState {
  const on = ({ lines: [first, last] }: { readonly lines: readonly [number, number] }) => line >= first && line <= last;
  const row = state.file?.rows.findIndex(on) ?? -1;
  if (row >= 0) return { ...state, selected: row, ...inHand(undefined) };
  const handle = state.file?.handles.find(on);
  return handle === undefined ? state : { ...state, ...inHand(handle) };
}

/** The drawing as it is shown: the file's, or what the drag has made of it. */
export function shownView({ file, trial }: ViewState): BoreViewData | undefined {
  return trial ?? file;
}

/** The rows as they are shown: between two answers of the server they follow the slopes. */
export function shownRows(state: ViewState): readonly Row[] {
  const rows = shownView(state)?.rows ?? [];
  const { drag } = state;
  if (state.proposal !== undefined || drag === undefined || drag.value === drag.answered) return rows;
  const by = drag.value - drag.answered;
  return rows.map((row, i) => {
    const slope = drag.handle.centsPerMillimetre[i];
    if (row.cents === undefined || slope === undefined) return row;
    const cents = row.cents + slope * by;
    const tolerance = state.file?.tolerance ?? 0;
    const predictedHz = row.predictedHz && row.predictedHz * 2 ** ((slope * by) / 1200);
    return { ...row, cents, predictedHz, inTune: Math.abs(cents) <= tolerance };
  });
}

/** Rounded to the step in which the design is drawn; limits hold. @param millimetres of the file's unit is in `view` */
export function stepped({ unit }: BoreViewData, { least, greatest }: Handle, value: number): number {
  const step = unit.step * unit.millimetres;
  const rounded = Math.round(value / step) * step;
  return rounded < least
    ? Math.ceil(least / step) * step
    : rounded > greatest
      ? Math.floor(greatest / step) * step
      : rounded;
}
