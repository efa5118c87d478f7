/** What is particular to each kind of body and used in several folders. What only one folder uses is in a table there. */
import type { Body } from "../body.js";

export interface BodyTraits {
  /** Which hole decides a note: the first open one from the mouth, the one that players open last, or none, where it has no holes. */
  readonly governedBy: "first open hole" | "hole opened last" | "nothing";
  /** Whether each note has air of its own, so that nothing done to one moves another. */
  readonly notesApart: boolean;
  /** Whether its length and its width are two things that grow apart; a vessel has one size. */
  readonly hasLength: boolean;
  /** Whether it overblows. A vessel sounds in one register only. */
  readonly hasRegisters: boolean;
  /** Whether the breath of its notes is estimated. At a vessel's edge the vortices decide nearly alone (docs/breath.md). */
  readonly breathIsEstimated: boolean;
  /** Whether the place of a hole along the body tunes it; else its size alone does. */
  readonly holesTunedByPlace: boolean;
}

const BODY_TRAITS: Readonly<Record<Body["kind"], BodyTraits>> = {
  tube: {
    governedBy: "first open hole",
    notesApart: false,
    hasLength: true,
    hasRegisters: true,
    breathIsEstimated: true,
    holesTunedByPlace: true,
  },
  pipes: {
    governedBy: "nothing",
    notesApart: true,
    hasLength: true,
    hasRegisters: true,
    breathIsEstimated: true,
    holesTunedByPlace: false,
  },
  vessel: {
    governedBy: "hole opened last",
    notesApart: false,
    hasLength: false,
    hasRegisters: false,
    breathIsEstimated: false,
    holesTunedByPlace: false,
  },
};

export function bodyTraits({ kind }: Pick<Body, "kind">): BodyTraits {
  return BODY_TRAITS[kind];
}

export function hasHoles(body: Pick<Body, "kind">): boolean {
  return bodyTraits(body).governedBy !== "nothing";
}
