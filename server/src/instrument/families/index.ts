/** All families. A new one is a module here, its line below, its word in the schema, an example and its tests. */
import type { Body } from "../body.js";
import { DUCT } from "./duct.js";
import { PANPIPE } from "./panpipe.js";
import { RIM } from "./rim.js";
import type { FamilyTraits } from "./traits.js";
import { TRANSVERSE } from "./transverse.js";
import { VESSEL } from "./vessel.js";

const ALL = [TRANSVERSE, DUCT, RIM, PANPIPE, VESSEL] as const;

export type Family = (typeof ALL)[number]["name"];

type KnownTraits = FamilyTraits & { readonly name: Family };
const KNOWN: readonly KnownTraits[] = ALL;

export const FAMILIES = Object.fromEntries(KNOWN.map((family) => [family.name, family])) as Readonly<
  Record<Family, KnownTraits>
>;

/** The family of tubes that are blown so; undefined where there is none. */
export function tubesBlownBy(mouth: "window" | "hole" | "rim"): Family | undefined {
  return KNOWN.find(
    (own) => own.body === "tube" && (typeof own.mouth === "string" ? own.mouth : own.mouth.by) === mouth,
  )?.name;
}

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
