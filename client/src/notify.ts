/** Notifications: the only way to them, since VS Code reads links that run commands in their words. */
import { window } from "vscode";
import { plainText } from "./plainText.js";

export function tell(text: string): void {
  void window.showInformationMessage(plainText(text), ...buttonFor(text));
}

export function tellTrouble(text: string): void {
  void window.showErrorMessage(plainText(text), ...buttonFor(text));
}

/** Shows a message with a button for the next step: whether the maker chose it. @param next the button's label */
export async function offer(text: string, next: string): Promise<boolean> {
  return (await window.showInformationMessage(plainText(text), next)) === next;
}

/** Asks before something that cannot be undone: whether the maker agrees. @param yes the button's label */
export async function askFirst(question: string, yes: string): Promise<boolean> {
  return (await window.showWarningMessage(plainText(question), { modal: true }, yes)) === yes;
}

/** Characters that a notification shows in its one line; longer ones are cut off, unless they have a button. */
const ONE_LINE = 60;

function buttonFor(text: string): readonly string[] {
  return text.length > ONE_LINE ? ["OK"] : [];
}

/** @param what did not work, without a full stop */
export function tellFailure(what: string, error: unknown): void {
  tellTrouble(`${what}: ${error instanceof Error ? error.message : String(error)}`);
}
