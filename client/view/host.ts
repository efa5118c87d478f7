/** The extension on the other side of the page. */
import type { FromView } from "./messages.js";

interface EditorApi {
  postMessage(message: FromView): void;
  getState(): unknown;
  setState(state: unknown): void;
}

declare function acquireVsCodeApi(): EditorApi;

const api = acquireVsCodeApi();

export const host = {
  post: (message: FromView) => api.postMessage(message),
  /** Kept by the editor while the page is hidden or the window is opened anew. */
  keep: (state: unknown) => api.setState(state),
};
