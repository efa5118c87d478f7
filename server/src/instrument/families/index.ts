/** All families. Another one is a module here, its name in `family.ts` and the schema, an example and its tests. */
import type { Body } from "../body.js";
import type { Family } from "../family.js";
import { DUCT } from "./duct.js";
import { PANPIPE } from "./panpipe.js";
import { RIM } from "./rim.js";
import type { FamilyTraits } from "./traits.js";
import { TRANSVERSE } from "./transverse.js";
import { VESSEL } from "./vessel.js";

export const FAMILIES: Readonly<Record<Family, FamilyTraits>> = {
  transverse: TRANSVERSE,
  duct: DUCT,
  rim: RIM,
  panpipe: PANPIPE,
  vessel: VESSEL,
};

/** Undefined where the word names none. */
export function familyNamed(word: unknown): Family | undefined {
  return Object.values(FAMILIES).find(({ name }) => name === word)?.name;
}

/** Undefined while a design does not say its family. */
export function traitsOf({ family }: { readonly family: Family | undefined }): FamilyTraits | undefined {
  return family && FAMILIES[family];
}

/** What sounds in a design; a tube until it says otherwise. */
export function bodyKindOf(design: { readonly family: Family | undefined }): Body["kind"] {
  return traitsOf(design)?.body ?? "tube";
}
