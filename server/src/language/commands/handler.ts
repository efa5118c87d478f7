/** What carries out one command of the server. */
import type { CancellationToken, WorkDoneProgressReporter } from "vscode-languageserver";
import type { Session } from "../session.js";

/** @param args as the client sent them: nothing is known of their form */
export type CommandHandler = (
  session: Session,
  args: readonly unknown[] | undefined,
  token: CancellationToken,
  progress: WorkDoneProgressReporter,
) => Promise<unknown>;
