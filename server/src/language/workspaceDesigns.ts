/** Designs of the folders that the client has open, where this program can read them. */
import type { InitializeParams } from "vscode-languageserver";
import type { Session } from "./session.js";

export interface WorkspaceDesigns {
  /** Answers what is asked about them. @returns whether designs that are not open are checked, too */
  register(session: Session, params: InitializeParams): boolean;
  /** Asks the client to report changed files. */
  watch(session: Session): void;
}
