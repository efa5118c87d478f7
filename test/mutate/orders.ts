/** What the main process and the one that runs the tests tell each other: plain data. */

/** The first message to a host. */
export interface Begin {
  readonly root: string;
  /** Files of tests, from the root. */
  readonly files: readonly string[];
  /** A JSON file of instrumented texts by their names, where what the tests cover is to be found out. */
  readonly instrumented?: string;
}

/** One mutant for a host to try. */
export interface Trial {
  readonly file: string;
  readonly text: string;
  /** In this order, up to the first test that fails. */
  readonly tests: readonly { readonly file: string; readonly ids: readonly string[] }[];
  /** So long may nothing be heard of the tests, seconds of the processor's time. */
  readonly patience: number;
}

export type Outcome = "killed" | "survived" | "timed out" | "crashed";

/** What a test touched, as the runner leaves it in the test's `meta`. */
export interface Touched {
  /** A bit for each mutant, base64. */
  readonly touched?: string;
  /** Of the processor's time. */
  readonly seconds?: number;
}

/** What a host reports of one test, or of a file with its imports and hooks. */
export interface Heard {
  readonly file: string;
  /** Of the test; none is the file. */
  readonly id?: string;
  readonly seconds: number;
  readonly failed: boolean;
  readonly touched: string;
}

export type Told =
  | { readonly kind: "ready" }
  | { readonly kind: "heard"; readonly heard: Heard }
  | { readonly kind: "outcome"; readonly outcome: Outcome; readonly by?: string };
