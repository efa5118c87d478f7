/** One small instrument of each family, to write the maker's numbers upon. Dimensions invented. */
import { tube } from "./marked.js";

/** What makes the textbook tube of `tube()` a flute of the family; 352 mm from the mouth to the foot. */
export const TUBE_FAMILIES = {
  duct: "family: duct\nmouth: { window: { width: 9, cutUp: 4.5 } }\n",
  transverse:
    "family: transverse\nmouth: { hole: { length: 10, width: 10 }, stopper: 16 }\nbore: [{ at: -16, diameter: 16 }, { at: 352, diameter: 16 }]\n",
  rim: "family: rim\nmouth: { cover: 0.6 }\n",
} as const;

export const TUBES = Object.entries(TUBE_FAMILIES).map(
  ([family, entries]) => [family, (changes: string) => tube(`${entries}${changes}`)] as const,
);

/** A vessel with a window; `entries` are top-level, holes and all. */
export function vessel(entries: string, shape = "shape: ellipsoid, length: 90, width: 60, height: 45"): string {
  const own = entries.includes("wall:") ? "" : "wall: 4\n";
  return `borewright: 1\nfamily: vessel\nkey: C5\nmouth: { window: { width: 9, cutUp: 5 } }\nvessel: { ${shape} }\n${own}${entries}\n`;
}

/** A pan pipe of three. */
export function panPipe(entries: string): string {
  const pipes =
    "pipes:\n  - { note: C5, length: 158, diameter: 15 }\n  - { note: D5, length: 140, diameter: 15 }\n  - { note: E5, length: 124, diameter: 13 }";
  return `borewright: 1\nfamily: panpipe\n${pipes}\n${entries}\n`;
}
