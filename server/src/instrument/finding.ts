/**
 * What a rule has to say about one place of a design. A finding knows paths into the design, never text positions:
 * the document layer turns a path into a range.
 */

/** Keys and list indices from the root of one instrument, e.g. `["holes", 2, "diameter"]`. */
export type Path = readonly (string | number)[];

export type Severity = "error" | "warning" | "information" | "hint";

/** `area/rule`, the name a maker can search for and switch off; each has a page docs/rules/area-rule.md. */
export type RuleCode = `${string}/${string}`;

export interface RelatedPlace {
  readonly path: Path;
  readonly message: string;
}

/** A change at the place of a finding. */
export type Correction =
  /** The key of the entry. */
  | { readonly do: "rename"; readonly to: string }
  /** The text value, or the part of it that the finding marks. */
  | { readonly do: "write"; readonly text: string }
  /** A number or word, letter for letter; where nothing is written there yet, an entry for it. */
  | { readonly do: "set"; readonly raw: string }
  | { readonly do: "remove" };

export interface Finding {
  readonly code: RuleCode;
  readonly severity: Severity;
  /** What is wrong and what to do, in the maker's words, with the numbers. One or two sentences, no trailing newline. */
  readonly message: string;
  /** The value to change. If nothing is written there yet, the finding is shown on the nearest parent that does. */
  readonly path: Path;
  /** `key` marks the name of the entry rather than its value (an unknown property, say). Default `value`. */
  readonly on?: "key" | "value";
  /** Narrows the mark to a part of a text value: UTF-16 offsets into the *string value* at `path`, half open. */
  readonly within?: readonly [number, number];
  readonly related?: readonly RelatedPlace[];
  /** What to write instead, where there is one thing that was most likely meant. */
  readonly correction?: Correction;
  /** Numbers a fix needs, so that it need not be worked out twice. Plain JSON. */
  readonly data?: unknown;
}
