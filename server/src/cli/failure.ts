/** How a command that failed says so. */
import { CommanderError } from "commander";
import { FileTrouble } from "../files/fileTrouble.js";
import { FINE, UNUSABLE, UnusableInput } from "./exitStatus.js";
import { complain } from "./output.js";

/** Set to anything, a fault of ours is shown with the place in our code. */
const DEBUG = "BOREWRIGHT_DEBUG";

/** Says what went wrong, and gives the exit status. */
export function toldFailure(error: unknown): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? FINE : UNUSABLE; // commander has told it
  if (error instanceof UnusableInput) complain([error.message, ...error.reasons]);
  else if (error instanceof FileTrouble) complain([error.message]);
  else tellFault(error);
  return UNUSABLE;
}

/** One line, with what to do about it. @param where the file it happened with, if it is known */
export function tellFault(error: unknown, where?: string): void {
  const file = where === undefined ? "" : `${where}: `;
  const what = error instanceof Error ? error.message : String(error);
  const how = `Please report it with the command and the design; with ${DEBUG}=1 it says where.`;
  complain([`borewright: internal error: ${file}${what.replace(/[\s.]+$/, "")}. ${how}`]);
  if (process.env[DEBUG] && error instanceof Error) complain((error.stack ?? "").split("\n"));
}
