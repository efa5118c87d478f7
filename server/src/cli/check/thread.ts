/** The side of the thread that checks: one file after the other, each answered with its outcome. */
import { isMainThread, parentPort, workerData } from "node:worker_threads";
import { tellFaultsTo } from "../../instrument/contained.js";
import { speak, type Translation } from "../../words/translation.js";
import { type CheckOptions, checkFile, type Outcome } from "./checkFile.js";

export const CHECK_THREAD = "check";

export interface CheckThreadData {
  readonly role: typeof CHECK_THREAD;
  readonly options: CheckOptions;
  readonly translation: Translation | undefined;
}

export interface Done {
  readonly outcome: Outcome;
  /** Of parts of the check that failed by themselves. */
  readonly faults: readonly { readonly fault: unknown; readonly name: string }[];
}

/** True where the program runs as such a thread; it then works from here on and must do nothing else. */
export function checksAsThread(): boolean {
  const data = workerData as Partial<CheckThreadData> | null;
  if (isMainThread || parentPort === null || data?.role !== CHECK_THREAD || data.options === undefined) return false;
  const { options } = data;
  speak(data.translation);
  const port = parentPort;
  let faults: Done["faults"] = [];
  tellFaultsTo((fault, name) => {
    faults = [...faults, { fault, name }];
  });
  port.on("message", (file: string) => {
    const outcome = checkFile(file, options);
    port.postMessage({ outcome, faults } satisfies Done);
    faults = [];
  });
  return true;
}
