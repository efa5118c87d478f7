/** Runs a part so that its failure stays its own: logged once, and the rest goes on. */
import { Cancelled } from "../acoustics/cancelled.js";
import type { Steps } from "../acoustics/steps.js";

/** Most faults that are reported. */
const MOST_TOLD = 200;

const told = new Set<string>();
let tell: (error: unknown, name: string) => void = () => undefined;

/** Sets who is told of faults, and in what part; nobody at first. A new listener has been told of none. */
export function tellFaultsTo(listener: (error: unknown, name: string) => void): void {
  told.clear();
  tell = listener;
}

/**
 * What `work` gives, or `otherwise` where it fails. `name` names the part, for the log. @throws
 * Cancelled, which is not a fault
 */
export function contained<T>(name: string, work: () => T, otherwise: T): T {
  try {
    return work();
  } catch (error) {
    hold(error, name);
    return otherwise;
  }
}

/** The same of work done step by step. */
export function* containedSteps<T>(name: string, work: () => Steps<T>, otherwise: T): Steps<T> {
  try {
    return yield* work();
  } catch (error) {
    hold(error, name);
    return otherwise;
  }
}

function hold(error: unknown, name: string): void {
  if (error instanceof Cancelled) throw error;
  if (isNews(error)) tell(error, name);
}

/** Whether a fault is new: the same one may be met at every keystroke. */
export function isNews(error: unknown): boolean {
  const stack = stackOf(error);
  // The message may hold numbers that change with every keystroke; the place does not.
  const place = stack.split("\n").find((line) => /^\s+at /.test(line)) ?? stack;
  if (told.has(place) || told.size >= MOST_TOLD) return false;
  told.add(place);
  return true;
}

export function stackOf(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
