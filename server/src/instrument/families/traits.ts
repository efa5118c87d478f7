/** What is particular to a family of instruments before anything is worked out: its words, its mouth, its part of the format. */
import type { Body } from "../body.js";

export interface FamilyTraits {
  /** The word in the file. */
  readonly name: string;
  /** What sounds in it. */
  readonly body: Body["kind"];
  /** As shown to makers. */
  readonly title: string;
  /** What makers call its instruments. Common practice, no source. */
  readonly alsoCalled: readonly string[];
  /** What its mouth is described by; `any` has a rule of its own. */
  readonly mouth: { readonly by: "window" | "hole"; readonly of: string; readonly example: string } | "rim" | "any";
  /** Share of the tube's open end under the lip where the design is silent; absent where it is not blown over a rim. */
  readonly rimCover?: number;
  /** Whether a design may leave out its mouth. */
  readonly mouthIsAssumed?: true;
  /** Whether a plug ends its air above the mouth; a vessel's chamber says itself where it ends. */
  readonly hasStopper: boolean;
  /** Properties of the format that it has and others have not. Common practice, no source. */
  readonly properties: readonly string[];
}
