/** The extension as an editor in a browser loads it. There are no programs to run there: it has no tasks. */
import type { ExtensionContext } from "vscode";
import { activateOn } from "../activation.js";

export { deactivate } from "../activation.js";

export function activate(context: ExtensionContext): void {
  activateOn(context, () => import("./client.js"));
}
