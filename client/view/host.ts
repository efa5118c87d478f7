/** The extension on the other side of the page. */
import type { FromView } from "./messages.js";
import type { Voice } from "./sound.js";

interface EditorApi {
  postMessage(message: FromView): void;
  getState(): unknown;
  setState(state: unknown): void;
}

declare function acquireVsCodeApi(): EditorApi;

const api = acquireVsCodeApi();

/** State of the page that survives its being hidden, or a restart of the editor, besides the place that it draws. */
export interface Kept {
  readonly selected?: number;
  readonly open?: readonly Fold[];
  readonly voice?: Voice;
  readonly volume?: number;
}

/** Parts of the page that are folded away until they are asked for. */
export type Fold = "response" | "tables" | "solid";

const kept = (api.getState() ?? {}) as Kept;
// The editor brings the page back by the place that it is told here.
const place = JSON.parse(document.body.dataset.place ?? "{}") as object;
let now: object = { ...kept, ...place };
api.setState(now);

export const host = {
  post: (message: FromView) => api.postMessage(message),
  kept,
  keep: (more: Kept) => {
    now = { ...now, ...more };
    api.setState(now);
  },
};
