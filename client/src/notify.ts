/** Notifications: the only way to them, since VS Code reads links that run commands in their words. */
import { window } from "vscode";
import { plainText } from "./plainText.js";

export function tell(text: string): void {
  void window.showInformationMessage(plainText(text));
}

export function tellTrouble(text: string): void {
  void window.showErrorMessage(plainText(text));
}

/** @param what did not work, without a full stop */
export function tellFailure(what: string, error: unknown): void {
  tellTrouble(`${what}: ${error instanceof Error ? error.message : String(error)}`);
}
