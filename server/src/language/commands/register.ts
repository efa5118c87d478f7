/** Commands that clients send by name (workspace/executeCommand). */
import { ErrorCodes, ResponseError } from "vscode-languageserver";
import { t } from "../../words/translation.js";
import type { Session } from "../session.js";
import { fixNote } from "./fixNote.js";
import type { CommandHandler } from "./handler.js";
import { FIX_NOTE_COMMAND, REKEY_COMMAND, SHOW_WORST_COMMAND } from "./names.js";
import { rekey } from "./rekey.js";
import { showWorst } from "./showWorst.js";

const HANDLERS = new Map<string, CommandHandler>([
  [REKEY_COMMAND, rekey],
  [FIX_NOTE_COMMAND, fixNote],
  [SHOW_WORST_COMMAND, showWorst],
]);

export function registerCommands(session: Session): void {
  session.connection.onExecuteCommand(async ({ command, arguments: args }, token, progress) => {
    const handler = HANDLERS.get(command);
    if (handler === undefined) return new ResponseError<void>(ErrorCodes.InvalidParams, t`no command ${command}`);
    return handler(session, args, token, progress);
  });
}
