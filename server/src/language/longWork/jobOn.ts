/** A job on one version of an open design. */
import type { DesignContext } from "../designContext.js";
import type { Job, Work } from "./job.js";

export function jobOn<W extends Work>({ file, settings }: DesignContext, documentIndex: number, work: W): Job<W> {
  return { text: file.text, syntax: file.syntax, documentIndex, settings: settings.analysis, work };
}
