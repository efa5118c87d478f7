/** What the view's page and the extension say to each other. */
import type {
  BoreViewData,
  Path,
  ProposalAnswer,
  ProposedChange,
  ResponseAnswer,
  TrialAnswer,
} from "../../server/src/protocol/boreView.js";
import type { SolidAnswer } from "../../server/src/protocol/making.js";
import type { TextKey } from "./textKeys.js";

export type ToView =
  | { readonly type: "view"; readonly view: BoreViewData }
  /** The text cannot be drawn at the moment: the last drawing stays. */
  | { readonly type: "trouble"; readonly words: string }
  | { readonly type: "trial"; readonly id: number; readonly answer: TrialAnswer }
  /** Something long is under way, or no longer. */
  | { readonly type: "working"; readonly what: string | undefined }
  | { readonly type: "proposal"; readonly answer: ProposalAnswer | undefined }
  | { readonly type: "fixes"; readonly row: number; readonly titles: readonly string[] }
  | { readonly type: "response"; readonly answer: ResponseAnswer }
  | { readonly type: "solid"; readonly answer: SolidAnswer }
  /** What was dragged could not be written. */
  | { readonly type: "endDrag" }
  /** The line of the text's cursor, from 0. */
  | { readonly type: "cursor"; readonly line: number };

export type FromView =
  | { readonly type: "ready" }
  /** The page's own state is kept by the editor; the file to draw is part of it. */
  | { readonly type: "reveal"; readonly line: number }
  | { readonly type: "try"; readonly id: number; readonly path: Path; readonly value: number }
  | { readonly type: "commit"; readonly path: Path; readonly value: number }
  /** A change to be shown before it is made; another key, asked for by the editor. */
  | { readonly type: "propose"; readonly change: ProposedChange }
  | { readonly type: "rekey" }
  | { readonly type: "fixes" | "respond"; readonly row: number }
  /** The solid is looked at. */
  | { readonly type: "solid" }
  /** The change that is shown: made, looked at beside the text, or dropped. */
  | { readonly type: "apply" | "compare" | "discard" }
  /** A whole instrument is wanted where nothing can be drawn. */
  | { readonly type: "new" }
  /** A key that means the text. */
  | { readonly type: "text"; readonly key: TextKey }
  | { readonly type: "save"; readonly name: string; readonly kind: "svg" | "png"; readonly base64: string };
