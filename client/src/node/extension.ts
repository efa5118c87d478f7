/** The extension as an editor on this machine, or on a remote one, loads it. */
import type { ExtensionContext } from "vscode";
import { activateOn } from "../activation.js";
import { checkTasks } from "./tasks.js";

export { deactivate } from "../activation.js";

export function activate(context: ExtensionContext): void {
  context.subscriptions.push(checkTasks(context));
  activateOn(context, () => import("./client.js"));
}
